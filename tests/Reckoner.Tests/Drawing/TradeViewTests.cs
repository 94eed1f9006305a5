using Reckoner.Costing;
using Reckoner.Datapaths;
using Reckoner.Drawing;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>What each version buys, as a figure.</summary>
public class TradeViewTests
{
    private static Scene Drawn(params IReadOnlyList<Datapath> datapaths) =>
        Assert.Single(TradeView.Of(datapaths, new StillForm(Vocabulary.English, null)));

    private static Datapath Narrow(string name)
    {
        var (low, high) = Machines.Range(Machines.Named(name));
        return Walks.At(name, Math.Clamp(4, low, high));
    }

    /// <summary>Of every machine of the catalogue with those that it follows, at a narrow width, and of five that are named.</summary>
    [Fact]
    public void No_text_leaves_the_page_or_covers_another()
    {
        var scenes = Machines
            .Catalogue.Select(name => Narrow(name))
            .Where(TradeView.Suits)
            .Select(d => Assert.Single(TradeView.Of(d, new StillForm(Vocabulary.Of("de")!, null))))
            .Append(
                Drawn([
                    .. new[]
                    {
                        "multiply-booth",
                        "multiply-booth-radix-4",
                        "multiply-early-out",
                        "multiply-carry-save",
                        "divide-srt-radix-4",
                    }.Select(name => Walks.At(name, 32)),
                ])
            );
        foreach (var scene in scenes)
        {
            var texts = scene.Leaves.OfType<Text>().ToList();
            Assert.Empty(texts.Where(t => !(t.Within ?? scene.Box).Contains(t.Box)).Select(t => t.Words));
            Assert.Empty(Covering.Among(texts));
            // Lines between versions begin and end within bars, and pass no text.
            var lines = scene
                .Leaves.OfType<Stroke>()
                .Where(s => s.Role == Role.Quiet)
                .SelectMany(s => ((Trace)s.Outline).Steps.Zip(((Trace)s.Outline).Steps.Skip(1)))
                .Select(p => Between(p.First.To, p.Second.To))
                .ToList();
            Assert.Empty(texts.Where(t => lines.Any(t.Box.Overlaps)).Select(t => t.Words));
        }
    }

    private static Box Between(Point a, Point b) =>
        new(Math.Min(a.X, b.X), Math.Min(a.Y, b.Y), Math.Abs(a.X - b.X) + 0.1, Math.Abs(a.Y - b.Y) + 0.1);

    /// <summary>A bar that hangs far up leaves the line below the title to itself, and each stretch has its name once.</summary>
    [Fact]
    public void All_stretches_are_named_and_loops_that_may_stop_say_at_most()
    {
        var scene = Drawn(Walks.At("multiply-early-out", 32), Walks.At("divide-srt-radix-4", 32));
        var said = scene.Leaves.OfType<Text>().Select(t => t.Words).ToList();
        Assert.Contains(said, s => s.Contains("at most 32 cycles", StringComparison.Ordinal));
        Assert.Equal(2, said.Count(s => s == "choices"));
        Assert.Contains(said, s => s.StartsWith("adder, line ", StringComparison.Ordinal));
    }

    /// <summary>Bars are as long as their areas, threads begin where times are, and lines lead from each version to its follower.</summary>
    [Fact]
    public void Bars_are_to_scale_and_hang_at_their_times()
    {
        string[] names = ["divide-moving-divisor", "divide-still-divisor", "divide-shared-register"];
        var datapaths = names.Select(n => Walks.At(n, 8)).ToList();
        var costs = datapaths.Select(d => Costs.Of(d, AdderKind.Ripple)).ToList();
        var scene = Drawn(datapaths);
        var stretches = scene
            .Leaves.OfType<Area>()
            .Select(a => a.Outline)
            .OfType<Rectangle>()
            .GroupBy(r => r.Box.Top)
            .Select(g => (Left: g.Min(r => r.Box.Left), Right: g.Max(r => r.Box.Right), Top: g.Key))
            .ToList();
        Assert.Equal(3, stretches.Count);
        var lengths = stretches.Select(s => s.Right - s.Left).Order().ToList();
        var areas = costs.Select(c => (double)c.Area).Order().ToList();
        Assert.All(lengths.Zip(areas), p => Assert.Equal(lengths[0] / areas[0], p.First / p.Second, 1e-9));
        var top = scene.Leaves.OfType<Text>().Single(t => t.Words == "0").At.Y;
        var times = costs.Select(c => c.Time.Most).Distinct().Order().ToList();
        var numbers = times
            .Select(time => scene.Leaves.OfType<Text>().Single(t => t.Words == $"{time}").At.Y - top)
            .ToList();
        Assert.Equal((double)times[0] / times[1], numbers[0] / numbers[1], 1e-9);
        // Two of the three follow another, and each line ends in a dot.
        Assert.Equal(2, scene.Leaves.OfType<Area>().Count(a => a.Outline is Disc));
        // The last follows the first by way of one that is not drawn.
        Assert.Single(Drawn(datapaths[0], datapaths[2]).Leaves.OfType<Area>(), a => a.Outline is Disc);
    }
}
