using Reckoner.Datapaths;
using Reckoner.Timelines;

namespace Reckoner.Checking;

/// <summary>
/// Which register bits carry nothing by structure, at any width: constants are carried forward edge by edge, and what the
/// results need is carried back. Sound, and possibly fewer than over all operands: that two bits are always equal, or that a
/// sum cannot overflow, is not seen. Needs no operand, so "given" does not help it.
/// </summary>
internal sealed class IdleByStructure
{
    private const int Unknown = -1;

    private readonly Datapath datapath;

    /// <summary>All registers' bits are numbered through; each register's begin here.</summary>
    private readonly int[] offsets;
    private readonly int bits;
    private readonly Dictionary<(Step, bool), EdgeAlone> alone = [];

    /// <summary>The last link of each, with what was constant before it.</summary>
    private readonly Dictionary<EdgeAlone, (int[] State, Link Link)> last = new(ReferenceEqualityComparer.Instance);

    /// <summary>Gates over the register bits before an edge: whether its loop goes on, and the bits after it.</summary>
    private sealed record Link(GateGraph Graph, int Goes, int[] After);

    private IdleByStructure(Datapath datapath)
    {
        this.datapath = datapath;
        offsets = new int[datapath.Registers.Count];
        foreach (var register in datapath.Registers)
        {
            offsets[register.Index] = bits;
            bits += register.Width;
        }
    }

    public static IdleStudy Of(Datapath datapath)
    {
        var study = new IdleByStructure(datapath);
        var timeline = Timeline.Of(datapath);
        var graph = new GateGraph(datapath.Operands.Sum(o => o.Width));
        var planes = new Planes(graph, timeline.Graph, MachineGates.OperandLiterals(datapath.Operands));
        var load = Flat(timeline.Load.Select(place => planes[place]));
        var links = study.Forward(load);
        var needed = study.Backward(links);

        var rows = new List<IdleRow> { study.Row(0, null, GateGraph.One, load, needed[0]) };
        for (var e = 0; e < timeline.Edges.Count; e++)
        {
            var edge = timeline.Edges[e];
            // The whole timeline knows that bits are equal or opposite, the edge alone that those before it took place.
            var held = Flat(edge.Moments[^1].Select(place => planes[place]))
                .Zip(links[e].After, (whole, here) => here <= GateGraph.One ? here : whole)
                .ToArray();
            rows.Add(study.Row(e + 1, edge, planes[edge.Active][0], held, needed[e + 1]));
        }
        return new IdleStudy(datapath, false, rows);
    }

    private static int[] Flat(IEnumerable<int[]> words) => [.. words.SelectMany(w => w)];

    private IdleRow Row(int cycle, Edge? edge, int active, int[] held, bool[] needed)
    {
        Carried Judged(int bit) =>
            active == GateGraph.Zero || held[bit] == GateGraph.Zero ? Carried.AlwaysZero
            : held[bit] == GateGraph.One ? Carried.AlwaysOne
            : needed[bit] ? Carried.Something
            : Carried.Unread;
        var judged = datapath.Registers.Select(r =>
            (IReadOnlyList<Carried>)[.. Enumerable.Range(offsets[r.Index], r.Width).Select(Judged)]
        );
        return IdleRow.Of(cycle, edge, null, active == GateGraph.One, judged);
    }

    /// <summary>
    /// A link for every edge, over what is constant before it whatever the other bits are, and one for the results. Only such
    /// constants may stand in for bits when what is needed is carried back: one that holds because two bits are equal is lost
    /// when one of them is turned over.
    /// </summary>
    private List<Link> Forward(int[] load)
    {
        var links = new List<Link>();
        var state = Constants(load);
        foreach (var segment in datapath.Schedule)
        {
            var end = state;
            for (var round = 1; round <= segment.Count; round++)
            {
                foreach (var step in segment.Steps)
                {
                    links.Add(Linked(Alone(segment, step, round == segment.Count), state));
                    state = Constants(links[^1].After);
                }
                // A loop that may stop early ends in the state after any of its rounds.
                end = segment.While is null ? state : [.. end.Zip(state, (a, b) => a == b ? a : Unknown)];
            }
            state = end;
        }
        var (wiring, results) = EdgeAlone.Ending(datapath);
        var (last, words) = Gates(wiring, state);
        links.Add(new Link(last, GateGraph.One, Flat(results.Select(r => words[r]))));
        return links;
    }

    /// <summary>A loop of many rounds comes to a state in which each round is like the one before: then its link is the same.</summary>
    private Link Linked(EdgeAlone edge, int[] state)
    {
        if (last.TryGetValue(edge, out var known) && known.State.AsSpan().SequenceEqual(state))
        {
            return known.Link;
        }
        var (graph, goes, registers) = edge;
        var (gates, planes) = Gates(graph, state);
        var after = Flat(registers.Select(r => planes[r]));
        var link = new Link(gates, goes is { } word ? planes[word][0] : GateGraph.One, after);
        last[edge] = (state, link);
        return link;
    }

    private static int[] Constants(int[] literals) => [.. literals.Select(l => l <= GateGraph.One ? l : Unknown)];

    private EdgeAlone Alone(Segment segment, Step step, bool isLastRound)
    {
        if (!alone.TryGetValue((step, isLastRound), out var edge))
        {
            alone[(step, isLastRound)] = edge = EdgeAlone.Of(datapath, segment, step, isLastRound);
        }
        return edge;
    }

    private (GateGraph, Planes) Gates(WordGraph words, int[] state)
    {
        var graph = new GateGraph(bits);
        var sources = datapath.Registers.Select(r =>
            Enumerable
                .Range(offsets[r.Index], r.Width)
                .Select(bit => state[bit] == Unknown ? GateGraph.Input(bit) : state[bit])
                .ToArray()
        );
        return (graph, new Planes(graph, words, [.. sources]));
    }

    /// <summary>
    /// The bits that are needed after the load (at 0) and after every edge, for operands that reach it. Where a loop may stop,
    /// what decides that is needed, and what is needed in either case.
    /// </summary>
    private bool[][] Backward(List<Link> links)
    {
        var needed = new bool[links.Count][];
        var results = links[^1];
        var at = links.Count - 1;
        var now = Cone(results.Graph, results.After);
        foreach (var segment in datapath.Schedule.Reverse())
        {
            var behind = now;
            for (var round = segment.Count; round >= 1; round--)
            {
                for (var step = segment.Steps.Count - 1; step >= 0; step--)
                {
                    needed[at--] = now;
                    var link = links[at];
                    now = Cone(link.Graph, [.. link.After.Where((_, bit) => now[bit])]);
                    now = link.Goes switch
                    {
                        GateGraph.One => now,
                        GateGraph.Zero => behind,
                        _ => Either(Either(now, behind), Cone(link.Graph, [link.Goes])),
                    };
                }
            }
        }
        needed[0] = now;
        return needed;
    }

    private static bool[] Either(bool[] a, bool[] b) => [.. a.Zip(b, (x, y) => x || y)];

    /// <summary>The inputs that literals depend on.</summary>
    private static bool[] Cone(GateGraph graph, IReadOnlyList<int> literals)
    {
        var reached = new bool[graph.PlaneOf(graph.Gates.Count)];
        foreach (var literal in literals)
        {
            reached[literal >> 1] = true;
        }
        for (var g = graph.Gates.Count - 1; g >= 0; g--)
        {
            if (reached[graph.PlaneOf(g)])
            {
                var gate = graph.Gates[g];
                reached[gate.A] = reached[gate.B] = reached[gate.C] = true;
            }
        }
        return reached[1..(1 + graph.Inputs)];
    }
}
