using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Timelines;

namespace Reckoner.Checking;

/// <summary>
/// Which register bits carry nothing in which cycle, over all operands: constant, or such that turning them over changes no
/// result. Exhaustive; each cycle is a question of its own, run over every operand.
/// </summary>
internal static class Idle
{
    /// <summary>Null where "given" cannot become gates.</summary>
    public static IdleStudy? OverAll(Datapath datapath, IPlaneEngine engine)
    {
        if (CheckProgram.GivenBeyondGates(datapath) is not null)
        {
            return null;
        }
        var timeline = Timeline.Of(datapath);
        var rows = new List<IdleRow> { Row(datapath, engine, 0, null) };
        for (var e = 0; e < timeline.Edges.Count; e++)
        {
            rows.Add(Row(datapath, engine, e + 1, timeline.Edges[e]));
        }
        return new IdleStudy(datapath, true, rows);
    }

    private static IdleRow Row(Datapath datapath, IPlaneEngine engine, int cycle, Edge? edge)
    {
        var gates = MachineGates.Of(datapath);
        var graph = gates.Graph;
        var held = (edge is null ? gates.Timeline.Load : gates.Timeline.Edges[cycle - 1].Registers)
            .Select(place => gates.Planes[place])
            .ToList();
        var active = edge is null ? GateGraph.One : gates.Active[cycle - 1];
        var reached = graph.And(gates.Given, active);
        var (rest, results) = Timeline.Rest(datapath, cycle);
        var right = Results(new Planes(graph, rest, held));

        var outputs = new List<int> { reached };
        foreach (var register in datapath.Registers)
        {
            for (var bit = 0; bit < register.Width; bit++)
            {
                var turned = held.Select(h => (int[])[.. h]).ToList();
                turned[register.Index][bit] = GateGraph.Not(turned[register.Index][bit]);
                var other = Results(new Planes(graph, rest, turned));
                outputs.Add(graph.And(reached, held[register.Index][bit]));
                outputs.Add(graph.And(reached, Planes.Differ(graph, right, other)));
            }
        }
        var counts = new PlaneCounter(
            PlaneProgram.Of(graph, outputs),
            new CaseSpace(datapath.Operands),
            engine
        ).Count();
        var next = 1;
        var bits = datapath.Registers.Select(r =>
            (IReadOnlyList<Carried>)
                [.. Enumerable.Range(0, r.Width).Select(_ => Judged(counts[0], counts[next++], counts[next++]))]
        );
        return IdleRow.Of(cycle, edge, counts[0], active == GateGraph.One, bits);

        int[] Results(Planes of) => [.. results.SelectMany(place => of[place])];
    }

    private static Carried Judged(BigInteger cases, BigInteger ones, BigInteger matters) =>
        ones.IsZero ? Carried.AlwaysZero
        : ones == cases ? Carried.AlwaysOne
        : matters.IsZero ? Carried.Unread
        : Carried.Something;
}
