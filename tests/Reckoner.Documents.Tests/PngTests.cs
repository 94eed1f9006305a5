using Reckoner.Drawing;
using SkiaSharp;
using Xunit;

namespace Reckoner.Documents.Tests;

public class PngTests
{
    private static readonly Scene Weave = Figures.Weave("divide-shared-register", 4, 13, 3);

    [Fact]
    public void A_scene_is_painted_two_pixels_to_the_unit_on_its_ground()
    {
        using var image = SKBitmap.Decode(PngWriter.Write(Weave, Palette.Dark));
        Assert.Equal((int)Math.Ceiling(Weave.Width * 2), image.Width);
        Assert.Equal((int)Math.Ceiling(Weave.Height * 2), image.Height);
        Assert.Equal(new SKColor(0x15, 0x18, 0x1D), image.GetPixel(2, 2));
    }

    [Fact]
    public void A_scene_longer_than_programs_open_comes_out_coarser()
    {
        var tall = Weave with { Width = 40, Height = 20_000, Shapes = [] };
        using var image = SKBitmap.Decode(PngWriter.Write(tall, Palette.Light));
        Assert.Equal(16_000, image.Height);
    }

    /// <summary>
    /// librsvg (Debian's librsvg2-bin) paints the SVG, letters as outlines so that fonts have no say, as we paint the PNG: on
    /// average a channel of a pixel differs by less than one step of 255, and hardly any by much: both smooth edges in their own way.
    /// </summary>
    [Theory]
    [InlineData("light")]
    [InlineData("dark")]
    [InlineData("grey")]
    public void Another_painter_shows_the_same(string name)
    {
        var palette = Palette.All.Single(p => p.Name == name);
        using var folder = new Folder();
        var svg = SvgWriter.Write(Weave, palette, TextForm.Outlines);
        var file = folder.Write("it.svg", System.Text.Encoding.UTF8.GetBytes(svg));
        Program.Run(folder.Path, "rsvg-convert", "--zoom=2", "--output=theirs.png", file);
        using var theirs = SKBitmap.Decode(Path.Combine(folder.Path, "theirs.png"));
        using var ours = SKBitmap.Decode(PngWriter.Write(Weave, palette));
        var (mean, far) = Distance(ours, theirs);
        Assert.True(mean < 0.6 && far < 0.0003, $"mean {mean:0.000}, far {far:0.00000}");
        // The same measure tells a figure with one bit changed.
        using var other = SKBitmap.Decode(PngWriter.Write(Figures.Weave("divide-shared-register", 4, 12, 3), palette));
        Assert.True(Distance(other, theirs) is var d && (d.Mean >= 0.6 || d.Far >= 0.0003), $"{d}");
    }

    /// <summary>Poppler over Cairo (Debian's poppler-utils) paints the PDF as we paint the PNG: 192 pixels to the inch are two to the unit.</summary>
    [Theory]
    [InlineData("light")]
    [InlineData("dark")]
    [InlineData("grey")]
    public void The_PDF_shows_the_same(string name)
    {
        var palette = Palette.All.Single(p => p.Name == name);
        using var folder = new Folder();
        var file = folder.Write("it.pdf", PdfWriter.Write([Weave], palette, TextForm.Outlines));
        Program.Run(folder.Path, "pdftocairo", "-r", "192", "-png", "-singlefile", file, "theirs");
        using var theirs = SKBitmap.Decode(Path.Combine(folder.Path, "theirs.png"));
        using var ours = SKBitmap.Decode(PngWriter.Write(Weave, palette));
        var (mean, far) = Distance(ours, theirs);
        Assert.True(mean < 1 && far < 0.0012, $"mean {mean:0.000}, far {far:0.00000}");
        using var other = SKBitmap.Decode(PngWriter.Write(Figures.Weave("divide-shared-register", 4, 12, 3), palette));
        Assert.True(Distance(other, theirs) is var d && (d.Mean >= 1 || d.Far >= 0.0012), $"{d}");
    }

    /// <summary>The mean difference of channels, and the share of pixels with a channel a quarter of the scale away.</summary>
    private static (double Mean, double Far) Distance(SKBitmap a, SKBitmap b)
    {
        var (width, height) = (Math.Min(a.Width, b.Width), Math.Min(a.Height, b.Height));
        Assert.InRange(Math.Abs(a.Width - b.Width) + Math.Abs(a.Height - b.Height), 0, 2);
        var (sum, far) = (0L, 0L);
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                var (p, q) = (a.GetPixel(x, y), b.GetPixel(x, y));
                int[] by = [Math.Abs(p.Red - q.Red), Math.Abs(p.Green - q.Green), Math.Abs(p.Blue - q.Blue)];
                sum += by.Sum();
                far += by.Max() > 64 ? 1 : 0;
            }
        }
        var pixels = (double)width * height;
        return (sum / pixels / 3, far / pixels);
    }
}
