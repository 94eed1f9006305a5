using System.Numerics;
using System.Xml.Linq;
using Reckoner.Checking;
using Reckoner.Drawing;
using Reckoner.Running;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

public class WeaveTests
{
    public static IEnumerable<TheoryDataRow<string, int>> Machine =>
        from name in Machines.Catalogue
        let machine = Machines.Named(name)
        from width in Machines.Widths(machine, 0, 4, 5, 8, 32, 64)
        select new TheoryDataRow<string, int>(name, width);

    private static Scene Drawn(string name, int width, params BigInteger[] operands)
    {
        var datapath = Walks.At(name, width);
        var chosen =
            operands.Length > 0
                ? Walks.Of(datapath, operands)
                : Walk.Of(datapath, SampleOperands.Of(datapath, new Random(8)).First(o => datapath.IsGiven(o)));
        return Weave.Of(Figure.Of(chosen, Vocabulary.English));
    }

    /// <summary>What the tests ask of a machine's figure, found while it is drawn once.</summary>
    private sealed record Seen(
        int Texts,
        IReadOnlyList<string> Outside,
        IReadOnlyList<string> Covered,
        IReadOnlyList<Box> Shapes
    );

    private static readonly Once<(string Name, int Width), Seen> Figures = new(key => Look(key.Name, key.Width));

    private static Seen Look(string name, int width)
    {
        var scene = Drawn(name, width);
        var texts = scene.Leaves.OfType<Text>().ToList();
        var outside = texts.Where(t => !(t.Within ?? scene.Box).Contains(t.Box) || !scene.Box.Contains(t.Box));
        var shapes = scene.Leaves.OfType<Area>().Select(a => a.Outline).OfType<Rectangle>().Select(r => r.Box);
        return new Seen(
            texts.Count,
            [.. outside.Take(3).Select(t => $"{t.Words} at {t.Box} in {t.Within}")],
            Covering.Among(texts),
            [.. shapes.Where(box => !scene.Box.Contains(box))]
        );
    }

    [Theory]
    [MemberData(nameof(Machine))]
    public void No_text_leaves_its_box_or_the_page_or_covers_another(string name, int width)
    {
        var seen = Figures[(name, width)];
        Assert.NotEqual(0, seen.Texts);
        Assert.Empty(seen.Outside);
        Assert.Empty(seen.Covered);
    }

    [Theory]
    [MemberData(nameof(Machine))]
    public void No_shape_leaves_the_page(string name, int width) => Assert.Empty(Figures[(name, width)].Shapes);

    [Fact]
    public void The_drawing_of_a_division_is_this() =>
        Snapshot.Match(
            nameof(The_drawing_of_a_division_is_this),
            SvgWriter.Write(Drawn("divide-shared-register", 4, 13, 3), Palette.Light),
            "svg"
        );

    /// <summary>
    /// Nine over twelve: w = 2 w - q d with d = 1.5 and w = 0.5625 at first (the recurrence of Ercegovac and Lang, Division and Square
    /// Root, 1994; the digits are 1, -1, 1, 0).
    /// </summary>
    [Fact]
    public void What_registers_stand_for_is_written_beside_the_rows_in_which_they_do()
    {
        var texts = Drawn("divide-srt-radix-2-carry-save", 4, 9, 12).Leaves.OfType<Text>().ToList();
        var heading = texts.Single(t => t.Words == "partial");
        var beside = texts.Where(t => t != heading && Math.Abs(t.At.X - heading.At.X) < 0.01).OrderBy(t => t.At.Y);
        Assert.Equal(["0.5625", "-0.375", "0.75", "0", "0"], beside.Select(t => t.Words));
    }

    [Fact]
    public void The_legend_says_how_it_is_known_that_a_bit_carries_nothing()
    {
        var datapath = Walks.At("divide-shared-register", 4);
        var figure = Figure.Of(Walks.Of(datapath, 13, 3), Vocabulary.English);
        string Legend(IdleStudy study) =>
            Weave.Of(figure with { Idle = study }).Leaves.OfType<Text>().Select(t => t.Words).Last();
        Assert.Equal("not in use, as the wiring shows", Legend(IdleByStructure.Of(datapath)));
        var overAll = Idle.OverAll(datapath, InterpretedEngine.Widest)!;
        Assert.Equal("not in use, whatever the operands", Legend(overAll));
    }

