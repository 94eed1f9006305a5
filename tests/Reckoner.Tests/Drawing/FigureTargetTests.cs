using System.Globalization;
using System.Text;
using Reckoner.Drawing;
using Reckoner.Running;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

public class FigureTargetTests
{
    private const int Width = 8;

    private static readonly string[] Sizes = ["16:9", "4:3", "a4"];

    public static IEnumerable<TheoryDataRow<string>> Machine =>
        Machines.Catalogue.Where(IsAsked).Select(name => new TheoryDataRow<string>(name));

    public static IEnumerable<TheoryDataRow<string>> Others =>
        Machines.Catalogue.Where(name => !IsAsked(name)).Select(name => new TheoryDataRow<string>(name));

    /// <summary>One long description takes longer than all of these.</summary>
    private static bool IsAsked(string name) => Portion.IsQuick(name) && Portion.IsShort(name);

    /// <summary>What the quick run leaves out.</summary>
    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Others))]
    public void So_it_is_of_all_others(string name)
    {
        A_figure_fills_what_it_is_drawn_for_and_nothing_leaves_it(name);
        Of_few_bits_no_figure_is_wider_than_twice_its_height(name);
        A_datapath_can_be_read_on_a_sheet_and_on_a_broad_screen(name);
    }

    /// <summary>What the tests ask of a machine's figures, found while they are drawn once.</summary>
    /// <param name="Wrong">What leaves its page, lies over something, or has the form of another's drawing.</param>
    /// <param name="Wide">Figures that nothing is known of and that are wider than twice their height.</param>
    /// <param name="Small">Datapaths that could not be read on a sheet or a broad screen.</param>
    /// <param name="Told">For each view and size the pages, and the smallest text as a share of what is legible.</param>
    private sealed record Seen(string Wrong, string Wide, string Small, string Told);

    /// <summary>
    /// In the first step of a long description a dozen registers are written: its sheet cannot be cut and is a little smaller, the worst of
    /// the catalogue's 0.86.
    /// </summary>
    private const double Crowded = 0.85;

    private static readonly Once<string, Seen> Figures = new(Look);

    private static Seen Look(string name)
    {
        var width = Machines
            .Widths(Machines.Named(name), 0, Width)
            .LastOrDefault(Machines.Range(Machines.Named(name)).Low);
        var datapath = Walks.At(name, width);
        var walk = SampleOperands
            .Of(datapath, new Random(8))
            .Where(o => datapath.IsGiven(o))
            .Take(6)
            .Select(o => Walk.Traced(datapath, o))
            .MaxBy(w => w.Cycles)!;
        var one = Math.Min(1, walk.Cycles);
        var (wrong, wide, small, told) = (
            new List<string>(),
            new List<string>(),
            new List<string>(),
            new StringBuilder()
        );
        foreach (var view in View.All.Where(v => v.Suits(walk)))
        {
            var whole = Figure.Of(walk, Vocabulary.English) with { Folds = true };
            var figure = view.Grows ? whole : whole with { From = one, To = one, Until = one };
            var free = view.Draws(figure)
                .Concat(view.Still?.Invoke(datapath, new StillForm(Vocabulary.English, null)) ?? [])
                .ToList();
            wide.AddRange(
                free.Where(s => s.Width > 2.01 * s.Height)
                    .Select(s => $"{name} {view.Name}: {s.Width:0} by {s.Height:0}")
            );
            wrong.AddRange(free.SelectMany(Foreign).Select(f => $"{view.Name}: {f}"));
            foreach (var size in Sizes)
            {
                var target = FigureTarget.Read(size)!;
                var pages = view.Draws(figure with { Target = target });
                wrong.AddRange(pages.SelectMany(p => Wrong(p, target)).Select(w => $"{view.Name} on {size}: {w}"));
                var smallest = pages.SelectMany(p => p.Leaves).OfType<Text>().Min(t => t.Size) / target.SmallestText;
                if (view.Name == "datapath" && size != "4:3" && smallest < (Portion.IsShort(name) ? 0.99 : Crowded))
                {
                    small.Add($"{name} {view.Name} on {size}: {smallest:0.00}");
                }
                told.Append(CultureInfo.InvariantCulture, $" {view.Name} {size} {pages.Count} {smallest:0.00};");
            }
        }
        return new Seen(
            string.Join('\n', wrong.Take(4)),
            string.Join('\n', wide),
            string.Join('\n', small),
            told.ToString().TrimEnd(';')
        );
    }

    private static IEnumerable<string> Wrong(Scene page, FigureTarget target)
    {
        if ((page.Width, page.Height) != (target.Width, target.Height) || page.SafeWidth > target.Width + 1)
        {
            yield return $"{page.Width} ({page.SafeWidth}) by {page.Height}";
        }
        foreach (var text in page.Leaves.OfType<Text>().Where(t => !page.Box.Contains(t.Box)))
        {
            yield return $"outside: {text.Words}";
        }
        foreach (var pair in Covering.Among(page.Leaves.OfType<Text>()))
        {
            yield return $"covered: {pair}";
        }
    }

    /// <summary>Whoever knows drawings of hardware or of states from elsewhere finds none of their forms here.</summary>
    private static IEnumerable<string> Foreign(Scene scene)
    {
        var texts = scene.Leaves.OfType<Text>().ToList();
        foreach (var area in scene.Leaves.OfType<Area>())
        {
            if (area.Outline is Trace trace && BlockShapes.IsTrapezoid(trace))
            {
                yield return "a trapezoid";
            }
            if (
                area.Outline is Disc disc
                && texts.Exists(t => t.Box.Overlaps(new Box(disc.Centre.X, disc.Centre.Y, 0.1, 0.1)))
            )
            {
                yield return "a circle that holds text";
            }
        }
    }

    [Theory]
    [MemberData(nameof(Machine))]
    public void A_figure_fills_what_it_is_drawn_for_and_nothing_leaves_it(string name) =>
        Assert.Equal("", Figures[name].Wrong);

    [Theory]
    [MemberData(nameof(Machine))]
    public void Of_few_bits_no_figure_is_wider_than_twice_its_height(string name) =>
        Assert.Equal("", Figures[name].Wide);

    /// <summary>What does not go on one page is laid out narrower, or goes on on another.</summary>
    [Theory]
    [MemberData(nameof(Machine))]
    public void A_datapath_can_be_read_on_a_sheet_and_on_a_broad_screen(string name) =>
        Assert.Equal("", Figures[name].Small);

    /// <summary>Pages and smallest text of every figure. What falls below 1.00 is smaller than can be read there; each needs a reason:
    /// an adder is drawn a column a bit, on one page however narrow that is.</summary>
    [Fact]
    [Trait("Length", "long")]
    public void The_figures_come_out_on_so_many_pages_and_as_legible_as_this()
    {
        var table = new StringBuilder();
        foreach (var name in Machines.Catalogue)
        {
            table.Append(name).Append(':').Append(Figures[name].Told).Append('\n');
        }
        Snapshot.Match(nameof(The_figures_come_out_on_so_many_pages_and_as_legible_as_this), table.ToString());
    }

    [Theory]
    [InlineData("16:9", 1280, 720, 18)]
    [InlineData("4:3", 960, 720, 18)]
    [InlineData("a4", 794, 1123, 12)]
    [InlineData("a5", 559, 794, 12)]
    [InlineData("letter", 816, 1056, 12)]
    [InlineData("1600x1000", 1600, 1000, 25)]
    [InlineData("240x8000", 240, 8000, 12)]
    public void A_size_is_a_name_or_width_and_height(string text, double width, double height, double smallest) =>
        Assert.Equal(new FigureTarget(width, height, smallest), FigureTarget.Read(text));

    [Theory]
    [InlineData("")]
    [InlineData("A4")]
    [InlineData("16x9")]
    [InlineData("1600")]
    [InlineData("1600x")]
    [InlineData("1600x-900")]
    [InlineData("1600x900x2")]
    [InlineData("239x8000")]
    [InlineData("240x8001")]
    [InlineData("1e3x1000")]
    public void What_is_no_size_is_none(string text) => Assert.Null(FigureTarget.Read(text));

    /// <summary>29 by 6 at 32 bits: in cycles 2 to 27 only zeros enter, and the difference is dropped.</summary>
    [Fact]
    public void Cycles_that_do_the_same_stand_as_one_where_there_are_many()
    {
        var figure = Figure.Of(Walks.Of(Walks.At("divide-shared-register", 32), 29, 6), Vocabulary.English);
        var page = WeaveSheets.Whole(figure with { Folds = true });
        var slots = page.Columns[0].Slots;
        Assert.Contains(slots, s => s.Row is null && s.To - s.From > 20);
        Assert.Equal(
            Enumerable.Range(0, figure.Walk.Cycles + 1),
            slots.SelectMany(s => Enumerable.Range(s.From, s.To - s.From + 1))
        );
        Assert.All(WeaveSheets.Whole(figure).Columns[0].Slots, s => Assert.NotNull(s.Row));
    }

    /// <summary>13 by 3 at 4 bits: the difference is kept in cycle 3 alone.</summary>
    [Fact]
    public void A_difference_that_is_tried_and_dropped_leaves_a_hollow_bar_where_a_kept_one_leaves_a_full_one()
    {
        var walk = Walks.Of(Walks.At("divide-shared-register", 4), 13, 3);
        var bars = Weave
            .Of(Figure.Of(walk, Vocabulary.English))
            .Leaves.OfType<Area>()
            .Where(a => a.Link is { Cycle: not null, Line: not null })
            .ToLookup(a => a.Fill is null, a => a.Link!.Cycle!.Value);
        Assert.Equal([3], bars[false]);
        Assert.Equal([1, 2, 4, 5], bars[true]);
    }

    /// <summary>A sum that nobody looked at was not tried: the multiplier's bit decides before anything is added.</summary>
    [Fact]
    public void Where_a_decision_comes_first_nothing_was_tried()
    {
        var walk = Walks.Of(Walks.At("multiply-shared-register", 4), 11, 5);
        Assert.All(Provenance.Of(walk), row => Assert.Empty(row.Dropped));
    }
}
