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
    /// <summary>Some minutes of work: gates that are made, each run over every operand.</summary>
    private const double MostWork = 1L << 34;

    /// <summary>Making a gate takes as long as running it so many times.</summary>
    private const int Making = 16;

    /// <summary>Null where "given" cannot become gates, or where it would take too long.</summary>
    /// <param name="pace">Told how many rows are judged, of <see cref="Rows"/>.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static IdleStudy? OverAll(Datapath datapath, IPlaneEngine engine, Pace? pace = null)
    {
        if (CheckProgram.GivenBeyondGates(datapath) is not null || Work(datapath) > MostWork)
        {
            return null;
        }
        var timeline = Timeline.Of(datapath);
        var rows = new List<IdleRow>();
        for (var cycle = 0; cycle <= timeline.Edges.Count; cycle++)
        {
            pace?.MayGoOn();
            rows.Add(Row(datapath, engine, cycle, cycle == 0 ? null : timeline.Edges[cycle - 1]));
            pace?.Tell?.Invoke(rows.Count);
        }
        return new IdleStudy(datapath, true, rows);
    }

    /// <summary>How many rows there are: the load and every cycle.</summary>
    public static int Rows(Datapath datapath) => 1 + datapath.MostCycles;

    /// <summary>Every row has the gates of the whole machine and, for each register bit, about half of them again.</summary>
    private static double Work(Datapath datapath)
    {
        var gates = MachineGates.Of(datapath).Graph.Gates.Count;
        var bits = datapath.Registers.Sum(r => r.Width);
        var steps = Math.Pow(2, Math.Max(0, datapath.Operands.Sum(o => o.Width) - PlaneMemory.LaneBits));
        return (double)Rows(datapath) * gates * (1 + bits / 2.0) * (Making + steps);
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
