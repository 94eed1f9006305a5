using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Notation;

namespace Reckoner.Timelines;

/// <summary>An outcome of a decision as it is written, and the bit that is 1 where it comes about.</summary>
public sealed record Outcome(Source Source, int Line, string Text, int Word)
{
    /// <summary>The bit that is 1 where the decision is met, whatever its outcome.</summary>
    public required int Path { get; init; }

    /// <summary>In a choice among arms: what is chosen by, and the label of the arm.</summary>
    public (string Subject, string Label)? Arm { get; init; }
}

/// <summary>A value that was named, the word it had, and the bit that is 1 where it was.</summary>
public sealed record NamedWord(Wire Wire, int Word, int Path);

/// <summary>
/// Executes acts on words instead of numbers: every branch is taken and the results are chosen between. Needs a graph and the
/// words the registers hold; leaves the words they hold then.
/// </summary>
public sealed class Unrolling(WordGraph graph, Func<Operand, int> operandWord)
{
    private readonly Dictionary<Wire, int> wires = [];
    private readonly List<Outcome> outcomes = [];
    private readonly List<NamedWord> named = [];
    private int path;

    /// <summary>The word of "last" in the round being executed.</summary>
    public int Last { get; set; }

    /// <summary>The step being executed, for origins; 0 is the load.</summary>
    public int Step { get; set; }

    /// <summary>What the registers hold, by index.</summary>
    public int[] Registers { get; private set; } = [];

    /// <summary>What was decided since the last <see cref="Begin"/>.</summary>
    public IReadOnlyList<Outcome> Outcomes => [.. outcomes];

    /// <summary>What was named since then.</summary>
    public IReadOnlyList<NamedWord> Named => [.. named];

    public void Begin(int[] registers)
    {
        Registers = [.. registers];
        wires.Clear();
        outcomes.Clear();
        named.Clear();
        path = graph.Constant(1, 1);
    }

    /// <summary>Notes an outcome of a decision: the bit that is 1 when this path is taken and the outcome comes about.</summary>
    private int Decided(Source source, int line, string text, int bit, (string, string)? arm = null)
    {
        var word = graph.And(path, bit);
        outcomes.Add(new Outcome(source, line, text, word) { Path = path, Arm = arm });
        return word;
    }

    private void Decide(Source source, int line, Value value, Func<Value, int> word)
    {
        if (value.Operation == Operation.Choose)
        {
            Decided(source, line, Printer.Text(value.Inputs[0].Written!), word(value.Inputs[0]));
        }
        else if (value.Operation == Operation.Select)
        {
            DecideArms(source, line, word(value.Inputs[0]), Printer.Text(value.Inputs[0].Written!), value.Arms);
        }
        foreach (var input in value.Inputs)
        {
            Decide(source, line, input, word);
        }
    }

    /// <summary>The bit of every arm, in order; the last acts when no other does.</summary>
    private List<int> DecideArms(Source source, int line, int subject, string text, IReadOnlyList<ArmPatterns> arms)
    {
        var bits = new List<int>();
        var none = graph.Constant(1, 1);
        foreach (var arm in arms)
        {
            var bit = arm.IsElse ? none : Match(subject, arm);
            none = graph.And(none, graph.Not(bit));
            bits.Add(bit);
            Decided(source, line, $"{text} = {arm.Written}", bit, (text, arm.Written));
        }
        return bits;
    }

    /// <summary>Executes one moment: its acts in order. The binder has made sure that order does not matter.</summary>
    public void Moment(IReadOnlyList<Act> acts)
    {
        foreach (var act in acts)
        {
            Execute(act);
        }
    }

