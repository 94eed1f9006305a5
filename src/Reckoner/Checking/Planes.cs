using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Timelines;

namespace Reckoner.Checking;

/// <summary>
/// Turns word operations into gates: a word becomes a literal per bit, the lowest first. Needs a graph whose inputs are the
/// operands' bits; leaves the literals of every word.
/// </summary>
internal sealed class Planes
{
    private readonly GateGraph graph;
    private readonly Dictionary<int, int[]> done = [];

    /// <param name="sources">The literals of each operand's bits (or register's, in a graph over registers), lowest first.</param>
    public Planes(GateGraph graph, WordGraph words, IReadOnlyList<int[]> sources)
    {
        this.graph = graph;
        for (var i = 0; i < words.Words.Count; i++)
        {
            done[i] = Literals(words.Words[i], sources);
        }
    }

    /// <summary>The literals of the word at a place of the timeline's graph, lowest bit first.</summary>
    public int[] this[int place] => done[place];

    private int[] Literals(Word w, IReadOnlyList<int[]> sources)
    {
        int[] In(int i) => done[w.Inputs[i]];
        return w.Operation switch
        {
            WordOperation.Constant => Constant(w.Bits, w.Width),
            WordOperation.Operand or WordOperation.Register => sources[w.Low],
            WordOperation.Last => throw new InvalidOperationException("a timeline knows its rounds"),
            WordOperation.Slice => In(0)[w.Low..(w.Low + w.Width)],
            WordOperation.Join => [.. w.Inputs.Reverse().SelectMany(i => done[i])],
            WordOperation.Copies => [.. Enumerable.Repeat(In(0)[0], w.Width)],
            WordOperation.Add => Sum(graph, In(0), In(1), GateGraph.Zero).Sum,
            WordOperation.Carry => [Sum(graph, In(0), In(1), GateGraph.Zero).Carry],
            WordOperation.Subtract => Difference(graph, In(0), In(1)).Difference,
            WordOperation.Less => [Difference(graph, In(0), In(1)).Borrow],
            WordOperation.Multiply => w.IsSigned ? ProductSigned(graph, In(0), In(1)) : Product(graph, In(0), In(1)),
            WordOperation.CarrySaveSum => [.. In(0).Select((a, i) => graph.Xor(a, In(1)[i], In(2)[i]))],
            WordOperation.CarrySaveCarry => [.. In(0).Select((a, i) => graph.Majority(a, In(1)[i], In(2)[i]))],
            WordOperation.And => [.. In(0).Zip(In(1), graph.And)],
            WordOperation.Or => [.. In(0).Zip(In(1), graph.Or)],
            WordOperation.Xor => [.. In(0).Zip(In(1), graph.Xor)],
            WordOperation.Not => [.. In(0).Select(GateGraph.Not)],
            WordOperation.Equal => [GateGraph.Not(Differ(graph, In(0), In(1)))],
            WordOperation.Choose => [.. In(1).Zip(In(2), (a, b) => graph.Choose(In(0)[0], a, b))],
            WordOperation.Lookup => Lookup(graph, w.Table!, In(0)),
        };
    }

    public static int[] Constant(BigInteger bits, int width)
    {
        var literals = new int[width];
        for (var i = 0; i < width; i++)
        {
            literals[i] = (bits >> i).IsEven ? GateGraph.Zero : GateGraph.One;
        }
        return literals;
    }

    /// <summary>a + b + carry, both of one width, by a chain of full adders: two gates a bit.</summary>
    public static (int[] Sum, int Carry) Sum(GateGraph graph, int[] a, int[] b, int carry)
    {
        var sum = new int[a.Length];
        for (var i = 0; i < a.Length; i++)
        {
            // The carry first: after the sum nothing reads a and b here, and it may take the place of one of them.
            var above = graph.Majority(a[i], b[i], carry);
            sum[i] = graph.Xor(a[i], b[i], carry);
            carry = above;
        }
        return (sum, carry);
    }

    /// <summary>a - b, both of one width, and whether it borrows.</summary>
    public static (int[] Difference, int Borrow) Difference(GateGraph graph, int[] a, int[] b)
    {
        var (sum, carry) = Sum(graph, a, [.. b.Select(GateGraph.Not)], GateGraph.One);
        return (sum, GateGraph.Not(carry));
    }

    /// <summary>Whether two words of one width differ: a gate a bit.</summary>
    public static int Differ(GateGraph graph, IReadOnlyList<int> a, IReadOnlyList<int> b)
    {
        var differ = GateGraph.Zero;
        for (var i = 0; i < a.Count; i++)
        {
            differ = graph.OrDiffer(differ, a[i], b[i]);
        }
        return differ;
    }

    /// <summary>The whole product of unsigned words: rows added one after another.</summary>
    public static int[] Product(GateGraph graph, int[] a, int[] b)
    {
        var product = Constant(0, a.Length + b.Length);
        for (var i = 0; i < b.Length; i++)
        {
            var row = a.Select(bit => graph.And(bit, b[i])).ToArray();
            var (sum, carry) = Sum(graph, product[i..(i + a.Length)], row, GateGraph.Zero);
            sum.CopyTo(product, i);
            product[i + a.Length] = carry;
        }
        return product;
    }

    /// <summary>The whole product of signed words: both sign-extended to its width, then the low bits.</summary>
    public static int[] ProductSigned(GateGraph graph, int[] a, int[] b)
    {
        var width = a.Length + b.Length;
        var wide = Extended(a, width);
        var product = Constant(0, width);
        for (var i = 0; i < b.Length; i++)
        {
            if (b[i] == GateGraph.Zero && i < b.Length - 1)
            {
                // No gates come of it, and a constant may have very many.
                continue;
            }
            var row = wide[..(width - i)].Select(bit => graph.And(bit, b[i])).ToArray();
            // The top bit of a signed multiplier weighs negative.
            var added =
                i < b.Length - 1
                    ? Sum(graph, product[i..], row, GateGraph.Zero).Sum
                    : Difference(graph, product[i..], row).Difference;
            added.CopyTo(product, i);
        }
        return product;
    }

    /// <summary>A signed word of more bits: copies of the sign above.</summary>
    public static int[] Extended(int[] word, int width) =>
        [.. word, .. Enumerable.Repeat(word[^1], width - word.Length)];

    /// <summary>A table as a tree of choices over its index bits; equal branches stand once.</summary>
    private static int[] Lookup(GateGraph graph, Table table, int[] index)
    {
        var literals = new int[table.Width];
        for (var bit = 0; bit < literals.Length; bit++)
        {
            var level = table.Cells.Select(c => (c >> bit).IsEven ? GateGraph.Zero : GateGraph.One).ToList();
            foreach (var choice in index)
            {
                var half = level.Count / 2;
                var next = new List<int>(half);
                for (var i = 0; i < half; i++)
                {
                    next.Add(graph.Choose(choice, level[2 * i + 1], level[2 * i]));
                }
                level = next;
            }
            literals[bit] = level[0];
        }
        return literals;
    }
}
