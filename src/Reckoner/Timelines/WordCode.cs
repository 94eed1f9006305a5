using Reckoner.Numbers;

namespace Reckoner.Timelines;

/// <summary>
/// The words of a graph as one flat list of operations on 64 bits, for those who run the same edge a million times: the fast twin
/// of <see cref="TimelineRun"/>. No word may be wider than 64 bits.
/// </summary>
internal sealed class WordCode
{
    private const int MostOnStack = 1024;

    private readonly Line[] lines;
    private readonly int[] outputs;

    private WordCode(Line[] lines, int[] outputs)
    {
        this.lines = lines;
        this.outputs = outputs;
    }

    /// <param name="Low">The place of a slice; the index of an operand or register.</param>
    /// <param name="WidthA">The width of the first input, <paramref name="WidthB"/> that of the second.</param>
    private readonly record struct Line(
        WordOperation Operation,
        int A,
        int B,
        int C,
        int Low,
        int WidthA,
        int WidthB,
        bool IsSigned,
        ulong Mask,
        ulong Bits,
        (int At, int Width)[] Joined,
        ulong[] Cells
    );

    /// <summary>What these words need, and no more; null where one of them is wider than 64 bits.</summary>
    public static WordCode? Of(WordGraph graph, IReadOnlyList<int> words)
    {
        var needed = new bool[graph.Words.Count];
        foreach (var word in words)
        {
            needed[word] = true;
        }
        for (var i = needed.Length - 1; i >= 0; i--)
        {
            foreach (var input in needed[i] ? graph.Words[i].Inputs : [])
            {
                needed[input] = true;
            }
        }
        var at = new int[needed.Length];
        var lines = new List<Line>();
        for (var i = 0; i < needed.Length; i++)
        {
            if (!needed[i])
            {
                continue;
            }
            if (graph.Width(i) > 64)
            {
                return null;
            }
            at[i] = lines.Count;
            lines.Add(Flat(graph, graph.Words[i], at));
        }
        return new WordCode([.. lines], [.. words.Select(w => at[w])]);
    }

    private static Line Flat(WordGraph graph, Word word, int[] at)
    {
        int Input(int i) => i < word.Inputs.Count ? at[word.Inputs[i]] : 0;
        int Width(int i) => i < word.Inputs.Count ? graph.Width(word.Inputs[i]) : 0;

        return new Line(
            word.Operation,
            Input(0),
            Input(1),
            Input(2),
            word.Low,
            Width(0),
            Width(1),
            word.IsSigned,
            Ones(word.Width),
            word.Operation == WordOperation.Constant ? (ulong)word.Bits : 0,
            word.Operation == WordOperation.Join ? [.. word.Inputs.Select(w => (at[w], graph.Width(w)))] : [],
            word.Table is { } table ? [.. table.Cells.Select(c => (ulong)Bits.Wrap(c, table.Width))] : []
        );
    }

    /// <param name="sources">What operands, or registers, hold, by their index.</param>
    /// <param name="results">Is given the words that were asked for, in their order.</param>
    public void Run(ReadOnlySpan<ulong> sources, Span<ulong> results)
    {
        var values = lines.Length <= MostOnStack ? stackalloc ulong[lines.Length] : new ulong[lines.Length];
        for (var i = 0; i < lines.Length; i++)
        {
            values[i] = Value(in lines[i], sources, values);
        }
        for (var i = 0; i < outputs.Length; i++)
        {
            results[i] = values[outputs[i]];
        }
    }

    private static ulong Value(in Line w, ReadOnlySpan<ulong> sources, ReadOnlySpan<ulong> v) =>
        w.Operation switch
        {
            WordOperation.Constant => w.Bits,
            WordOperation.Operand or WordOperation.Register => sources[w.Low],
            WordOperation.Last => throw new InvalidOperationException("an edge by itself knows its round"),
            WordOperation.Slice => (v[w.A] >> w.Low) & w.Mask,
            WordOperation.Join => Joined(w.Joined, v),
            WordOperation.Copies => v[w.A] != 0 ? w.Mask : 0,
            WordOperation.Add => (v[w.A] + v[w.B]) & w.Mask,
            WordOperation.Carry => (ulong)(((UInt128)v[w.A] + v[w.B]) >> w.WidthA),
            WordOperation.Subtract => (v[w.A] - v[w.B]) & w.Mask,
            WordOperation.Less => v[w.A] < v[w.B] ? 1UL : 0,
            WordOperation.Multiply => (
                w.IsSigned ? (ulong)(Signed(v[w.A], w.WidthA) * Signed(v[w.B], w.WidthB)) : v[w.A] * v[w.B]
            ) & w.Mask,
            WordOperation.CarrySaveSum => v[w.A] ^ v[w.B] ^ v[w.C],
            WordOperation.CarrySaveCarry => (v[w.A] & v[w.B]) | (v[w.A] & v[w.C]) | (v[w.B] & v[w.C]),
            WordOperation.And => v[w.A] & v[w.B],
            WordOperation.Or => v[w.A] | v[w.B],
            WordOperation.Xor => v[w.A] ^ v[w.B],
            WordOperation.Not => w.Mask ^ v[w.A],
            WordOperation.Equal => v[w.A] == v[w.B] ? 1UL : 0,
            WordOperation.Choose => v[w.A] != 0 ? v[w.B] : v[w.C],
            WordOperation.Lookup => w.Cells[(int)v[w.A]],
        };

    private static ulong Joined((int At, int Width)[] parts, ReadOnlySpan<ulong> values)
    {
        ulong joined = 0;
        foreach (var (at, width) in parts)
        {
            // A shift by 64 would shift by none.
            joined = (width < 64 ? joined << width : 0) | values[at];
        }
        return joined;
    }

    private static long Signed(ulong bits, int width) => (long)(bits << (64 - width)) >> (64 - width);

    private static ulong Ones(int width) => width >= 64 ? ulong.MaxValue : (1UL << width) - 1;
}