    /// <summary>Presentation attributes only: no style, class, pattern, mask, clip, script or reference.</summary>
    [Fact]
    public void The_drawing_is_made_of_what_slide_programs_take()
    {
        string[] elements = ["svg", "title", "desc", "g", "rect", "circle", "path", "text"];
        var svg = XDocument.Parse(SvgWriter.Write(Drawn("multiply-booth", 4, 5, -3), Palette.Dark));
        Assert.Empty(svg.Descendants().Select(e => e.Name.LocalName).Distinct().Except(elements));
        Assert.DoesNotContain(
            svg.Descendants().Attributes(),
            a => a.Name.LocalName is "style" or "class" or "id" || a.Value.Contains("url(")
        );
        Assert.Equal("img", svg.Root!.Attribute("role")?.Value);
        Assert.False(string.IsNullOrEmpty(svg.Root.Element(svg.Root.Name.Namespace + "title")?.Value));
        Assert.Contains("quotient", Drawn("divide-shared-register", 4, 13, 3).Description, StringComparison.Ordinal);
    }

    /// <summary>Who hears an exercise is told no more than who sees it.</summary>
    [Fact]
    public void The_description_tells_the_cycles_shown_and_results_only_where_they_stand()
    {
        var whole = Figure.Of(Walks.Of(Walks.At("divide-shared-register", 4), 13, 3), Vocabulary.English);
        string Told(Figure figure) => Weave.Of(figure).Description.Split("next cycle. ")[1];
        const string Given = "dividend = 13, divisor = 3; ";
        Assert.Equal(Given + "5 cycles after the load; quotient = 4, remainder = 1.", Told(whole));
        Assert.Equal(Given + "cycles 2 to 3 of 5.", Told(whole with { From = 2, To = 3, Until = 3 }));
        Assert.Equal(Given + "the load.", Told(whole with { Until = 0 }));
        Assert.Equal(Given + "cycle 4.", Told(whole with { From = 4, Until = 4 }));
        Assert.Equal(
            Given + "5 cycles after the load. The cells are empty, to be filled in.",
            Told(whole with { IsBlank = true })
        );
    }

    /// <summary>11 by 13: in an accumulator and the multiplier's register beside it, and in one register.</summary>
    [Theory]
    [InlineData("multiply-booth-radix-4-unsigned", "A", 5, "Q")]
    [InlineData("multiply-shared-register", "P", 15, "P")]
    public void A_result_has_its_bracket_in_one_register_or_two(string name, string first, int high, string last)
    {
        var scene = Drawn(name, 8, 11, 13);
        var said = scene.Leaves.OfType<Text>().Single(t => t.Words == "product = 143");
        Box Cell(string register, int bit) =>
            scene
                .Leaves.OfType<Area>()
                .Where(a => a.Link?.Register?.Name == register && a.Link.Bit == bit)
                .Select(a => ((Rectangle)a.Outline).Box)
                .First();
        var bracket = scene
            .Leaves.OfType<Stroke>()
            .Select(s => ((Trace)s.Outline).Steps)
            .Single(steps => Math.Abs(steps[0].To.Y - (said.At.Y - 25)) < 0.01);
        Assert.Equal(Cell(first, high).Left, bracket.Min(s => s.To.X), 0.01);
        Assert.Equal(Cell(last, 0).Right, bracket.Max(s => s.To.X), 0.01);
    }

    [Fact]
    public void Outlines_leave_no_text_to_a_font()
    {
        var svg = SvgWriter.Write(Drawn("divide-shared-register", 4, 13, 3), Palette.Light, TextForm.Outlines);
        Assert.DoesNotContain("<text", svg, StringComparison.Ordinal);
        Assert.DoesNotContain("font-family", svg, StringComparison.Ordinal);
        Assert.NotNull(XDocument.Parse(svg).Root);
    }

    /// <summary>400 KB is what a slide program opens without a pause.</summary>
    [Fact]
    public void A_wide_drawing_stays_small()
    {
        var svg = SvgWriter.Write(Drawn("divide-still-divisor", 32, 3_000_000_000, 7), Palette.Light);
        Assert.InRange(svg.Length, 1, 400_000);
    }
}
