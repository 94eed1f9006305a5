using System.Text;

namespace Reckoner.Drawing;

/// <summary>How text stands in a file.</summary>
internal enum TextForm
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
internal sealed class SvgWriter
{
    private readonly StringBuilder svg = new();

    /// <summary>Neighbours that look alike share one group that says how they look.</summary>
    private readonly List<(Paint Paint, Link? Link)> alike = [];
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
        var width = Room(scene);
        svg.Append("<svg xmlns=\"http://www.w3.org/2000/svg\"");
        Numbered("width", width);
        Numbered("height", scene.Height);
        SvgTrace.Append(svg.Append(" viewBox=\"0 0 "), width).Append(' ');
        SvgTrace.Append(svg, scene.Height).Append('"');
        svg.Append(" role=\"img\" xml:lang=\"").Append(scene.Language).Append("\">\n");
        Element("title", scene.Title);
        Element("desc", scene.Description);
        svg.Append("<rect");
        Numbered("width", width);
        Numbered("height", scene.Height);
        svg.Append(" fill=\"").Append(palette.Of(Role.Ground).Hex).Append("\"/>\n");
        Shapes(scene.Shapes);
        svg.Append("</svg>\n");
    }

    /// <summary>Where letters are written as text, others may stand in their place.</summary>
    private double Room(Scene scene) => textForm == TextForm.Outlines ? scene.Width : scene.SafeWidth;

    private void Element(string name, string text)
    {
        svg.Append('<').Append(name).Append('>');
        Escaped(text);
        svg.Append("</").Append(name).Append(">\n");
    }

    private void Numbered(string name, double number) =>
        SvgTrace.Append(svg.Append(' ').Append(name).Append("=\""), number).Append('"');

    // ---- shapes

    private void Shapes(IReadOnlyList<Shape> shapes)
    {
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
                if (alike.Count > 0 && !LooksLike(paint, alike[0].Paint))
                {
                    Flush();
                }
                alike.Add((paint, shape.Link));
            }
        }
        Flush();
    }

    private void Flush()
    {
        if (alike is [var (only, of)])
        {
            Form(only, of, looks: true);
        }
        else if (alike.Count > 1)
        {
            svg.Append("<g");
            Look(alike[0].Paint);
            svg.Append(">\n");
            foreach (var (paint, link) in alike)
            {
                Form(paint, link, looks: false);
            }
            svg.Append("</g>\n");
        }
        alike.Clear();
    }

    private void Open(Group group)
    {
        svg.Append("<g");
        Data(group.Link);
        svg.Append(">\n");
        if (group.Said is not null)
        {
            Element("title", group.Said);
        }
        Shapes(group.Shapes);
        svg.Append("</g>\n");
    }

    /// <summary>Whether two paints differ in their places alone.</summary>
    private bool LooksLike(Paint one, Paint other) =>
        (one, other) switch
        {
            (FormPaint a, FormPaint b) => a.Fill == b.Fill
                && a.Line == b.Line
                && (a.Line is null || a.Width == b.Width)
                && a.Dash.SequenceEqual(b.Dash),
            (TextPaint a, TextPaint b) => a.Ink == b.Ink
                && (
                    textForm == TextForm.Outlines
                    || (a.Text.Face, a.Text.Size, a.Text.Anchor) == (b.Text.Face, b.Text.Size, b.Text.Anchor)
                ),
            _ => false,
        };

    private void Look(Paint paint) => paint.Switch(Look, Look);

    private void Coloured(string name, Colour? colour) =>
        svg.Append(' ').Append(name).Append("=\"").Append(colour?.Hex ?? "none").Append('"');

    private void Look(FormPaint paint)
    {
        Coloured("fill", paint.Fill);
        if (paint.Line is { } line)
        {
            Coloured("stroke", line);
            Numbered("stroke-width", paint.Width);
        }
        if (paint.Dash.Count > 0)
        {
            svg.Append(" stroke-dasharray=\"");
            svg.AppendJoin(' ', paint.Dash.Select(SvgTrace.Number)).Append('"');
        }
    }

    private void Look(TextPaint paint)
    {
        if (textForm == TextForm.Outlines)
        {
            Coloured("fill", paint.Ink);
            return;
        }
        var typeface = Typeface.Of(paint.Text.Face);
        // B612 is wide: what stands in its place where it is missing fits too.
        var others = paint.Text.Face == Face.Mono ? "DejaVu Sans Mono, monospace" : "Verdana, DejaVu Sans, sans-serif";
        svg.Append(" font-family=\"").Append(typeface.Family).Append(", ").Append(others).Append('"');
        Numbered("font-size", paint.Text.Size);
        Coloured("fill", paint.Ink);
        if (typeface.Weight != 400)
        {
            Numbered("font-weight", typeface.Weight);
        }
        svg.Append(
            paint.Text.Anchor switch
            {
                Anchor.Start => "",
                Anchor.Middle => " text-anchor=\"middle\"",
                Anchor.End => " text-anchor=\"end\"",
            }
        );
    }

    private void Form(Text text)
    {
        if (textForm == TextForm.Outlines)
        {
            SvgTrace.Append(svg.Append("<path d=\""), [.. Lettering.Of(text)]).Append('"');
            return;
        }
        svg.Append("<text");
        Numbered("x", text.At.X);
        Numbered("y", text.At.Y);
    }

    private void Form(Paint paint, Link? link, bool looks)
    {
        paint.Switch(form: p => Form(p.Outline), text: p => Form(p.Text));
        if (looks)
        {
            Look(paint);
        }
        Data(link);
        if (paint is TextPaint { Text.Words: var words } && textForm == TextForm.Letters)
        {
            svg.Append('>');
            Escaped(words);
            svg.Append("</text>\n");
        }
        else
        {
            svg.Append("/>\n");
        }
    }

    private StringBuilder Form(Outline outline) =>
        outline.Match(
            rectangle: Form,
            disc: Form,
            trace: trace => SvgTrace.Append(svg.Append("<path d=\""), trace.Steps).Append('"')
        );

    private StringBuilder Form(Rectangle rectangle)
    {
        var box = rectangle.Box;
        svg.Append("<rect");
        Numbered("x", box.Left);
        Numbered("y", box.Top);
        Numbered("width", box.Width);
        Numbered("height", box.Height);
        if (rectangle.Radius > 0)
        {
            Numbered("rx", rectangle.Radius);
        }
        return svg;
    }

    private StringBuilder Form(Disc disc)
    {
        svg.Append("<circle");
        Numbered("cx", disc.Centre.X);
        Numbered("cy", disc.Centre.Y);
        Numbered("r", disc.Radius);
        return svg;
    }

    private void Data(Link? link)
    {
        if (link is null)
        {
            return;
        }
        Numbered("cycle", link.Cycle);
        if (link.Register is { } register)
        {
            svg.Append(" data-register=\"").Append(register.Name).Append('"');
        }
        Numbered("bit", link.Bit);
        Numbered("line", link.Line);

        void Numbered(string name, int? number)
        {
            if (number is { } n)
            {
                svg.Append(" data-").Append(name).Append("=\"").Append(n).Append('"');
            }
        }
    }

    private void Escaped(string text)
    {
        foreach (var c in text)
        {
            _ = c switch
            {
                '&' => svg.Append("&amp;"),
                '<' => svg.Append("&lt;"),
                '>' => svg.Append("&gt;"),
                _ => svg.Append(c),
            };
        }
    }
}
