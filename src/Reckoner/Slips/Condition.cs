using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Numbers;

namespace Reckoner.Slips;

/// <summary>
/// A short condition on operands, right results and decisions: formulas as in a law, decisions as "reckoner operands" takes them.
/// </summary>
/// <param name="Key">The message it is said by: slips.formula for a formula, slips.and and slips.or for two conditions.</param>
/// <param name="Text">The formula, or the name or decision that the message is about; of two conditions both texts.</param>
public sealed record Condition(string Key, string Text)
{
    private const string Formula = "slips.formula";

    public static readonly Condition Always = new("slips.always", "");

    /// <summary>The two conditions that are joined.</summary>
    public IReadOnlyList<Condition> Parts { get; private init; } = [];

    /// <summary>What it is whatever the widths: equal for "x &lt; 8" at 4 bits and "x &lt; 16" at 5.</summary>
    internal string Shape { get; private init; } = $"{Key} {Text}";

    internal static Condition Both(Condition a, Condition b) => Joined("slips.and", "and", a, b);

    internal static Condition Either(Condition a, Condition b) => Joined("slips.or", "or", a, b);

    private static Condition Joined(string key, string word, Condition a, Condition b) =>
        new(key, $"{a.Text} {word} {b.Text}") { Parts = [a, b], Shape = $"{a.Shape} {word} {b.Shape}" };

    /// <summary>The conditions on operands and results, simplest first, each with its literal; without results on operands alone.</summary>
    internal static IReadOnlyList<(Condition Condition, int Literal)> OnNumbers(
        Datapath datapath,
        GateGraph graph,
        IReadOnlyList<int[]> operands,
        IReadOnlyList<int[]> results
    )
    {
        var names = datapath
            .Operands.Select(o => new Named(o.Name, operands[o.Index], o.IsSigned))
            .Concat(
                datapath.Results.Zip(results, (r, bits) => new Named(r.Name, bits, r.Value.Reading == Reading.Signed))
            )
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
        return found;
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
        void Add(string relation, BigInteger number, int literal, string? shape = null)
        {
            var condition = new Condition(Formula, $"{x.Name} {relation} {number}");
            found.Add((shape is null ? condition : condition with { Shape = $"{x.Name} {relation} {shape}" }, literal));
        }

        var width = x.Bits.Length;
        var differs = Planes.Differ(graph, x.Bits, Planes.Constant(0, width));
        Add("<>", 0, differs);
        Add("=", 0, GateGraph.Not(differs));
        found.Add((new Condition("slips.odd", x.Name), x.Bits[0]));
        found.Add((new Condition("slips.even", x.Name), GateGraph.Not(x.Bits[0])));
        var top = x.Bits[^1];
        var half = BigInteger.One << (width - 1);
        var isExtreme = GateGraph.Not(Planes.Differ(graph, x.Bits, Planes.Constant(half, width)));
        if (x.IsSigned)
        {
            Add("<", 0, top);
            Add(">=", 0, GateGraph.Not(top));
            Add(">", 0, graph.And(GateGraph.Not(top), differs));
            Add("=", -half, isExtreme, "-half");
            Add("<>", -half, GateGraph.Not(isExtreme), "-half");
        }
        else
        {
            Add(">=", half, top, "half");
            Add("<", half, GateGraph.Not(top), "half");
            Add(">", half, graph.And(top, GateGraph.Not(isExtreme)), "half");
        }
        var isFull = GateGraph.Not(Planes.Differ(graph, x.Bits, Planes.Constant(Bits.Mask(width), width)));
        var full = x.IsSigned ? BigInteger.MinusOne : Bits.Mask(width);
        Add("=", full, isFull, "full");
        Add("<>", full, GateGraph.Not(isFull), "full");
        var isOne = GateGraph.Not(Planes.Differ(graph, x.Bits, Planes.Constant(1, width)));
        Add("=", 1, isOne);
        Add("<>", 1, GateGraph.Not(isOne));
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
