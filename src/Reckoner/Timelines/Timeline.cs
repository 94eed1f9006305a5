using Reckoner.Datapaths;

namespace Reckoner.Timelines;

/// <summary>One clock edge after the load, as places in the graph.</summary>
/// <param name="Cycle">Its number from 1, if every earlier edge takes place.</param>
/// <param name="Repeat">The loop, from 1; 0 outside loops. <paramref name="Round"/> likewise.</param>
/// <param name="Active">One bit: whether the edge takes place; constant 1 where no loop may have stopped before.</param>
/// <param name="Moments">What stands on the registers' wires at the end of each moment; the last is what the edge stores.</param>
/// <param name="Registers">What the registers hold after it, whether it takes place or not.</param>
/// <param name="Outcomes">
/// What is decided in it; meaningful where it takes place. <paramref name="Named"/> and <paramref name="Sums"/> likewise.
/// </param>
internal sealed record Edge(
    int Cycle,
    int Repeat,
    int Round,
    Step Step,
    int Active,
    IReadOnlyList<int[]> Moments,
    int[] Registers,
    IReadOnlyList<Outcome> Outcomes,
    IReadOnlyList<NamedWord> Named,
    IReadOnlyList<SummedWord> Sums
);

/// <summary>
/// Every clock edge of a datapath in order as one flat list of word operations over the operands. Loops that may stop early are
/// unrolled to their bound; an edge that does not take place keeps every register.
/// </summary>
internal sealed class Timeline
{
    private Timeline(Datapath datapath, WordGraph graph, int[] load, IReadOnlyList<Edge> edges, int[] results)
    {
        Datapath = datapath;
        Graph = graph;
        Load = load;
        Edges = edges;
        Results = results;
    }

    public Datapath Datapath { get; }
    public WordGraph Graph { get; }

    /// <summary>What the registers hold after the load.</summary>
    public int[] Load { get; }

    /// <summary>The adders' work that gives it.</summary>
    public IReadOnlyList<SummedWord> LoadSums { get; private init; } = [];
    public IReadOnlyList<Edge> Edges { get; }
    public int[] Results { get; }

    public static Timeline Of(Datapath datapath)
    {
        var graph = new WordGraph();
        var unrolling = new Unrolling(graph, graph.Operand);
        unrolling.Load(datapath);
        int[] load = [.. unrolling.Registers];
        var sums = unrolling.Sums;
        var edges = unrolling.Run(datapath, after: 0);
        graph.Origin = default;
        var results = datapath.Results.Select(r => unrolling.Word(r.Value)).ToArray();
        return new Timeline(datapath, graph, load, edges, results) { LoadSums = sums };
    }

    /// <summary>
    /// What follows an edge that takes place (0 is the load), over the registers as they are after it: the results as words of
    /// a graph of its own, in which registers are sources.
    /// </summary>
    public static (WordGraph Graph, int[] Results) Rest(Datapath datapath, int edge)
    {
        var graph = new WordGraph();
        var unrolling = new Unrolling(
            graph,
            _ => throw new InvalidOperationException("operands are gone after the load")
        );
        unrolling.Begin([.. datapath.Registers.Select(graph.Register)]);
        unrolling.Run(datapath, edge);
        return (graph, [.. datapath.Results.Select(r => unrolling.Word(r.Value))]);
    }
}
