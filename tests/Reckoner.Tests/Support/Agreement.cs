using System.Numerics;
using Reckoner.Running;
using Reckoner.Timelines;
using Xunit;

namespace Reckoner.Tests;

/// <summary>The flat list of word operations against the walk, its slow twin.</summary>
internal static class Agreement
{
    /// <summary>Every register at the load, at every moment and every edge, and every result.</summary>
    public static void Check(Timeline timeline, Walk walk)
    {
        var run = new TimelineRun(timeline, walk.Operands);
        Same("the load", walk.Rows[0].Registers, run.At(timeline.Load));
        var before = timeline.Load;
        var next = 1;
        foreach (var edge in timeline.Edges)
        {
            if (run[edge.Active].IsOne)
            {
                Assert.True(next < walk.Rows.Count, $"the walk has no row for edge {edge.Cycle}");
                Check(run, edge, walk.Rows[next++]);
            }
            else
            {
                Same($"edge {edge.Cycle}, which does not take place", run.At(before), run.At(edge.Registers));
            }
            before = edge.Registers;
        }
        Assert.Equal(walk.Rows.Count, next);
        Same("the results", walk.Results, run.At(timeline.Results));
    }

    public static void Check(Timeline timeline, IReadOnlyList<BigInteger> operands) =>
        Check(timeline, Walk.Of(timeline.Datapath, operands));

    private static void Check(TimelineRun run, Edge edge, Row row)
    {
        Assert.Same(row.Step, edge.Step);
        Assert.Equal((row.Repeat, row.Round), (edge.Repeat, edge.Round));
        Assert.Equal(row.Moments.Count, edge.Moments.Count);
        for (var i = 0; i < edge.Moments.Count; i++)
        {
            Same($"row {row.Cycle}.{i + 1}", row.Moments[i].Registers, run.At(edge.Moments[i]));
        }
        Same($"row {row.Cycle}", row.Registers, run.At(edge.Registers));
    }

    private static void Same(string place, IReadOnlyList<BigInteger> walked, IReadOnlyList<BigInteger> computed) =>
        Assert.True(
            walked.SequenceEqual(computed),
            $"{place}: the walk has {string.Join(' ', walked)}, the timeline {string.Join(' ', computed)}"
        );
}
