using Reckoner.Datapaths;

namespace Reckoner.Running;

internal sealed partial class Tracer
{
    private readonly List<Landing> dropped = [];

    private readonly Dictionary<Value, HashSet<Value>> lookedAt = new(ReferenceEqualityComparer.Instance);

    /// <summary>What was asked on the way to the act that is executed, the innermost last.</summary>
    private readonly Stack<Value> questions = new();

    public override void Enters(Act act, int way, TracedWord bit)
    {
        base.Enters(act, way, bit);
        questions.Push(
            act.Match(
                let: _ => Value.Unknown,
                transfer: _ => Value.Unknown,
                branch: a => a.Condition,
                arms: a => a.Subject,
                hold: _ => Value.Unknown,
                remark: _ => Value.Unknown
            )
        );
    }

    public override void Leaves(Act act, int way)
    {
        base.Leaves(act, way);
        questions.Pop();
    }

    /// <summary>Notes outputs that the act would have kept, had what was asked of them fallen otherwise.</summary>
    private void Drop(TransferAct act, TracedWord word)
    {
        if (!IsTaken)
        {
            Drop(Landings(act, word), questions);
        }
        else if (Chosen(act.Value) is { Operation: Operation.Choose } choice)
        {
            var other = choice.Inputs[Heard.Word(choice.Inputs[0]).Bits.IsOne ? 2 : 1];
            Drop(Landings(act, Heard.Word(other)), [choice.Inputs[0]]);
        }
    }

    private void Drop(IEnumerable<Landing> found, IEnumerable<Value> asked) =>
        dropped.AddRange(found.Where(l => asked.Any(q => LookedAt(q).Contains(l.Value))));

    private static Value Chosen(Value value) => value.Operation == Operation.Wire ? Chosen(value.Wire!.Value) : value;

    /// <summary>All that a question looks at, each value once: through names a chain of them has as many ways as two to its length.</summary>
    private HashSet<Value> LookedAt(Value question)
    {
        if (lookedAt.TryGetValue(question, out var seen))
        {
            return seen;
        }
        lookedAt[question] = seen = new(ReferenceEqualityComparer.Instance);
        var open = new Stack<Value>([question]);
        while (open.TryPop(out var value))
        {
            if (!seen.Add(value))
            {
                continue;
            }
            foreach (var input in value.Inputs)
            {
                open.Push(input);
            }
            if (value.Operation == Operation.Wire)
            {
                open.Push(value.Wire!.Value);
            }
        }
        return seen;
    }
}
