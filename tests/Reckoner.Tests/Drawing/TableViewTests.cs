using Reckoner.Datapaths;
using Reckoner.Drawing;
using Reckoner.Measuring;
using Reckoner.Running;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

public class TableViewTests
{
    private static Scene Compared(Datapath datapath) =>
        Assert.Single(ComparisonView.Of(datapath, Vocabulary.English, target: null));

    private static Scene Compared(IReadOnlyList<Datapath> datapaths) =>
        Assert.Single(ComparisonView.Of(datapaths, Vocabulary.English, target: null));

    public static IEnumerable<TheoryDataRow<string, int>> Machine =>
        from name in Machines.Catalogue
        from width in Machines.Widths(Machines.Named(name), 0, 4, 8, 32)
        select new TheoryDataRow<string, int>(name, width);

    [Theory]
    [MemberData(nameof(Machine))]
    public void No_text_leaves_the_page_or_covers_another(string name, int width)
    {
        var datapath = Walks.At(name, width);
        var walk = Walk.Of(datapath, SampleOperands.Of(datapath, new Random(8)).First(o => datapath.IsGiven(o)));
        var scenes = new List<Scene> { TableView.Of(Figure.Of(walk, Vocabulary.English)) };
        if (ComparisonView.Suits(datapath))
        {
            scenes.Add(Compared(datapath));
        }
        foreach (var scene in scenes)
        {
            var texts = scene.Leaves.OfType<Text>().ToList();
            Assert.Empty(texts.Where(t => !(t.Within ?? scene.Box).Contains(t.Box)).Select(t => t.Words));
            Assert.Empty(Covering.Among(texts));
        }
    }

    [Fact]
    public void The_digits_and_reasons_of_a_row_stand_beside_its_cycle()
    {
        var walk = Walks.Of(Walks.At("divide-shared-register", 4), 13, 3);
        var rows = TableView
            .Of(Figure.Of(walk, Vocabulary.English))
            .Leaves.OfType<Text>()
            .GroupBy(t => t.At.Y)
            .OrderBy(g => g.Key)
            .Select(g => string.Join(" | ", g.OrderBy(t => t.At.X).Select(t => t.Words)))
            .ToList();
        Assert.Contains("cycle | R | D | why", rows);
        Assert.Contains("load | 0000 1101 | 0011", rows);
        Assert.Contains(rows, r => r.StartsWith("3 | 0000 1001 | 0011 | it fits: 1 enters", StringComparison.Ordinal));
    }

    /// <summary>Columns, what a row is, labels and bases are those of the style; a row's cycle decides whether it is shown.</summary>
    [Fact]
    public void A_house_style_makes_the_columns_and_rows()
    {
        const string Sheet = """
            rows per moment
            label "{cycle}.{moment}"
            column label "Step"
            column left "A" base 16
            column borrow "B"
            """;
        var figure = Figure.Of(Walks.Of(Walks.At("divide-shared-register", 4), 13, 3), Vocabulary.English) with
        {
            Style = Styled.Read(Sheet),
            From = 2,
            To = 3,
            Until = 3,
        };
        Assert.Empty(TableView.Lacks(figure));
        Assert.Equal(
            [
                "Step | A | B ~",
                "2.1 ~ | 1 | 1",
                "2.2 | 3",
                "3.1 ~ | 0 | 0",
                "3.2 | 0",
                "~ stands on the wires only; no clock edge stores it.",
            ],
            Lines(TableView.Of(figure)).Skip(2)
        );
        Assert.Equal(4, Lines(TableView.Of(figure with { Until = 2 })).Skip(2).Count());
    }

    [Fact]
    public void What_a_style_asks_for_and_the_machine_has_not_is_told()
    {
        var figure = Figure.Of(Walks.Of(Walks.At("divide-shared-register", 4), 13, 3), Vocabulary.English) with
        {
            Style = Styled.Read("column AC"),
        };
        Assert.Equal("style-column", Assert.Single(TableView.Lacks(figure)).Id.Name);
    }

