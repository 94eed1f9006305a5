using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Timelines;

namespace Reckoner.Checking;

/// <summary>How often an outcome of a decision comes about in one walk, on average over all operands inside "given".</summary>
/// <param name="Possible">In how many cycles the decision stands, at most.</param>
public sealed record AverageOutcome(int Line, string Text, Rational Average, int Possible);

/// <summary>Exact averages over all operands inside "given": cycles and their distribution, outcomes of decisions.</summary>
/// <param name="Cycles">How many operands take how many cycles.</param>
public sealed record Averages(
    BigInteger Cases,
    IReadOnlyList<(int Cycles, BigInteger Cases)> Cycles,
    IReadOnlyList<AverageOutcome> Outcomes
)
{
    public Rational AverageCycles =>
        Rational.Ratio(
            Cycles.Aggregate(BigInteger.Zero, (sum, c) => sum + c.Cycles * c.Cases),
            BigInteger.Max(1, Cases)
        );

    /// <summary>Counts them by running every operand; null when no operand lies inside "given".</summary>
    /// <param name="covered">Told the number of steps covered so far.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static Averages? Of(
        Datapath datapath,
        IPlaneEngine engine,
        Action<long>? covered = null,
        CancellationToken stop = default
    )
    {
        var (program, space, cycles, outcomes) = Build(datapath);
        var counter = new PlaneCounter(program, space, engine);
        var counts = counter.Count(covered, stop);
        if (counts[0].IsZero)
        {
            return null;
        }
        var distribution = cycles.Select((c, i) => (c, counts[1 + i])).Where(c => !c.Item2.IsZero);
        var averages = outcomes
            .Select((o, i) => (Outcome: o, Count: counts[1 + cycles.Count + i]))
            .GroupBy(o => (o.Outcome.Line, o.Outcome.Text))
            .Select(g => new AverageOutcome(
                g.Key.Line,
                g.Key.Text,
                Rational.Ratio(g.Aggregate(BigInteger.Zero, (sum, o) => sum + o.Count), counts[0]),
                g.Count()
            ));
        return new Averages(counts[0], [.. distribution], [.. averages]);
    }

    /// <summary>Outputs: the cases inside "given", then those of every number of cycles, then every outcome in every cycle.</summary>
    private static (PlaneProgram, CaseSpace, List<int> Cycles, List<Outcome> Outcomes) Build(Datapath datapath)
    {
        var gates = MachineGates.Of(datapath);
        var (graph, active, given) = (gates.Graph, gates.Active, gates.Given);
        var width = BitOperations.Log2((uint)active.Count + 1) + 1;
        var count = active.Aggregate(
            Planes.Constant(0, width),
            (sum, edge) => Planes.Sum(graph, sum, Planes.Constant(0, width), edge).Sum
        );
        var least = datapath.Schedule.Where(s => s.While is null).Sum(s => s.Count * s.Steps.Count);
        var cycles = Enumerable.Range(least, active.Count - least + 1).ToList();
        var outputs = new List<int> { given };
        foreach (var cycle in cycles)
        {
            var isSo = GateGraph.Not(Planes.Differ(graph, count, Planes.Constant(cycle, width)));
            outputs.Add(graph.And(given, isSo));
        }
        var outcomes = new List<Outcome>();
        for (var e = 0; e < active.Count; e++)
        {
            foreach (var outcome in gates.Timeline.Edges[e].Outcomes)
            {
                outcomes.Add(outcome);
                outputs.Add(graph.And(given, graph.And(active[e], gates.Planes[outcome.Word][0])));
            }
        }
        return (PlaneProgram.Of(graph, outputs), new CaseSpace(datapath.Operands), cycles, outcomes);
    }
}
