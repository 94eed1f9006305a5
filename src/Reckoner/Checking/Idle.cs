using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Timelines;

namespace Reckoner.Checking;

/// <summary>What a register bit carries in a cycle, over all operands that reach it.</summary>
public enum Carried
{
    /// <summary>It tells operands apart, and the results depend on it.</summary>
    Something,

    /// <summary>It is 0 for all operands.</summary>
    AlwaysZero,

    /// <summary>It is 1 for all operands.</summary>
    AlwaysOne,

    /// <summary>Whatever it is, no result depends on it any more.</summary>
    Unread,
}

/// <summary>The bits that registers hold after one edge (0 is the load) until the next.</summary>
/// <param name="Cases">Operands inside "given" that reach it.</param>
/// <param name="Bits">For every register by index, its bits from the lowest.</param>
public sealed record IdleRow(
    int Cycle,
    int Repeat,
    int Round,
    Step? Step,
    BigInteger Cases,
    IReadOnlyList<IReadOnlyList<Carried>> Bits
);

/// <summary>
/// Which register bits carry nothing in which cycle, over all operands: constant, or such that turning them over changes no
/// result. Exhaustive; each cycle is a question of its own, run over every operand.
/// </summary>
public static class Idle
{
    public static IReadOnlyList<IdleRow> Of(Datapath datapath, IPlaneEngine engine)
    {
        var timeline = Timeline.Of(datapath);
        var rows = new List<IdleRow> { Row(datapath, engine, 0, null) };
        for (var e = 0; e < timeline.Edges.Count; e++)
        {
            rows.Add(Row(datapath, engine, e + 1, timeline.Edges[e]));
        }
        return rows;
    }

    private static IdleRow Row(Datapath datapath, IPlaneEngine engine, int cycle, Edge? edge)
    {
        var (graph, space, timeline, planes, given) = CheckProgram.Walked(datapath);
        var held = (edge is null ? timeline.Load : timeline.Edges[cycle - 1].Registers)
            .Select(place => planes[place])
            .ToList();
        var reached = edge is null ? given : graph.And(given, planes[timeline.Edges[cycle - 1].Active][0]);
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
        var counts = new PlaneCounter(PlaneProgram.Of(graph, outputs), space, engine).Count();
        var next = 1;
        var bits = datapath.Registers.Select(r =>
            (IReadOnlyList<Carried>)
                [.. Enumerable.Range(0, r.Width).Select(_ => Judged(counts[0], counts[next++], counts[next++]))]
        );
        return new IdleRow(cycle, edge?.Repeat ?? 0, edge?.Round ?? 0, edge?.Step, counts[0], [.. bits]);

        int[] Results(Planes of) => [.. results.SelectMany(place => of[place])];
    }

    private static Carried Judged(BigInteger cases, BigInteger ones, BigInteger matters) =>
        ones.IsZero ? Carried.AlwaysZero
        : ones == cases ? Carried.AlwaysOne
        : matters.IsZero ? Carried.Unread
        : Carried.Something;

    /// <summary>
    /// Pairs of registers that together never carry more bits than the wider of them has: they could share it. The load and
    /// every cycle but the last hand-over are looked at.
    /// </summary>
    public static IReadOnlyList<(Register First, Register Second, int Most)> Sharable(
        Datapath datapath,
        IReadOnlyList<IdleRow> rows
    )
    {
        var pairs = new List<(Register, Register, int)>();
        foreach (var first in datapath.Registers)
        {
            foreach (var second in datapath.Registers.Where(r => r.Index > first.Index))
            {
                var most = rows.Max(row => Count(row, first) + Count(row, second));
                if (most <= Math.Max(first.Width, second.Width))
                {
                    pairs.Add((first, second, most));
                }
            }
        }
        return pairs;
    }

    private static int Count(IdleRow row, Register register) =>
        row.Bits[register.Index].Count(b => b == Carried.Something);
}
