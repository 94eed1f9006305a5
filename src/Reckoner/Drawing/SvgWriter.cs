using System.Globalization;
using System.Text;

namespace Reckoner.Drawing;

/// <summary>How text stands in a file.</summary>
public enum TextForm
{
    /// <summary>As text, which programs can select and search; they need the font for its exact look.</summary>
    Letters,

    /// <summary>As outlines of its letters, which look the same everywhere.</summary>
    Outlines,
}

/// <summary>
/// A scene as SVG 1.1 with presentation attributes only: no style sheets, patterns, masks or scripts, so that drawing and slide
/// programs take it as their own shapes.
/// </summary>
public sealed class SvgWriter
{
    private readonly StringBuilder svg = new();
    private readonly Palette palette;
    private readonly TextForm textForm;

    private SvgWriter(Palette palette, TextForm textForm)
    {
        this.palette = palette;
        this.textForm = textForm;
    }

    public static string Write(Scene scene, Palette palette, TextForm textForm = TextForm.Letters)
    {
        var writer = new SvgWriter(palette, textForm);
        writer.Document(scene);
        return writer.svg.ToString();
    }

    private void Document(Scene scene)
    {
        var (width, height) = (SvgTrace.Number(Room(scene)), SvgTrace.Number(scene.Height));
        svg.Append("<svg xmlns=\"http://www.w3.org/2000/svg\" ")
            .Append(
                CultureInfo.InvariantCulture,
                $"width=\"{width}\" height=\"{height}\" viewBox=\"0 0 {width} {height}\" "
            )
            .Append(CultureInfo.InvariantCulture, $"role=\"img\" xml:lang=\"{scene.Language}\">\n");
        Element("title", scene.Title);
        Element("desc", scene.Description);
        svg.Append(CultureInfo.InvariantCulture, $"<rect width=\"{width}\" height=\"{height}\" ")
            .Append(CultureInfo.InvariantCulture, $"fill=\"{palette.Of(Role.Ground).Hex}\"/>\n");
        Shapes(scene.Shapes);
        svg.Append("</svg>\n");
    }

    /// <summary>
    /// The width of the page. Bold letters that stand in the place of ours may be wider, so a title that ends near the border has
    /// room to spare where letters are written as text.
    /// </summary>
    private double Room(Scene scene)
    {
        const double Wider = 1.18;
        return textForm == TextForm.Outlines
            ? scene.Width
            : scene
                .Shapes.OfType<Text>()
                .Where(t => t is { Face: Face.Bold, Anchor: Anchor.Start })
                .Select(t => Math.Ceiling(t.At.X + t.Box.Width * Wider))
                .Append(scene.Width)
                .Max();
    }

    private void Element(string name, string text) =>
        svg.Append(CultureInfo.InvariantCulture, $"<{name}>{Escaped(text)}</{name}>\n");

    /// <summary>Neighbours that look alike share one group that says how they look.</summary>
    private void Shapes(IReadOnlyList<Shape> shapes)
    {
        var look = "";
        var alike = new List<string>();
        foreach (var shape in shapes)
        {
            if (shape is Group group)
            {
                Flush();
                Open(group);
                continue;
            }
            foreach (var paint in Painting.Of(shape, palette))
            {
                var its = Look(paint);
                if (its != look)
                {
                    Flush();
                    look = its;
                }
                alike.Add(Form(paint, shape.Link));
            }
        }
        Flush();

        void Flush()
        {
            if (alike.Count == 1)
            {
                svg.Append(alike[0].Replace("~", look, StringComparison.Ordinal)).Append('\n');
            }
            else if (alike.Count > 1)
            {
                svg.Append(CultureInfo.InvariantCulture, $"<g{look}>\n");
                alike.ForEach(a => svg.Append(a.Replace("~", "", StringComparison.Ordinal)).Append('\n'));
                svg.Append("</g>\n");
            }
            alike.Clear();
        }
    }

    private void Open(Group group)
    {
        svg.Append(CultureInfo.InvariantCulture, $"<g{Data(group.Link)}>\n");
        if (group.Said is not null)
        {
            Element("title", group.Said);
        }
        Shapes(group.Shapes);
        svg.Append("</g>\n");
    }

