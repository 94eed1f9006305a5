using System.Numerics;
using Reckoner.Checking;
using Reckoner.Slips;

namespace Reckoner.Choosing;

/// <summary>Turns what is wanted into a literal that is 1 in the cases that show it.</summary>
/// <param name="possible">Whether a literal is 1 for any operands at all; asked for "every outcome" alone.</param>
internal sealed class ConditionGates(
    MachineGates gates,
    FormulaPlanes formulas,
    Func<IReadOnlyList<int>, IReadOnlyList<bool>> possible
)
{
    private readonly GateGraph graph = gates.Graph;
    private readonly IReadOnlyList<int> active = gates.Decisions.Active;

    public int Literal(Wanted wanted) =>
        wanted switch
        {
            AllOf w => w.Parts.Select(Literal).Aggregate(GateGraph.One, graph.And),
            AnyOf w => w.Parts.Select(Literal).Aggregate(GateGraph.Zero, graph.Or),
            NotSo w => GateGraph.Not(Literal(w.Inner)),
            IsTrue w => formulas.Holds(w.Formula),
            HappensTimes w => Compared(Sum(Edges(w.What).Select(a => a.So)), w.Times),
            HappensAlways w => graph.And(
                Any(w.What.Decision.Askings.Select(a => a.Met)),
                GateGraph.Not(Any(Edges(w.What with { IsTurned = !w.What.IsTurned }).Select(a => a.So)))
            ),
            HappensAtEnd w => AtEnd(w.First ? Edges(w.What) : Edges(w.What).Reverse()),
            HappensInCycle w => Any(Edges(w.What).Select(a => graph.And(a.So, IsCycle(a.Edge, w.Cycle)))),
            HappensInLastCycle w => Any(Edges(w.What).Select(a => graph.And(a.So, IsLast(a.Edge)))),
            HappensAfter w => After(w.What, w.Before),
            GoesBothWays w => graph.And(
                Any(Edges(w.What with { IsTurned = false }).Select(a => a.So)),
                Any(Edges(w.What with { IsTurned = true }).Select(a => a.So))
            ),
            EveryOutcome => Every(),
            TakesCycles w => Compared(Sum(active), w.Cycles),
            NoTwoAlike => AllDiffer(),
            SlipShows w => SlipStudy.Differs(graph, w.Slipped, gates.Operands, gates.Results),
            _ => throw new InvalidOperationException(wanted.GetType().Name),
        };

    private int Any(IEnumerable<int> literals) => literals.Aggregate(GateGraph.Zero, graph.Or);

    /// <summary>The cycles in which something is decided, and where it is so.</summary>
    private IEnumerable<(int Edge, int Met, int So)> Edges(Occasion what) =>
        what.Decision.Askings.Select(a =>
            (a.Edge, a.Met, what.IsTurned ? graph.And(a.Met, GateGraph.Not(a.Yes)) : a.Yes)
        );

    private int[] Sum(IEnumerable<int> literals)
    {
        var all = literals.ToList();
        var zero = Planes.Constant(0, BitOperations.Log2((uint)all.Count + 1) + 1);
        return all.Aggregate(
            zero,
            (sum, literal) => Planes.Sum(graph, sum, Planes.Constant(0, zero.Length), literal).Sum
        );
    }

    private int Compared(int[] sum, Amount amount)
    {
        var most = (1 << sum.Length) - 1;
        if (amount.Count > most)
        {
            return amount.Bound == Bound.AtMost ? GateGraph.One : GateGraph.Zero;
        }
        var count = Planes.Constant(amount.Count, sum.Length);
        return amount.Bound switch
        {
            Bound.Exactly => GateGraph.Not(Planes.Differ(graph, sum, count)),
            Bound.AtLeast => GateGraph.Not(Planes.Difference(graph, sum, count).Borrow),
            Bound.AtMost => GateGraph.Not(Planes.Difference(graph, count, sum).Borrow),
        };
    }

    private int AtEnd(IEnumerable<(int Edge, int Met, int So)> edges)
    {
        var (before, so) = (GateGraph.Zero, GateGraph.Zero);
        foreach (var edge in edges)
        {
            so = graph.Or(so, graph.And(GateGraph.Not(before), edge.So));
            before = graph.Or(before, edge.Met);
        }
        return so;
    }

    /// <summary>Cycles are counted as the walk counts them: edges that do not take place have no number.</summary>
    private int IsCycle(int edge, int cycle) => Compared(Sum(active.Take(edge + 1)), new Amount(Bound.Exactly, cycle));

    private int IsLast(int edge) => GateGraph.Not(Any(active.Skip(edge + 1)));

    private int After(Occasion what, Occasion before)
    {
        var (now, then) = (Edges(what).ToDictionary(a => a.Edge), Edges(before).ToDictionary(a => a.Edge));
        var (open, so) = (GateGraph.Zero, GateGraph.Zero);
        for (var edge = 0; edge < active.Count; edge++)
        {
            if (now.TryGetValue(edge, out var met))
            {
                so = graph.Or(so, graph.And(open, met.So));
                open = graph.And(open, GateGraph.Not(met.Met));
            }
            if (then.TryGetValue(edge, out var earlier))
            {
                open = graph.Or(open, earlier.So);
            }
        }
        return so;
    }

    private int Every()
    {
        var outcomes = gates.Decisions.Shown.SelectMany(Outcomes).Select(o => Any(Edges(o).Select(a => a.So))).ToList();
        return outcomes
            .Zip(possible(outcomes))
            .Where(o => o.Second)
            .Select(o => o.First)
            .Aggregate(GateGraph.One, graph.And);
    }

    /// <summary>The outcomes of a decision as they are shown.</summary>
    public static IEnumerable<Occasion> Outcomes(ShownDecision shown) =>
        shown.Labels is null
            ? [new Occasion(shown.Outcomes[0], false), new Occasion(shown.Outcomes[0], true)]
            : shown.Outcomes.Select(o => new Occasion(o, false));

    private int AllDiffer()
    {
        var rows = gates
            .Timeline.Edges.Select((e, i) => (Takes: active[i], Bits: Bits(e.Registers)))
            .Prepend((Takes: GateGraph.One, Bits: Bits(gates.Timeline.Load)))
            .ToList();
        var alike = GateGraph.Zero;
        for (var i = 1; i < rows.Count; i++)
        {
            for (var j = 0; j < i; j++)
            {
                // Behind a loop that stopped early the later edge takes place and the earlier may not.
                var both = graph.And(rows[i].Takes, rows[j].Takes);
                var same = GateGraph.Not(Planes.Differ(graph, rows[i].Bits, rows[j].Bits));
                alike = graph.Or(alike, graph.And(both, same));
            }
        }
        return GateGraph.Not(alike);
    }

    private int[] Bits(int[] places) => [.. places.SelectMany(p => gates.Planes[p])];
}
