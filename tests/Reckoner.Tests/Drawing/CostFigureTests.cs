using Reckoner.Costing;
using Reckoner.Datapaths;
using Reckoner.Drawing;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>The longest paths in the datapath, growth over widths, and the gates of adders, as figures.</summary>
public sealed class CostFigureTests
{
    private static readonly StillForm German = new(Vocabulary.Of("de")!, null);

    private static IEnumerable<Datapath> Catalogue =>
        Machines
            .Catalogue.Select(name =>
            {
                var (low, high) = Machines.Range(Machines.Named(name));
                return Walks.At(name, Math.Clamp(4, low, high));
            })
            .Where(d => TableGates.Refusal(d) is null);

    private static void AssertLegible(Scene scene)
    {
        var texts = scene.Leaves.OfType<Text>().ToList();
        Assert.Empty(texts.Where(t => !(t.Within ?? scene.Box).Contains(t.Box)).Select(t => t.Words));
        Assert.Empty(Covering.Among(texts));
    }

    /// <summary>Every unit and table that a step's longest path leads through is marked with the time that stands behind it there.</summary>
    [Fact]
    public void What_the_longest_path_of_a_step_leads_through_has_its_time()
    {
        var marked = 0;
        foreach (var datapath in Catalogue)
        {
            var cost = Costs.Of(datapath, AdderKind.Ripple);
            var levels = LongestPaths.Marked(
                Wiring.Still(cost.Structure, Vocabulary.English),
                cost,
                Vocabulary.English
            );
            foreach (var path in cost.Paths.Where(p => p.Step is not null))
            {
                var blocks = levels
                    .Where(l => l.Step == path.Step!.Number)
                    .SelectMany(l => l.Blocks)
                    .Where(b => b.At is not null)
                    .OrderBy(b => b.At)
                    .ToList();
                var hops = path.Hops.Where(h => h.Kind is PathKind.Unit or PathKind.Lookup).ToList();
                Assert.Equal(
                    hops.Select(h => (h.Unit, h.Table, (int?)h.At)),
                    blocks.Where(b => b.Unit is not null || b.Table is not null).Select(b => (b.Unit, b.Table, b.At))
                );
                Assert.All(blocks, b => Assert.Contains(path.Hops, h => h.At == b.At));
                // One goes from block to block along a word that the next one takes; a unit may wait for what it is told instead.
                Assert.All(
                    blocks.Skip(1).Where(b => b.Unit is null && !b.Taps.Exists(t => t.Lane.IsControl)),
                    b => Assert.Contains(b.Taps, t => t.Lane.IsLate)
                );
                marked += blocks.Count;
            }
        }
        Assert.True(marked > 100, $"{marked}");
    }

    [Fact]
    public void A_figure_of_longest_paths_says_the_clock_and_explains_its_mark()
    {
        var scene = Assert.Single(DatapathView.Timed(Walks.At("divide-still-divisor", 8), German));
        AssertLegible(scene);
        var said = scene.Leaves.OfType<Text>().Select(t => t.Words).ToList();
        Assert.Contains(said, s => s.Contains("die Taktzeit ist 23", StringComparison.Ordinal));
        Assert.Contains("17", said);
        Assert.Contains("braucht 23", said);
        Assert.Contains("auf dem längsten Weg; die Zahl ist die Zeit dahinter", said);
    }

    /// <summary>Bars of all rows have one scale, and a notch stands where the law is that is told.</summary>
    [Fact]
    public void Bars_of_growth_are_to_scale()
    {
        var datapaths = Enumerable.Range(4, 40).Select(n => Walks.At("divide-still-divisor", n)).ToList();
        var scene = Assert.Single(GrowthView.Of(datapaths, German));
        AssertLegible(scene);
        var rows = scene
            .Leaves.OfType<Area>()
            .Select(a => ((Rectangle)a.Outline).Box)
            .GroupBy(b => b.Top)
            .OrderBy(g => g.Key)
            .ToList();
        Assert.Equal(16, rows.Count);
        var costs = datapaths.ToDictionary(d => (long)d.Widths[0].Value, d => Costs.Of(d, AdderKind.Ripple));
        var widths = scene
            .Leaves.OfType<Text>()
            .Where(t => t.Words.StartsWith("n = ", StringComparison.Ordinal))
            .Select(t => long.Parse(t.Words[4..], System.Globalization.CultureInfo.InvariantCulture))
            .ToList();
        Assert.Equal((4, 43), (widths[0], widths[^1]));
        var pitch = rows.Zip(widths).Select(p => p.First.Sum(b => b.Width) / Length(costs[p.Second])).ToList();
        // Both bars of a row together, each in its own scale.
        double Length(MachineCost cost) =>
            (cost.Area * 620.0 / costs[43].Area) + (cost.Clock * 420.0 / costs[43].Clock);
        Assert.All(pitch, p => Assert.Equal(1, p, 1e-9));
        Assert.Equal(32, scene.Leaves.OfType<Stroke>().Count(s => s.Role == Role.Ink));
    }

    /// <summary>As many cells as there are gates, each below what it takes, and as deep as the table of adders says.</summary>
    [Theory]
    [InlineData("ripple", 4)]
    [InlineData("sklansky", 8)]
    [InlineData("brent-kung", 8)]
    [InlineData("kogge-stone", 8)]
    [InlineData("skip", 8)]
    [InlineData("select", 8)]
    [InlineData("look-ahead", 8)]
    public void An_adder_is_drawn_gate_by_gate(string name, int width)
    {
        var kind = Adders.All.Single(k => Adders.Name(k) == name);
        var form = German with { Adders = new AdderChoice(kind) };
        var scene = Assert.Single(AdderView.Of(Walks.At("divide-still-divisor", width), form));
        AssertLegible(scene);
        var net = new GateNet();
        var (sum, carry) = Adders.Sum(net, kind, net.Word(width), net.Word(width), net.Input());
        int[] outputs = [.. sum, carry];
        var gates = net.Needed(outputs).Where(g => g.Kind != GateKind.Constant).ToList();
        var cells = scene.Leaves.OfType<Area>().Select(a => ((Rectangle)a.Outline).Box).ToList();
        Assert.Equal(gates.Count, cells.Count);
        var at = net.Arrivals(CostModel.UnitGates, _ => 0).At;
        var rows = cells.Select(c => c.Top).Distinct().Order().ToList();
        Assert.Equal(gates.Select(g => at[g.Place]).Distinct().Count(), rows.Count);
        Assert.Equal(outputs.Max(o => at[o]) / 1.0, (rows[^1] - rows[0]) / 46, 1e-9);
    }

    /// <summary>What can be drawn of the catalogue is; the rest has no adder, or one that is too wide to be read.</summary>
    [Fact]
    public void Machines_without_an_adder_have_no_such_figure()
    {
        Assert.Equal(
            Catalogue.Where(d => d.Units.Any(u => u.Kind is UnitKind.Adder or UnitKind.Comparator && u.Uses.Count > 0)),
            Catalogue.Where(AdderView.Suits),
            (x, y) => x.Machine.Name == y.Machine.Name
        );
        Assert.False(AdderView.Suits(Walks.At("divide-still-divisor", 33)));
    }
}
