using Reckoner.Datapaths;

namespace Reckoner.Running;

internal sealed partial class Tracer
{
    private readonly List<Landing> dropped = [];

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
        dropped.AddRange(found.Where(l => asked.Any(q => LooksAt(q, l.Value))));

    private static Value Chosen(Value value) => value.Operation == Operation.Wire ? Chosen(value.Wire!.Value) : value;

    private static bool LooksAt(Value question, Value output) =>
        ReferenceEquals(question, output)
        || (question.Operation == Operation.Wire && LooksAt(question.Wire!.Value, output))
        || question.Inputs.Any(i => LooksAt(i, output));
}
