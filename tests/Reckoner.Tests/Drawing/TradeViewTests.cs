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
        Assert.Single(TradeView.Of(datapaths, Vocabulary.English, target: null));

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
            .Select(d => Assert.Single(TradeView.Of(d, Vocabulary.Of("de")!, target: null)))
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
        }
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
        Assert.DoesNotContain(
            Drawn(datapaths[0], datapaths[2]).Leaves.OfType<Area>(),
            a => a.Outline is Disc { Radius: > 4 }
        );
    }
}
