using Reckoner.Datapaths;

namespace Reckoner.Timelines;

/// <summary>One clock edge after the load, as places in the graph.</summary>
/// <param name="Cycle">Its number from 1, if every earlier edge takes place.</param>
/// <param name="Repeat">The loop, from 1; 0 outside loops. <paramref name="Round"/> likewise.</param>
/// <param name="Active">One bit: whether the edge takes place; constant 1 where no loop may have stopped before.</param>
/// <param name="Moments">What stands on the registers' wires at the end of each moment; the last is what the edge stores.</param>
/// <param name="Registers">What the registers hold after it, whether it takes place or not.</param>
/// <param name="Outcomes">What is decided in it; meaningful where it takes place. <paramref name="Named"/> likewise.</param>
public sealed record Edge(
    int Cycle,
    int Repeat,
    int Round,
    Step Step,
    int Active,
    IReadOnlyList<int[]> Moments,
    int[] Registers,
    IReadOnlyList<Outcome> Outcomes,
    IReadOnlyList<NamedWord> Named
);

/// <summary>
/// Every clock edge of a datapath in order as one flat list of word operations over the operands. Loops that may stop early are
/// unrolled to their bound; an edge that does not take place keeps every register.
/// </summary>
public sealed class Timeline
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
    public IReadOnlyList<Edge> Edges { get; }
    public int[] Results { get; }

    public static Timeline Of(Datapath datapath)
    {
        var graph = new WordGraph();
        var unrolling = new Unrolling(graph, graph.Operand);
        foreach (var register in datapath.Registers)
        {
            graph.Origin = new Origin(
                0,
                register.Loads.Source,
                register.Loads.Source!.LineOf(register.Loads.Written!.Span.Start),
                null
            );
            unrolling.Begin([.. unrolling.Registers, unrolling.Word(register.Loads)]);
        }
        var load = unrolling.Registers;
        var edges = Unroll(graph, unrolling, datapath, after: 0);
        graph.Origin = default;
        var results = datapath.Results.Select(r => unrolling.Word(r.Value)).ToArray();
        return new Timeline(datapath, graph, load, edges, results);
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
        Unroll(graph, unrolling, datapath, edge);
        return (graph, [.. datapath.Results.Select(r => unrolling.Word(r.Value))]);
    }

    /// <summary>Takes every edge after one, which itself is known to take place.</summary>
    private static List<Edge> Unroll(WordGraph graph, Unrolling unrolling, Datapath datapath, int after)
    {
        var edges = new List<Edge>();
        var cycle = 0;
        foreach (var segment in datapath.Schedule)
        {
            var active = graph.Constant(1, 1);
            for (var round = 1; round <= segment.Count; round++)
            {
                if (segment.While is not null && cycle >= after)
                {
                    unrolling.Begin(unrolling.Registers);
                    var first = segment.Steps[0];
                    graph.Origin = new Origin(first.Number, first.Source, segment.Line, null);
                    active = graph.And(active, unrolling.Word(segment.While));
                }
                unrolling.Last = graph.Constant(round == segment.Count ? 1 : 0, 1);
                foreach (var step in segment.Steps)
                {
                    if (++cycle > after)
                    {
                        var number = segment.IsLoop ? round : 0;
                        edges.Add(Take(graph, unrolling, step, active, segment.Repeat, number, cycle));
                    }
                }
            }
        }
        return edges;
    }

    private static Edge Take(
        WordGraph graph,
        Unrolling unrolling,
        Step step,
        int active,
        int repeat,
        int round,
        int cycle
    )
    {
        var before = unrolling.Registers;
        unrolling.Step = step.Number;
        unrolling.Begin(before);
        var moments = new List<int[]>();
        foreach (var moment in step.Moments)
        {
            unrolling.Moment(moment);
            moments.Add([.. unrolling.Registers]);
        }
        graph.Origin = new Origin(step.Number, step.Source, step.Line, null);
        var after = unrolling.Registers.Zip(before, (now, held) => graph.Choose(active, now, held)).ToArray();
        var (outcomes, named) = (unrolling.Outcomes, unrolling.Named);
        unrolling.Begin(after);
        return new Edge(cycle, repeat, round, step, active, moments, after, outcomes, named);
    }
}
