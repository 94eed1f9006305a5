using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Execution;

namespace Reckoner.Timelines;

/// <summary>Words as places of a graph: what operations do with all numbers at once. Every way of a decision is taken.</summary>
/// <param name="operandWord">The word of an operand, or a refusal where operands are gone.</param>
internal sealed class GraphWords(WordGraph graph, Func<Operand, int> operandWord) : IWordDomain<int>
{
    public bool TakesAllWays => true;

    public int Word(Value v, ReadOnlySpan<int> x)
    {
        var outer = graph.Origin;
        graph.Origin = outer with { Value = v };
        var word = Made(v, x);
        graph.Origin = outer;
        return word;
    }

    private int Made(Value v, ReadOnlySpan<int> x) =>
        v.Operation switch
        {
            Operation.Unknown => throw new InvalidOperationException("a datapath has no unknown values"),
            Operation.Constant => graph.Constant(v.Bits, v.Width),
            Operation.Operand => operandWord(v.Operand!),
            Operation.Register or Operation.Wire or Operation.Last or Operation.Reread => x[0],
            Operation.Slice => graph.Slice(x[0], v.Low + v.Width - 1, v.Low),
            Operation.Join => graph.Join([.. x]),
            Operation.Copies => graph.Copies(x[0], v.Width),
            Operation.Extend => Extended(v, x[0]),
            Operation.ShiftLeft => graph.Slice(graph.Join([.. x]), v.Width - 1, 0),
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
            Operation.Lookup => graph.Lookup(v.Table!, graph.Join([.. x])),
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

    private int Selected(Value v, ReadOnlySpan<int> x)
    {
        var chosen = x[^1];
        for (var i = v.Arms.Count - 2; i >= 0; i--)
        {
            chosen = graph.Choose(Matches(v.Inputs[0], x[0], v.Arms[i]), x[i + 1], chosen);
        }
        return chosen;
    }

    public int Bit(bool isOne) => graph.Constant(isOne ? 1 : 0, 1);

    public int Both(int a, int b) => graph.And(a, b);

    public int Not(int bit) => graph.Not(bit);

    public int Matches(Value subject, int word, ArmPatterns arm)
    {
        if (arm.IsElse)
        {
            return Bit(isOne: true);
        }
        var any = graph.Constant(0, 1);
        foreach (var pattern in arm.Patterns)
        {
            var cared = new List<int>();
            var bits = BigInteger.Zero;
            for (var place = graph.Width(word) - 1; place >= 0; place--)
            {
                if (!(pattern.Mask >> place).IsEven)
                {
                    cared.Add(graph.Slice(word, place, place));
                    bits = (bits << 1) | ((pattern.Bits >> place) & 1);
                }
            }
            any = graph.Or(
                any,
                cared.Count == 0
                    ? graph.Constant(1, 1)
                    : graph.Equal(graph.Join(cared), graph.Constant(bits, cared.Count))
            );
        }
        return any;
    }

    public bool? IsOne(int bit) => null;

    public int Chosen(Value? question, int bit, int then, int otherwise) => graph.Choose(bit, then, otherwise);

    public int Stored(int register, Place place, int word, int low)
    {
        var parts = new List<int>(3);
        if (place.High < graph.Width(register) - 1)
        {
            parts.Add(graph.Slice(register, graph.Width(register) - 1, place.High + 1));
        }
        parts.Add(graph.Slice(word, low + place.Width - 1, low));
        if (place.Low > 0)
        {
            parts.Add(graph.Slice(register, place.Low - 1, 0));
        }
        return graph.Join(parts);
    }

    public int Latched(int register, int word) => word;
}
