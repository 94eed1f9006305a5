using System.Globalization;
using System.Text;
using Reckoner.Checking;
using Reckoner.Drawing;
using Reckoner.Running;
using Reckoner.Structure;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

public class DatapathViewTests
{
    private static IEnumerable<TheoryDataRow<string, int>> All =>
        from name in Machines.Catalogue
        from width in Machines.Widths(Machines.Named(name), 0, 4, 8, 32)
        select new TheoryDataRow<string, int>(name, width);

    public static IEnumerable<TheoryDataRow<string, int>> Machine =>
        All.Where(m => Portion.IsQuick(m.Data.Item1, m.Data.Item2));

    public static IEnumerable<TheoryDataRow<string, int>> Others =>
        All.Where(m => !Portion.IsQuick(m.Data.Item1, m.Data.Item2));

    /// <summary>What the quick run leaves out.</summary>
    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Others))]
    public void So_it_is_of_all_others(string name, int width)
    {
        Nothing_covers_anything_else_and_no_text_leaves_its_box(name, width);
        The_last_ribbons_hold_what_the_edge_stores(name, width);
        if (width <= 8)
        {
            On_a_board_of_few_bits_the_smallest_text_is_a_fortieth_of_the_height(name, width);
        }
    }

    private static IReadOnlyList<PathSheet> Still(string name, int width) =>
        DatapathView.StillSheets(Walks.At(name, width), Vocabulary.English);

    /// <summary>The load and a cycle in the middle of a walk.</summary>
    private static IReadOnlyList<PathSheet> Moving(string name, int width)
    {
        var datapath = Walks.At(name, width);
        var walk = Walk.Of(datapath, SampleOperands.Of(datapath, new Random(8)).First(o => datapath.IsGiven(o)));
        var figure = Figure.Of(walk, Vocabulary.English) with { Idle = IdleByStructure.Of(datapath) };
        return
        [
            .. new[] { 0, (walk.Cycles + 1) / 2 }
                .Distinct()
                .SelectMany(cycle => DatapathView.CycleSheets(figure with { From = cycle, To = cycle, Until = cycle })),
        ];
    }

    /// <summary>What the tests ask of a machine's figures, found while they are drawn once.</summary>
    /// <param name="Wrong">What covers something or leaves its box.</param>
    /// <param name="Smallest">Of every page, the smallest text as a share of the height.</param>
    /// <param name="Still">Pages, crossings, area and smallest text of the figure without operands.</param>
    private sealed record Seen(string Wrong, IReadOnlyList<double> Smallest, string Still);

    private static readonly Once<(string Name, int Width), Seen> Figures = new(key => Look(key.Name, key.Width));

    private static Seen Look(string name, int width)
    {
        var still = Still(name, width);
        var all = still.Concat(Moving(name, width)).ToList();
        return new Seen(
            string.Join('\n', all.SelectMany(Wrong).Take(4)),
            [.. all.Select(p => SmallestText(p.Scene) / Math.Max(p.Scene.Height, p.Scene.SafeWidth / 2))],
            string.Create(
                CultureInfo.InvariantCulture,
                $"{still.Count} {still.SelectMany(p => p.Parts).Sum(p => p.Crossings)} "
                    + $"{still.Sum(p => p.Scene.Width * p.Scene.Height) / 1000:0} "
                    + $"{still.Min(p => SmallestText(p.Scene)):0.#}"
            )
        );
    }

    private static double SmallestText(Scene scene) => scene.Leaves.OfType<Text>().Min(t => t.Size);

    [Theory]
    [MemberData(nameof(Machine))]
    public void Nothing_covers_anything_else_and_no_text_leaves_its_box(string name, int width) =>
        Assert.Equal("", Figures[(name, width)].Wrong);

    private static IEnumerable<string> Wrong(PathSheet sheet)
    {
        var scene = sheet.Scene;
        var texts = scene.Leaves.OfType<Text>().ToList();
        foreach (var text in texts.Where(t => !(t.Within ?? scene.Box).Contains(t.Box) || !scene.Box.Contains(t.Box)))
        {
            yield return $"text outside: {text.Words} at {text.Box} in {text.Within}";
        }
        foreach (var pair in Covering.Among(texts))
        {
            yield return $"text over text: {pair}";
        }
        var solid = sheet.Parts.SelectMany(p => p.Solid).ToList();
        for (var i = 0; i < solid.Count; i++)
        {
            if (!scene.Box.Contains(solid[i]))
            {
                yield return $"outside the page: {solid[i]}";
            }
            foreach (var other in solid.Skip(i + 1).Where(o => o.Overlaps(solid[i])))
            {
                yield return $"box over box: {solid[i]}, {other}";
            }
        }
        foreach (var bus in sheet.Parts.SelectMany(p => p.Buses))
        {
            var across = new Box(bus.Left, bus.Y - 1, bus.Right - bus.Left, 2);
            var down = new Box(bus.Port - 0.5, bus.Y, 1, bus.To - bus.Y);
            if (solid.Exists(b => b.Overlaps(across) || b.Overlaps(down)))
            {
                yield return $"bus through a box: {bus}";
            }
            if (!bus.Labelled)
            {
                yield return $"bus without its width: {bus}";
            }
        }
        foreach (
            var (lane, run) in sheet.Parts.SelectMany(p => p.Runs).Where(r => solid.Exists(b => b.Overlaps(r.Box)))
        )
        {
            yield return $"lane through a box: {lane.Name} at {run}";
        }
    }

    /// <summary>From the back of a room a fortieth of the height can be read; of a page that is wider than high, of half the width.</summary>
    [Theory]
    [MemberData(nameof(Machine))]
    public void On_a_board_of_few_bits_the_smallest_text_is_a_fortieth_of_the_height(string name, int width)
    {
        Assert.NotEmpty(Figures[(name, width)].Smallest);
        Assert.DoesNotContain(Figures[(name, width)].Smallest, share => share < 1 / 40.0);
    }

    /// <summary>Five bits are read one by one in every cycle of a walk, and the cycle is taken in at once.</summary>
    [Fact]
    public void Each_cycle_of_a_small_division_stands_on_one_sheet_with_binary_digits()
    {
        var walk = Walks.Of(Walks.At("divide-still-divisor", 5), 29, 6);
        foreach (var cycle in Enumerable.Range(1, walk.Cycles))
        {
            var figure = Figure.Of(walk, Vocabulary.English) with { From = cycle, To = cycle, Until = cycle };
            var sheet = Assert.Single(DatapathView.CycleSheets(figure));
            Assert.Single(sheet.Parts);
            Assert.All(
                sheet.Scene.Leaves.OfType<Text>().Where(t => t.Face == Face.Mono),
                t => Assert.Contains(t.Words, new[] { "0", "1" })
            );
        }
    }

    /// <summary>Where a layout cuts at steps, only what takes more than a sheet by itself is cut amid a step.</summary>
    [Theory]
    [InlineData(500, "0 1, 2, 2, 3, 3")]
    [InlineData(1000, "0 1 2 3")]
    public void What_does_not_fit_goes_on_on_another_page_where_a_step_ends(double height, string steps)
    {
        var datapath = Walks.At("divide-adding-back", 8);
        var levels = Wiring.Still(MachineStructure.Of(datapath), Vocabulary.English);
        var story = new PathStory(levels, "", "", Origins: null);
        var room = new FigureRoom(2 * height, height);
        var drawing = new PathSheets(datapath, Vocabulary.English, isBlank: true, [story], PathLayout.All[0], room);
        var pages = drawing.Of(drawing.Plan(story)).SelectMany(s => s.Parts);
        Assert.Equal(
            steps,
            string.Join(", ", pages.Select(p => string.Join(' ', p.Levels.Select(l => l.Step).Distinct())))
        );
    }

    /// <summary>What a lecturer shows first is taken in at once, and goes where one figure is asked for.</summary>
    [Theory]
    [InlineData("divide-moving-divisor")]
    [InlineData("divide-still-divisor")]
    [InlineData("divide-shared-register")]
    [InlineData("multiply-moving-multiplicand")]
    [InlineData("multiply-still-multiplicand")]
    [InlineData("multiply-shared-register")]
    public void The_first_dividers_and_multipliers_stand_on_one_sheet(string name)
    {
        for (var width = 4; width <= 8; width++)
        {
            var sheet = Assert.Single(Still(name, width));
            Assert.Single(sheet.Parts);
            Assert.InRange(sheet.Scene.SafeWidth, 0, 2.01 * sheet.Scene.Height);
            Assert.InRange(SmallestText(sheet.Scene) / sheet.Scene.Height, 1 / 40.0, 1);
        }
    }

    /// <summary>13 by 3: in cycle 3 the difference is kept, so its bits run into the left half and a borrow of 0 decides it.</summary>
    [Fact]
    public void What_acts_in_a_cycle_is_told_from_what_does_not()
    {
        var walk = Walks.Of(Walks.At("divide-shared-register", 4), 13, 3);
        string Notes(int cycle) =>
            string.Join(
                "; ",
                DatapathView
                    .CycleSheets(Figure.Of(walk, Vocabulary.English) with { From = cycle, To = cycle, Until = cycle })
                    .SelectMany(p => p.Parts)
                    .SelectMany(p => p.Levels)
                    .SelectMany(l => l.Notes)
            );
        Assert.Equal("left <- difference; R <- shl(R, not borrow)", Notes(3));
        Assert.Equal("nothing is taken; R <- shl(R, not borrow)", Notes(1));
        Assert.Equal("nothing is taken; right <- shl(right, not borrow)", Notes(5));
    }

    /// <summary>What registers hold before the cycle and behind it; what is written amid it is not judged.</summary>
    [Theory]
    [InlineData("divide-shared-register", 4)]
    [InlineData("divide-adding-back", 4)]
    public void Cells_that_carry_nothing_are_hatched(string name, int width)
    {
        var datapath = Walks.At(name, width);
        var walk = Walks.Of(datapath, 13, 3);
        var study = Idle.OverAll(datapath, InterpretedEngine.Widest)!;
        for (var cycle = 1; cycle <= walk.Cycles; cycle++)
        {
            var figure = Figure.Of(walk, Vocabulary.English) with
            {
                From = cycle,
                To = cycle,
                Until = cycle,
                Idle = study,
            };
            var scene = Assert.Single(DatapathView.CycleSheets(figure)).Scene;
            var cells = scene
                .Leaves.OfType<Area>()
                .Where(a => a.Link is { Register: not null, Bit: not null })
                .ToList();
            var rows = cells.GroupBy(a => ((Rectangle)a.Outline).Box.Top).OrderBy(g => g.Key).ToList();
            Assert.Equal(Nothing(study.Rows[cycle - 1]), Hatched(rows[0]));
            Assert.Equal(Nothing(study.Rows[cycle]), Hatched(rows[^1]));
            // What has not been written yet carries as little amid the cycle as before it.
            Assert.All(rows.SkipLast(1), row => Assert.Empty(Hatched(row).Except(Hatched(rows[0]))));
            Assert.Contains("not in use, whatever the operands", scene.Leaves.OfType<Text>().Select(t => t.Words));
        }

        List<string> Nothing(IdleRow row) =>
            [
                .. datapath
                    .Registers.SelectMany(r => row.Bits[r.Index].Select((b, i) => (Name: $"{r.Name} {i}", Carried: b)))
                    .Where(b => b.Carried != Carried.Something)
                    .Select(b => b.Name)
                    .Order(),
            ];

        static List<string> Hatched(IEnumerable<Area> cells) =>
            [.. cells.Where(c => c.Hatched).Select(c => $"{c.Link!.Register!.Name} {c.Link.Bit}").Order()];
    }

    /// <summary>The registers of every cycle's last ribbon hold what the walk stores.</summary>
    [Theory]
    [MemberData(nameof(Machine))]
    public void The_last_ribbons_hold_what_the_edge_stores(string name, int width)
    {
        var datapath = Walks.At(name, width);
        var walk = Walk.Of(datapath, SampleOperands.Of(datapath, new Random(3)).First());
        foreach (var row in walk.Rows.Take(12))
        {
            var at = Figure.Of(walk, Vocabulary.English) with { From = row.Cycle, To = row.Cycle, Until = row.Cycle };
            var last = DatapathView.CycleSheets(at)[^1].Parts[^1].Levels[^1];
            Assert.Equal(row.Registers, last.After.Select(l => l.Bits!.Value));
        }
    }

    /// <summary>
    /// Pages, crossings, area in thousands of square units and the smallest text of every still datapath. What rises needs a reason;
    /// what falls too, so that it stays down.
    /// </summary>
    [Fact]
    [Trait("Length", "long")]
    public void The_datapaths_come_out_as_large_and_as_crossed_as_this()
    {
        var table = new StringBuilder("machine width pages crossings area smallest\n");
        foreach (var row in All)
        {
            var (name, width) = row.Data;
            table.Append(CultureInfo.InvariantCulture, $"{name} {width} {Figures[(name, width)].Still}\n");
        }
        Snapshot.Match(nameof(The_datapaths_come_out_as_large_and_as_crossed_as_this), table.ToString());
    }
}
