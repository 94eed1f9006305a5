using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Numbers;

namespace Reckoner.Slips;

/// <summary>A short condition on operands and right results, as it would be written in a law; "x is odd" has its own word.</summary>
/// <param name="Key">The message it is said by: slips.when for a formula, slips.odd and slips.even for parity.</param>
public sealed record Condition(string Key, string Text)
{
    private const string Formula = "slips.formula";

    /// <summary>The conditions that are tried alone and in pairs, simplest first, each with its literal.</summary>
    internal static IReadOnlyList<(Condition Condition, int Literal)> Candidates(
        Datapath datapath,
        GateGraph graph,
        IReadOnlyList<int[]> operands,
        IReadOnlyList<int[]> results
    )
    {
        var names = datapath
            .Operands.Select(o => new Named(o.Name, operands[o.Index], o.IsSigned))
            .Concat(datapath.Results.Select((r, i) => new Named(r.Name, results[i], r.Value.Reading == Reading.Signed)))
            .ToList();
        var found = new List<(Condition, int)>();
        foreach (var x in names)
        {
            Alone(graph, x, found);
        }
        foreach (var x in names)
        {
            foreach (var y in names.Where(y => y != x))
            {
                Together(graph, x, y, found);
            }
        }
        return [.. found.DistinctBy(f => f.Item2).Where(f => f.Item2 > GateGraph.One)];
    }

    /// <summary>A named number with its literals.</summary>
    private sealed record Named(string Name, int[] Bits, bool IsSigned)
    {
        public int[] Signed(int width) =>
            IsSigned
                ? Planes.Extended(Bits, width)
                : [.. Bits, .. Enumerable.Repeat(GateGraph.Zero, width - Bits.Length)];
    }

    private static void Alone(GateGraph graph, Named x, List<(Condition, int)> found)
    {
        void Add(string text, int literal)
        {
            found.Add((new Condition(Formula, text), literal));
        }

        var width = x.Bits.Length;
        var differs = Planes.Differ(graph, x.Bits, Planes.Constant(0, width));
        Add($"{x.Name} <> 0", differs);
        Add($"{x.Name} = 0", GateGraph.Not(differs));
        found.Add((new Condition("slips.odd", x.Name), x.Bits[0]));
        found.Add((new Condition("slips.even", x.Name), GateGraph.Not(x.Bits[0])));
        var top = x.Bits[^1];
        var half = BigInteger.One << (width - 1);
        var isExtreme = GateGraph.Not(Planes.Differ(graph, x.Bits, Planes.Constant(half, width)));
        if (x.IsSigned)
        {
            Add($"{x.Name} < 0", top);
            Add($"{x.Name} >= 0", GateGraph.Not(top));
            Add($"{x.Name} > 0", graph.And(GateGraph.Not(top), differs));
            Add($"{x.Name} = {-half}", isExtreme);
            Add($"{x.Name} <> {-half}", GateGraph.Not(isExtreme));
        }
        else
        {
            Add($"{x.Name} >= {half}", top);
            Add($"{x.Name} < {half}", GateGraph.Not(top));
            Add($"{x.Name} > {half}", graph.And(top, GateGraph.Not(isExtreme)));
        }
        var isFull = GateGraph.Not(Planes.Differ(graph, x.Bits, Planes.Constant(Bits.Mask(width), width)));
        var full = x.IsSigned ? BigInteger.MinusOne : Bits.Mask(width);
        Add($"{x.Name} = {full}", isFull);
        Add($"{x.Name} <> {full}", GateGraph.Not(isFull));
        var isOne = GateGraph.Not(Planes.Differ(graph, x.Bits, Planes.Constant(1, width)));
        Add($"{x.Name} = 1", isOne);
        Add($"{x.Name} <> 1", GateGraph.Not(isOne));
    }

    private static void Together(GateGraph graph, Named x, Named y, List<(Condition, int)> found)
    {
        var width = Math.Max(x.Bits.Length, y.Bits.Length) + 1;
        var (a, b) = (x.Signed(width), y.Signed(width));
        a[^1] = GateGraph.Not(a[^1]);
        b[^1] = GateGraph.Not(b[^1]);
        var less = Planes.Difference(graph, a, b).Borrow;
        var same = GateGraph.Not(Planes.Differ(graph, a, b));
        found.Add((new Condition(Formula, $"{x.Name} < {y.Name}"), less));
        found.Add((new Condition(Formula, $"{x.Name} <= {y.Name}"), graph.Or(less, same)));
        found.Add((new Condition(Formula, $"{x.Name} = {y.Name}"), same));
        found.Add((new Condition(Formula, $"{x.Name} <> {y.Name}"), GateGraph.Not(same)));
    }
}

/// <summary>Finds a condition whose cases are exactly those of a slip, among the cases inside "given".</summary>
internal sealed class ConditionSearch
{
    private readonly List<(Condition Condition, ulong[] Bits)> candidates;
    private readonly ulong[] given;

    public ConditionSearch(IReadOnlyList<(Condition Condition, ulong[] Bits)> candidates, ulong[] given)
    {
        this.given = given;
        this.candidates = [.. candidates.Select(c => (c.Condition, And(c.Bits, given)))];
    }

    /// <summary>"always", one condition, or two joined by "and" or "or"; null when no such condition fits.</summary>
    public Condition? Exactly(ulong[] exposed)
    {
        if (candidates.Count == 0)
        {
            return null;
        }
        if (exposed.AsSpan().SequenceEqual(given))
        {
            return new Condition("slips.always", "");
        }
        if (candidates.Find(c => c.Bits.AsSpan().SequenceEqual(exposed)) is { Condition: not null } one)
        {
            return one.Condition;
        }
        return Pair(exposed, candidates.Where(c => Covers(c.Bits, exposed)).ToList(), And, "and")
            ?? Pair(exposed, candidates.Where(c => Covers(exposed, c.Bits)).ToList(), Or, "or");
    }

    private static Condition? Pair(
        ulong[] exposed,
        List<(Condition Condition, ulong[] Bits)> fitting,
        Func<ulong[], ulong[], ulong[]> join,
        string word
    )
    {
        for (var i = 0; i < fitting.Count; i++)
        {
            for (var j = 0; j < i; j++)
            {
                if (
                    fitting[j].Condition.Key == fitting[i].Condition.Key
                    && join(fitting[i].Bits, fitting[j].Bits).AsSpan().SequenceEqual(exposed)
                )
                {
                    return new Condition(
                        fitting[i].Condition.Key,
                        $"{fitting[j].Condition.Text} {word} {fitting[i].Condition.Text}"
                    );
                }
            }
        }
        return null;
    }

    /// <summary>Whether the first holds everything that the second does.</summary>
    private static bool Covers(ulong[] wide, ulong[] narrow)
    {
        for (var i = 0; i < wide.Length; i++)
        {
            if ((narrow[i] & ~wide[i]) != 0)
            {
                return false;
            }
        }
        return true;
    }

    private static ulong[] And(ulong[] a, ulong[] b) => [.. a.Zip(b, (x, y) => x & y)];

    private static ulong[] Or(ulong[] a, ulong[] b) => [.. a.Zip(b, (x, y) => x | y)];
}
