using System.Numerics;

namespace Reckoner.Timelines;

/// <summary>Evaluates a timeline word by word for one set of operands.</summary>
internal sealed class TimelineRun
{
    private readonly BigInteger[] values;

    /// <param name="operands">The operands' bits, in the order of the text.</param>
    public TimelineRun(Timeline timeline, IReadOnlyList<BigInteger> operands)
    {
        var words = timeline.Graph.Words;
        values = new BigInteger[words.Count];
        for (var i = 0; i < values.Length; i++)
        {
            values[i] = Bits(words[i], timeline.Graph, operands, values);
        }
    }

    /// <summary>The bits of the word at a place of the graph.</summary>
    public BigInteger this[int place] => values[place];

    public BigInteger[] At(int[] places) => [.. places.Select(p => values[p])];

    /// <param name="sources">What operands, or registers, hold.</param>
    /// <param name="values">The words before it.</param>
    internal static BigInteger Bits(
        Word w,
        WordGraph graph,
        IReadOnlyList<BigInteger> sources,
        IReadOnlyList<BigInteger> values
    )
    {
        return w.Operation switch
        {
            WordOperation.Constant => w.Bits,
            WordOperation.Operand or WordOperation.Register => sources[w.Low],
            WordOperation.Last => throw new InvalidOperationException("a timeline knows its rounds"),
            WordOperation.Slice => Numbers.Bits.Wrap(In(0) >> w.Low, w.Width),
            WordOperation.Join => w.Inputs.Aggregate(
                BigInteger.Zero,
                (high, i) => (high << graph.Width(i)) | values[i]
            ),
            WordOperation.Copies => In(0).IsOne ? Numbers.Bits.Mask(w.Width) : 0,
            WordOperation.Add => Numbers.Bits.Wrap(In(0) + In(1), w.Width),
            WordOperation.Carry => (In(0) + In(1)) >> graph.Width(w.Inputs[0]),
            WordOperation.Subtract => Numbers.Bits.Wrap(In(0) - In(1), w.Width),
            WordOperation.Less => In(0) < In(1) ? 1 : 0,
            WordOperation.Multiply => Numbers.Bits.Wrap(Number(0) * Number(1), w.Width),
            WordOperation.CarrySaveSum => In(0) ^ In(1) ^ In(2),
            WordOperation.CarrySaveCarry => (In(0) & In(1)) | (In(0) & In(2)) | (In(1) & In(2)),
            WordOperation.And => In(0) & In(1),
            WordOperation.Or => In(0) | In(1),
            WordOperation.Xor => In(0) ^ In(1),
            WordOperation.Not => Numbers.Bits.Mask(w.Width) ^ In(0),
            WordOperation.Equal => In(0) == In(1) ? 1 : 0,
            WordOperation.Choose => In(0).IsOne ? In(1) : In(2),
            WordOperation.Lookup => w.Table!.Cells[(int)In(0)],
        };

        BigInteger In(int i) => values[w.Inputs[i]];

        BigInteger Number(int i) => w.IsSigned ? Numbers.Bits.AsSigned(In(i), graph.Width(w.Inputs[i])) : In(i);
    }
}