    private void Execute(Act act)
    {
        var origin = new Origin(Step, act.Source, act.Line, null);
        graph.Origin = origin;
        switch (act)
        {
            case LetAct a:
                Decide(a.Source, a.Line, a.Wire.Value, Word);
                Name(a.Wire);
                if (a.Second is not null)
                {
                    Name(a.Second);
                }
                break;
            case TransferAct a:
                Transfer(a);
                break;
            case BranchAct a:
                var condition = Word(a.Condition);
                Decided(a.Source, a.Line, Printer.Text(a.Condition.Written!), condition);
                var (then, otherwise) = (After(a.Then, condition), After(a.Otherwise, graph.Not(condition)));
                graph.Origin = origin;
                Registers = Merged(condition, then, otherwise);
                break;
            case CaseAct a:
                Case(a);
                break;
            case HoldAct or RemarkAct:
                break;
            default:
                throw new InvalidOperationException(act.GetType().Name);
        }
    }

    private void Name(Wire wire)
    {
        wires[wire] = Word(wire.Value);
        named.Add(new NamedWord(wire, wires[wire], path));
    }

    private void Transfer(TransferAct act)
    {
        Decide(act.Source, act.Line, act.Value, Word);
        var value = Word(act.Value);
        var top = graph.Width(value) - 1;
        foreach (var place in act.Places)
        {
            var bits = graph.Slice(value, top, top - place.Width + 1);
            top -= place.Width;
            Registers[place.Register.Index] = Replaced(Registers[place.Register.Index], place, bits);
        }
    }

    private int Replaced(int register, Place place, int bits)
    {
        var parts = new List<int>();
        if (place.High < graph.Width(register) - 1)
        {
            parts.Add(graph.Slice(register, graph.Width(register) - 1, place.High + 1));
        }
        parts.Add(bits);
        if (place.Low > 0)
        {
            parts.Add(graph.Slice(register, place.Low - 1, 0));
        }
        return graph.Join(parts);
    }

    /// <summary>The registers after acts, the registers here left as they are.</summary>
    private int[] After(IReadOnlyList<Act> acts, int condition)
    {
        var (before, outer) = (Registers, path);
        path = graph.And(path, condition);
        Registers = [.. before];
        Moment(acts);
        var after = Registers;
        (Registers, path) = (before, outer);
        return after;
    }

    private int[] Merged(int condition, int[] then, int[] otherwise) =>
        [.. then.Zip(otherwise, (a, b) => graph.Choose(condition, a, b))];

    private void Case(CaseAct act)
    {
        var subject = Word(act.Subject);
        var text = Printer.Text(act.Subject.Written!);
        var taken = DecideArms(act.Source, act.Line, subject, text, [.. act.Arms.Select(a => a.Patterns)]);
        var after = act.Arms.Zip(taken, (a, bit) => After(a.Acts, bit)).ToList();
        graph.Origin = new Origin(Step, act.Source, act.Line, null);
        var merged = after[^1];
        for (var i = after.Count - 2; i >= 0; i--)
        {
            merged = Merged(taken[i], after[i], merged);
        }
        Registers = merged;
    }

    /// <summary>One bit: whether a word matches one of the patterns.</summary>
    private int Match(int subject, ArmPatterns arm)
    {
        var any = graph.Constant(0, 1);
        foreach (var pattern in arm.Patterns)
        {
            var cared = new List<int>();
            var bits = BigInteger.Zero;
            var count = 0;
            for (var place = graph.Width(subject) - 1; place >= 0; place--)
            {
                if (!(pattern.Mask >> place).IsEven)
                {
                    cared.Add(graph.Slice(subject, place, place));
                    bits = (bits << 1) | ((pattern.Bits >> place) & 1);
                    count++;
                }
            }
            any = graph.Or(
                any,
                count == 0 ? graph.Constant(1, 1) : graph.Equal(graph.Join(cared), graph.Constant(bits, count))
            );
        }
        return any;
    }

    /// <summary>The word of a value in the present state.</summary>
    public int Word(Value v)
    {
        var inputs = v.Operation is Operation.Carry or Operation.Borrow or Operation.CarrySaveCarry
            ? [.. v.Inputs[0].Inputs.Select(Word)]
            : v.Inputs.Select(Word).ToArray();
        var outer = graph.Origin;
        graph.Origin = outer with { Value = v };
        var word = Word(v, inputs);
        graph.Origin = outer;
        return word;
    }