    private static IEnumerable<string> Lines(Scene scene) =>
        scene
            .Leaves.OfType<Text>()
            .GroupBy(t => t.At.Y)
            .OrderBy(g => g.Key)
            .Select(g => string.Join(" | ", g.OrderBy(t => t.At.X).Select(t => t.Words)));

    [Fact]
    public void The_description_of_versions_tells_what_their_ribbons_show() =>
        Assert.Equal(
            "2 machines, one below the other: registers and adders as ribbons to scale, and cycles. "
                + "divide-still-divisor at n = 8: 32 register bits, 8 adder bits, 9 cycles; "
                + "divide-shared-register at n = 8: 24 register bits, 8 adder bits, 9 cycles.",
            Compared([Walks.At("divide-still-divisor", 8), Walks.At("divide-shared-register", 8)]).Description
        );

    /// <summary>The bold letters of DejaVu Sans, which stand in where the font is missing, are up to 1.18 times as wide.</summary>
    [Fact]
    public void The_name_of_a_version_keeps_clear_of_a_title_in_wider_letters()
    {
        var texts = Compared(Walks.At("divide-shared-register", 8)).Leaves.OfType<Text>().ToList();
        var titles = texts.Where(t => t.Face == Face.Bold).Skip(1).ToList();
        Assert.Equal(3, titles.Count);
        Assert.All(
            titles,
            title =>
            {
                var name = texts.Single(t => t.Face == Face.Plain && t.At.Y == title.At.Y);
                Assert.True(title.Box.Left + title.Box.Width * 1.18 < name.Box.Left, title.Words);
            }
        );
    }

    [Fact]
    public void Machines_stand_below_each_other_in_the_order_in_which_they_are_named()
    {
        string[] names = ["divide-non-restoring", "divide-still-divisor", "multiply-booth"];
        var lines = Lines(Compared([.. names.Select(n => Walks.At(n, 8))])).ToList();
        Assert.Equal("Side by side", lines[0]);
        Assert.Equal(
            names.Select(n => $"{n} at n = 8"),
            lines.Where(l => l.Contains(" at n = ", StringComparison.Ordinal)).Select(l => l.Split(" | ")[1])
        );
        Assert.StartsWith("8 cycles; since the version above: ", lines[^1], StringComparison.Ordinal);
        Assert.Contains("1 cycle fewer", lines[^1], StringComparison.Ordinal);
    }

    /// <summary>
    /// Patterson and Hennessy, Computer Organization and Design, section 3.4: the first divider has a 64-bit divisor register, a 64-bit ALU, a
    /// 64-bit remainder register and a 32-bit quotient register; in the improved one divisor register and ALU are 32 bits wide and the
    /// quotient stands in the remainder register.
    /// </summary>
    [Fact]
    public void The_versions_of_the_divider_have_the_published_registers_and_adders()
    {
        var versions = ComparisonView.Lineage(Walks.At("divide-shared-register", 32)).Select(Hardware.Of).ToList();
        var counted = versions.Select(v =>
            $"{v.Datapath.Machine.Name} {ComparisonView.RegisterBits(v)} {ComparisonView.AdderBits(v)} {v.Datapath.MostCycles}"
        );
        Assert.Equal(
            ["divide-moving-divisor 160 64 33", "divide-still-divisor 128 32 33", "divide-shared-register 96 32 33"],
            counted
        );
        var said = Compared(Walks.At("divide-shared-register", 32))
            .Leaves.OfType<Text>()
            .Select(t => t.Words)
            .Where(w => w.Contains("cycles", StringComparison.Ordinal));
        Assert.Equal(
            [
                "33 cycles",
                "33 cycles; since the version above: 32 register bits fewer, 32 adder bits fewer",
                "33 cycles; since the version above: 32 register bits fewer",
            ],
            said
        );
    }
}
