using Reckoner.Datapaths;

namespace Reckoner.Timelines;

/// <summary>
/// One clock edge by itself, over the registers as they are before it: words of a graph of its own, in which registers are
/// sources. The same for every round, except that one knows whether it is the last.
/// </summary>
/// <param name="Goes">Whether its loop goes on, asked where a round begins; null where nothing is asked.</param>
/// <param name="Registers">What the edge stores when it takes place.</param>
internal sealed record EdgeAlone(WordGraph Graph, int? Goes, int[] Registers)
{
    public static EdgeAlone Of(Datapath datapath, Segment segment, Step step, bool isLastRound)
    {
        var (graph, unrolling) = Over(datapath);
        int? goes = segment.While is not null && step == segment.Steps[0] ? unrolling.Word(segment.While) : null;
        unrolling.Last = graph.Constant(isLastRound ? 1 : 0, 1);
        unrolling.Step = step.Number;
        foreach (var moment in step.Moments)
        {
            unrolling.Moment(moment);
        }
        return new EdgeAlone(graph, goes, unrolling.Registers);
    }

    /// <summary>The results over the registers as they are in the end.</summary>
    public static (WordGraph Graph, int[] Results) Ending(Datapath datapath)
    {
        var (graph, unrolling) = Over(datapath);
        return (graph, [.. datapath.Results.Select(r => unrolling.Word(r.Value))]);
    }

    private static (WordGraph, Unrolling) Over(Datapath datapath)
    {
        var graph = new WordGraph();
        var unrolling = new Unrolling(
            graph,
            _ => throw new InvalidOperationException("operands are gone after the load")
        );
        unrolling.Begin([.. datapath.Registers.Select(graph.Register)]);
        return (graph, unrolling);
    }
}