    private int Word(Value v, int[] x) =>
        v.Operation switch
        {
            Operation.Unknown => throw new InvalidOperationException("a datapath has no unknown values"),
            Operation.Constant => graph.Constant(v.Bits, v.Width),
            Operation.Operand => operandWord(v.Operand!),
            Operation.Register => Registers[v.Register!.Index],
            Operation.Wire => wires[v.Wire!],
            Operation.Last => Last,
            Operation.Slice => graph.Slice(x[0], v.Low + v.Width - 1, v.Low),
            Operation.Join => graph.Join(x),
            Operation.Copies => graph.Copies(x[0], v.Width),
            Operation.Reread => x[0],
            Operation.Extend => Extended(v, x[0]),
            Operation.ShiftLeft => graph.Slice(graph.Join(x), v.Width - 1, 0),
            Operation.ShiftRight => ShiftedRight(v, x[0], x[1]),
            Operation.Add => graph.Add(x[0], x[1]),
            Operation.Subtract => graph.Subtract(x[0], x[1]),
            Operation.Negate => graph.Subtract(graph.Constant(0, v.Width), x[0]),
            Operation.Magnitude => graph.Choose(
                graph.Slice(x[0], v.Width - 1, v.Width - 1),
                graph.Subtract(graph.Constant(0, v.Width), x[0]),
                x[0]
            ),
            Operation.Multiply => graph.Multiply(x[0], x[1], v.Reading == Reading.Signed),
            Operation.CarrySaveSum => graph.CarrySaveSum(x[0], x[1], x[2]),
            Operation.CarrySaveCarry => graph.CarrySaveCarry(x[0], x[1], x[2]),
            Operation.Carry => graph.Carry(x[0], x[1]),
            Operation.Borrow => graph.Less(x[0], x[1]),
            Operation.And => graph.And(x[0], x[1]),
            Operation.Or => graph.Or(x[0], x[1]),
            Operation.Xor => graph.Xor(x[0], x[1]),
            Operation.Not => graph.Not(x[0]),
            Operation.Equal => graph.Equal(x[0], x[1]),
            Operation.Unequal => graph.Not(graph.Equal(x[0], x[1])),
            Operation.Less => Less(v, x[0], x[1]),
            Operation.LessOrEqual => graph.Not(Less(v, x[1], x[0])),
            Operation.Greater => Less(v, x[1], x[0]),
            Operation.GreaterOrEqual => graph.Not(Less(v, x[0], x[1])),
            Operation.Choose => graph.Choose(x[0], x[1], x[2]),
            Operation.Select => Selected(v, x),
            Operation.Lookup => graph.Lookup(v.Table!, graph.Join(x)),
        };

    private int Extended(Value v, int word)
    {
        var more = v.Width - graph.Width(word);
        if (more == 0)
        {
            return word;
        }
        var top = graph.Width(word) - 1;
        var above =
            v.Reading == Reading.Signed ? graph.Copies(graph.Slice(word, top, top), more) : graph.Constant(0, more);
        return graph.Join([above, word]);
    }

    private int ShiftedRight(Value v, int word, int entering)
    {
        var joined = graph.Join([entering, word]);
        return graph.Slice(joined, graph.Width(joined) - 1, graph.Width(joined) - v.Width);
    }

    /// <summary>A bare side takes the other's reading. A sign test is the top bit.</summary>
    private int Less(Value v, int a, int b)
    {
        if (v.IsSignTest)
        {
            return graph.Slice(a, graph.Width(a) - 1, graph.Width(a) - 1);
        }
        return v.Inputs.Any(i => i.Reading == Reading.Signed) ? graph.LessSigned(a, b) : graph.Less(a, b);
    }

    private int Selected(Value v, int[] x)
    {
        var chosen = x[^1];
        for (var i = v.Arms.Count - 2; i >= 0; i--)
        {
            chosen = graph.Choose(Match(x[0], v.Arms[i]), x[i + 1], chosen);
        }
        return chosen;
    }
}