    private string Look(Paint paint) =>
        paint switch
        {
            FormPaint p => Look(p),
            TextPaint p when textForm == TextForm.Outlines => $" fill=\"{p.Ink.Hex}\"",
            TextPaint p => Look(p),
            _ => throw new InvalidOperationException(paint.GetType().Name),
        };

    private static string Look(FormPaint paint)
    {
        var look = $" fill=\"{paint.Fill?.Hex ?? "none"}\"";
        if (paint.Line is { } line)
        {
            look += $" stroke=\"{line.Hex}\" stroke-width=\"{SvgTrace.Number(paint.Width)}\"";
        }
        return paint.Dash.Count == 0
            ? look
            : $"{look} stroke-dasharray=\"{string.Join(' ', paint.Dash.Select(SvgTrace.Number))}\"";
    }

    private static string Look(TextPaint paint)
    {
        var typeface = Typeface.Of(paint.Text.Face);
        // B612 is wide: what stands in its place where it is missing fits too.
        var others = paint.Text.Face == Face.Mono ? "DejaVu Sans Mono, monospace" : "Verdana, DejaVu Sans, sans-serif";
        var look =
            $" font-family=\"{typeface.Family}, {others}\" font-size=\"{SvgTrace.Number(paint.Text.Size)}\" "
            + $"fill=\"{paint.Ink.Hex}\"";
        look += typeface.Weight == 400 ? "" : $" font-weight=\"{typeface.Weight}\"";
        return paint.Text.Anchor switch
        {
            Anchor.Start => look,
            Anchor.Middle => look + " text-anchor=\"middle\"",
            Anchor.End => look + " text-anchor=\"end\"",
        };
    }

    /// <summary>The element with a tilde where its look may stand.</summary>
    private string Form(Paint paint, Link? link) =>
        paint switch
        {
            FormPaint p => $"<{Form(p.Outline)}~{Data(link)}/>",
            TextPaint p when textForm == TextForm.Outlines => $"<path d=\"{Letters(p.Text)}\"~{Data(link)}/>",
            TextPaint p =>
                $"<text x=\"{SvgTrace.Number(p.Text.At.X)}\" y=\"{SvgTrace.Number(p.Text.At.Y)}\"~{Data(link)}>"
                    + $"{Escaped(p.Text.Words)}</text>",
            _ => throw new InvalidOperationException(paint.GetType().Name),
        };

    private static string Form(Outline outline) =>
        outline switch
        {
            Rectangle { Box: var b, Radius: var r } =>
                $"rect x=\"{SvgTrace.Number(b.Left)}\" y=\"{SvgTrace.Number(b.Top)}\" width=\"{SvgTrace.Number(b.Width)}\" "
                    + $"height=\"{SvgTrace.Number(b.Height)}\"{(r > 0 ? $" rx=\"{SvgTrace.Number(r)}\"" : "")}",
            Disc { Centre: var c, Radius: var r } =>
                $"circle cx=\"{SvgTrace.Number(c.X)}\" cy=\"{SvgTrace.Number(c.Y)}\" r=\"{SvgTrace.Number(r)}\"",
            Trace p => $"path d=\"{SvgTrace.Of(p.Steps)}\"",
            _ => throw new InvalidOperationException(outline.GetType().Name),
        };

    private static string Letters(Text text) => SvgTrace.Of([.. Lettering.Of(text)]);

    private static string Data(Link? link)
    {
        if (link is null)
        {
            return "";
        }
        var data = "";
        data += link.Cycle is { } cycle ? $" data-cycle=\"{cycle}\"" : "";
        data += link.Register is { } register ? $" data-register=\"{register.Name}\"" : "";
        data += link.Bit is { } bit ? $" data-bit=\"{bit}\"" : "";
        data += link.Line is { } line ? $" data-line=\"{line}\"" : "";
        return data;
    }

    private static string Escaped(string text) =>
        text.Replace("&", "&amp;", StringComparison.Ordinal)
            .Replace("<", "&lt;", StringComparison.Ordinal)
            .Replace(">", "&gt;", StringComparison.Ordinal)
            .Replace("~", "&#126;", StringComparison.Ordinal);
}
