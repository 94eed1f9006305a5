using System.Text;
using System.Xml.Linq;
using Reckoner.Drawing;
using Xunit;

namespace Reckoner.Documents.Tests;

/// <summary>
/// Our SVG taken into a drawing by LibreOffice Draw, without a screen and with its default settings, and written out again by it:
/// what it has understood comes out as texts, filled paths and drawn lines, every stretch of a line apart.
/// </summary>
[Trait("Length", "long")]
public class DrawingImportTests
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    /// <summary>What stands on a page, counted.</summary>
    private sealed record Counted(int Fills, int Lines)
    {
        public List<string> Texts { get; init; } = [];
    }

    public static TheoryData<string, string> Figure =>
        new()
        {
            { "weave", "light" },
            { "weave", "grey" },
            { "datapath", "light" },
            { "paper", "dark" },
            { "table", "light" },
            { "comparison", "light" },
        };

    [Theory]
    [MemberData(nameof(Figure))]
    public void A_drawing_program_finds_every_shape_and_text(string view, string ground)
    {
        var figure = Figures.Of("divide-shared-register", 4, 13, 3);
        var scene = View.All.Single(v => v.Name == view).Draws(figure)[0];
        var written = XDocument.Parse(SvgWriter.Write(scene, Palette.All.Single(p => p.Name == ground)));
        var expected = Ours(written.Root!);
        Assert.Equal(scene.Leaves.OfType<Drawing.Text>().Count(), expected.Texts.Count);
        var found = Theirs(written);
        Assert.Equal((expected.Fills, expected.Lines), (found.Fills, found.Lines));
        Assert.Equal(expected.Texts, found.Texts);
    }

    /// <summary>One shape or text fewer is noticed.</summary>
    [Fact]
    public void A_shape_that_is_not_understood_is_noticed()
    {
        var scene = Figures.Weave("divide-shared-register", 4, 13, 3);
        var written = XDocument.Parse(SvgWriter.Write(scene, Palette.Light));
        var expected = Ours(written.Root!);
        written.Descendants(Svg + "text").First().Remove();
        written.Descendants(Svg + "circle").First().Remove();
        var found = Theirs(written);
        Assert.Equal(expected.Texts.Count - 1, found.Texts.Count);
        Assert.Equal((expected.Fills - 1, expected.Lines - 1), (found.Fills, found.Lines));
    }

    private static Counted Theirs(XDocument figure)
    {
        using var folder = new Folder();
        var file = folder.Write("it.svg", Encoding.UTF8.GetBytes(figure.ToString(SaveOptions.DisableFormatting)));
        Program.Run(
            folder.Path,
            "soffice",
            $"-env:UserInstallation={new Uri(Path.Combine(folder.Path, "profile"))}",
            "--headless",
            "--convert-to",
            "svg:draw_svg_Export",
            "--outdir",
            "again",
            file
        );
        var again = XDocument.Load(Path.Combine(folder.Path, "again", file));
        // The letters of its fonts stand in front as shapes of their own, without a colour, and so does the clip of the page.
        var paths = again.Descendants(Svg + "path").Where(p => p.Attribute("fill") is not null).ToList();
        var lines = paths.Where(p => Has(p.Attribute("stroke")?.Value)).ToList();
        return new Counted(paths.Count - lines.Count, lines.Sum(p => Stretches(p))) { Texts = TextsOf(again.Root!) };
    }

    private static Counted Ours(XElement svg)
    {
        var (fills, lines) = (0, 0);
        Count(svg, null, null);
        return new Counted(fills, lines) { Texts = TextsOf(svg) };

        void Count(XElement element, string? fill, string? stroke)
        {
            fill = element.Attribute("fill")?.Value ?? fill;
            stroke = element.Attribute("stroke")?.Value ?? stroke;
            if (element.Name.LocalName is "path" or "rect" or "circle")
            {
                fills += Has(fill) ? 1 : 0;
                lines += Has(stroke) ? Stretches(element) : 0;
            }
            foreach (var child in element.Elements())
            {
                Count(child, fill, stroke);
            }
        }
    }

    private static bool Has(string? paint) => paint is not null and not "none";

    private static int Stretches(XElement shape) => shape.Attribute("d")?.Value.Count(c => c == 'M') ?? 1;

    private static List<string> TextsOf(XElement svg) =>
        [.. svg.Descendants(Svg + "text").Select(t => t.Value.Trim()).Where(t => t.Length > 0)];
}
