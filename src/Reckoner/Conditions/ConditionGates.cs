using System.Numerics;
using Reckoner.Checking;
using Reckoner.Numbers;

namespace Reckoner.Conditions;

/// <summary>A cycle in which something is decided: literals for whether it is met there, and whether it is then so.</summary>
/// <param name="Edge">The clock edge's place in the timeline.</param>
internal readonly record struct Asking(int Edge, int Met, int So);

/// <summary>Turns a condition into a literal that is 1 in the cases that show it.</summary>
/// <param name="possible">Whether a literal is 1 for any operands at all; asked for "every outcome" alone.</param>
internal sealed class ConditionGates(
    DecidedMachine machine,
    MachineGates gates,
    Func<IReadOnlyList<int>, IReadOnlyList<bool>>? possible = null
) : IConditionVisitor<int>
{
    private readonly GateGraph graph = gates.Graph;
    private readonly IReadOnlyList<int> active = gates.Active;
    private readonly FormulaPlanes formulas = gates.Formulas();

    /// <exception cref="LawBeyondPlanesException">A formula in it takes too many gates.</exception>
    public int Literal(Condition condition) => condition.Accept(this);

    /// <summary>The cycles in which something is decided. What is met several times in one is so there when it once is.</summary>
    public IReadOnlyList<Asking> Askings(Occasion what) =>
        [
            .. (machine.Decisions.Find(what)?.Places ?? [])
                .GroupBy(p => p.Edge)
                .OrderBy(g => g.Key)
                .Select(g =>
                {
                    var met = Any(g.Select(Met));
                    var yes = Any(g.Select(p => graph.And(Met(p), Yes(p))));
                    return new Asking(g.Key, met, what.IsTurned ? graph.And(met, GateGraph.Not(yes)) : yes);
                })
                .Where(a => a.Met != GateGraph.Zero),
        ];

    private int Met(DecisionPlace place) => graph.And(active[place.Edge], gates.Planes[place.Path][0]);

    private int Yes(DecisionPlace place)
    {
        var yes = place.Compared is { } compared
            ? Compared(gates.Planes[place.Word], place.IsSigned, compared.Relation, compared.Number)
            : gates.Planes[place.Word][0];
        return place.IsTurned ? GateGraph.Not(yes) : yes;
    }

    private int Compared(int[] bits, bool isSigned, Relation relation, BigInteger number)
    {
        var width = Math.Max(bits.Length + 1, Bits.Needed(number, isSigned: true) + 1);
        int[] a = isSigned
            ? Planes.Extended(bits, width)
            : [.. bits, .. Enumerable.Repeat(GateGraph.Zero, width - bits.Length)];
        var b = Planes.Constant(Bits.Wrap(number, width), width);
        var differ = Planes.Differ(graph, a, b);
        a[^1] = GateGraph.Not(a[^1]);
        b[^1] = GateGraph.Not(b[^1]);
        var less = Planes.Difference(graph, a, b).Borrow;
        return relation switch
        {
            Relation.Equal => GateGraph.Not(differ),
            Relation.Unequal => differ,
            Relation.Less => less,
            Relation.LessOrEqual => graph.Or(less, GateGraph.Not(differ)),
            Relation.Greater => graph.And(GateGraph.Not(less), differ),
            Relation.GreaterOrEqual => GateGraph.Not(less),
        };
    }

    private int Any(IEnumerable<int> literals) => literals.Aggregate(GateGraph.Zero, graph.Or);

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
        if (amount.Count.Number > (1 << sum.Length) - 1)
        {
            return amount.Bound == Bound.AtMost ? GateGraph.One : GateGraph.Zero;
        }
        var count = Planes.Constant(amount.Count.Number, sum.Length);
        return amount.Bound switch
        {
            Bound.Exactly => GateGraph.Not(Planes.Differ(graph, sum, count)),
            Bound.AtLeast => GateGraph.Not(Planes.Difference(graph, sum, count).Borrow),
            Bound.AtMost => GateGraph.Not(Planes.Difference(graph, count, sum).Borrow),
        };
    }

    int IConditionVisitor<int>.Of(Always condition) => GateGraph.One;

    int IConditionVisitor<int>.Of(Combined condition) =>
        condition.Joint switch
        {
            Joint.And => condition.Parts.Select(Literal).Aggregate(GateGraph.One, graph.And),
            Joint.Or => Any(condition.Parts.Select(Literal)),
        };

    int IConditionVisitor<int>.Of(NotSo condition) => GateGraph.Not(Literal(condition.Inner));

    int IConditionVisitor<int>.Of(IsTrue condition) => formulas.Holds(condition.Formula);

    int IConditionVisitor<int>.Of(HasParity condition)
    {
        if (condition.Number is { Variable: { } variable } && gates.Number(variable.Name) is { } bits)
        {
            return condition.Parity == Parity.Odd ? bits[0] : GateGraph.Not(bits[0]);
        }
        return formulas.Holds(ConditionFormulas.HasParity(condition.Number, condition.Parity));
    }

    int IConditionVisitor<int>.Of(HasDigits condition) =>
        ConditionFormulas
            .Counted(machine.Datapath, condition)
            .Select(number => formulas.Holds(ConditionFormulas.Digits(number, condition.Digits)))
            .Aggregate(GateGraph.One, graph.And);

    int IConditionVisitor<int>.Of(Happens condition) => Ever(condition.What);

    private int Ever(Occasion what) => Any(Askings(what).Select(a => a.So));

    int IConditionVisitor<int>.Of(HappensTimes condition)
    {
        var so = Askings(condition.What).Select(a => a.So).ToList();
        var (once, twice) = (GateGraph.Zero, GateGraph.Zero);
        foreach (var literal in so)
        {
            twice = graph.Or(twice, graph.And(once, literal));
            once = graph.Or(once, literal);
        }
        return condition.Times switch
        {
            { Bound: Bound.AtLeast, Count.Number: 1 } => once,
            { Bound: Bound.AtMost or Bound.Exactly, Count.Number: 0 } => GateGraph.Not(once),
            { Bound: Bound.Exactly, Count.Number: 1 } => graph.And(once, GateGraph.Not(twice)),
            _ => Compared(Sum(so), condition.Times),
        };
    }

    int IConditionVisitor<int>.Of(HappensAlways condition)
    {
        var (ever, always) = (GateGraph.Zero, GateGraph.One);
        foreach (var (_, met, so) in Askings(condition.What))
        {
            ever = graph.Or(ever, met);
            always = graph.And(always, graph.Or(GateGraph.Not(met), so));
        }
        return graph.And(ever, always);
    }

    int IConditionVisitor<int>.Of(HappensAtEnd condition)
    {
        var (ever, first, last) = (GateGraph.Zero, GateGraph.Zero, GateGraph.Zero);
        foreach (var (_, met, so) in Askings(condition.What))
        {
            first = graph.Or(first, graph.And(GateGraph.Not(ever), so));
            ever = graph.Or(ever, met);
            last = graph.Choose(met, so, last);
        }
        return condition.End switch
        {
            End.First => first,
            End.Last => last,
        };
    }

    int IConditionVisitor<int>.Of(HappensInCycle condition) =>
        Any(Askings(condition.What).Select(a => graph.And(a.So, IsCycle(a.Edge, condition.Cycle))));

    private int IsCycle(int edge, Count cycle) =>
        Compared(Sum(active.Take(edge + 1)), new Amount(Bound.Exactly, cycle));

    int IConditionVisitor<int>.Of(HappensInLastCycle condition) =>
        Any(Askings(condition.What).Select(a => graph.And(a.So, GateGraph.Not(Any(active.Skip(a.Edge + 1))))));

    int IConditionVisitor<int>.Of(HappensAfter condition)
    {
        var now = Askings(condition.What).ToDictionary(a => a.Edge);
        var before = Askings(condition.Before).ToDictionary(a => a.Edge);
        var (open, so) = (GateGraph.Zero, GateGraph.Zero);
        foreach (var edge in now.Keys.Union(before.Keys).Order())
        {
            var earlier = before.TryGetValue(edge, out var came) ? came.So : GateGraph.Zero;
            if (now.TryGetValue(edge, out var met))
            {
                so = graph.Or(so, graph.And(open, met.So));
                open = graph.Choose(met.Met, earlier, graph.Or(open, earlier));
            }
            else
            {
                open = graph.Or(open, earlier);
            }
        }
        return so;
    }

    int IConditionVisitor<int>.Of(GoesBothWays condition) =>
        graph.And(Ever(condition.What), Ever(condition.What.Opposite));

    int IConditionVisitor<int>.Of(EveryOutcome condition)
    {
        var outcomes = machine.Outcomes.Select(Ever).ToList();
        return outcomes
            .Zip(possible?.Invoke(outcomes) ?? throw new InvalidOperationException("no operands to ask"))
            .Where(o => o.Second)
            .Select(o => o.First)
            .Aggregate(GateGraph.One, graph.And);
    }

    int IConditionVisitor<int>.Of(TakesCycles condition) => Compared(Sum(active), condition.Cycles);

    int IConditionVisitor<int>.Of(NoTwoAlike condition)
    {
        var rows = gates
            .Timeline.Edges.Select((e, i) => (Takes: active[i], Bits: Registers(e.Registers)))
            .Prepend((Takes: GateGraph.One, Bits: Registers(gates.Timeline.Load)))
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

    private int[] Registers(int[] places) => [.. places.SelectMany(p => gates.Planes[p])];

    int IConditionVisitor<int>.Of(SlipShows condition) =>
        machine.Slips.Built(condition.Slip) is { } slipped ? gates.Differs(gates.Beside(slipped)) : GateGraph.Zero;
}
