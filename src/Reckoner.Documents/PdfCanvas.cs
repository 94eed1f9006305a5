using PdfSharp.Drawing;
using Reckoner.Drawing;

namespace Reckoner.Documents;

/// <summary>Paints scenes onto a PDF page, in the units of the scene.</summary>
internal static class PdfCanvas
{
    /// <summary>Scenes count 96 to the inch, PDF 72.</summary>
    public const double PointsPerUnit = 0.75;

    public static void Draw(XGraphics page, Scene scene, Palette palette, TextForm textForm)
    {
        foreach (var shape in scene.Leaves)
        {
            foreach (var paint in Painting.Of(shape, palette))
            {
                Draw(page, paint, textForm);
            }
        }
    }

    public static XColor Of(Colour colour) => XColor.FromArgb(colour.Red, colour.Green, colour.Blue);

    /// <summary>A stretch of text; what its face lacks is written in the signs.</summary>
    public static void Write(XGraphics page, string words, Face face, double size, Point at, Colour ink)
    {
        var brush = new XSolidBrush(Of(ink));
        var left = at.X;
        foreach (var (typeface, stretch) in Typeface.Of(face).Stretches(words))
        {
            page.DrawString(stretch, Font(typeface, size), brush, new XPoint(left, at.Y));
            left += Typeface.Of(face).Width(stretch, size);
        }
    }

    private static XFont Font(Typeface typeface, double size) =>
        new(
            PdfFonts.Name(typeface),
            size,
            XFontStyleEx.Regular,
            new XPdfFontOptions(PdfSharp.Pdf.PdfFontEncoding.Unicode)
        );

    private static void Draw(XGraphics page, Paint paint, TextForm textForm) =>
        paint.Switch(form: p => Draw(page, p), text: p => Draw(page, p.Text, p.Ink, textForm));

    private static void Draw(XGraphics page, Text text, Colour ink, TextForm textForm)
    {
        if (text.Words.Length == 0)
        {
            return;
        }
        switch (textForm)
        {
            case TextForm.Outlines:
                page.DrawPath(new XSolidBrush(Of(ink)), Path(new Trace([.. Lettering.Of(text)])));
                break;
            case TextForm.Letters:
                Write(page, text.Words, text.Face, text.Size, new Point(text.Box.Left, text.At.Y), ink);
                break;
        }
    }

    private static void Draw(XGraphics page, FormPaint paint)
    {
        if (paint.Fill is { } fill)
        {
            page.DrawPath(new XSolidBrush(Of(fill)), Path(paint.Outline));
        }
        if (paint.Line is { } line)
        {
            var pen = new XPen(Of(line), paint.Width);
            if (paint.Dash.Count > 0)
            {
                // Counted in widths of the line.
                pen.DashPattern = [.. paint.Dash.Select(d => d / paint.Width)];
            }
            foreach (var stretch in Stretches(paint.Outline))
            {
                page.DrawPath(pen, Path(stretch));
            }
        }
    }

    /// <summary>The library joins a stretch that is not closed to the one before it, so each is drawn by itself.</summary>
    private static IEnumerable<Outline> Stretches(Outline outline)
    {
        if (outline is not Trace trace)
        {
            yield return outline;
            yield break;
        }
        var start = 0;
        for (var i = 1; i <= trace.Steps.Count; i++)
        {
            if (i == trace.Steps.Count || trace.Steps[i].Kind == StepKind.Move)
            {
                yield return new Trace([.. trace.Steps.Skip(start).Take(i - start)]);
                start = i;
            }
        }
    }

    private static XGraphicsPath Path(Outline outline)
    {
        // Holes of letters turn the other way round.
        var path = new XGraphicsPath { FillMode = XFillMode.Winding };
        var add = outline.Match<Action>(
            rectangle: f => () => Add(path, f),
            disc: f => () => path.AddEllipse(f.Centre.X - f.Radius, f.Centre.Y - f.Radius, 2 * f.Radius, 2 * f.Radius),
            trace: f => () => Add(path, f.Steps)
        );
        add();
        return path;
    }

    private static void Add(XGraphicsPath path, Rectangle rectangle)
    {
        var (box, round) = (rectangle.Box, 2 * rectangle.Radius);
        if (round > 0)
        {
            path.AddRoundedRectangle(box.Left, box.Top, box.Width, box.Height, round, round);
        }
        else
        {
            path.AddRectangle(box.Left, box.Top, box.Width, box.Height);
        }
    }

    private static void Add(XGraphicsPath path, IReadOnlyList<PathStep> steps)
    {
        var at = default(Point);
        foreach (var step in steps)
        {
            switch (step.Kind)
            {
                case StepKind.Move:
                    path.StartFigure();
                    break;
                case StepKind.Line:
                    path.AddLine(at.X, at.Y, step.To.X, step.To.Y);
                    break;
                case StepKind.Curve:
                    path.AddBezier(
                        at.X,
                        at.Y,
                        step.First.X,
                        step.First.Y,
                        step.Second.X,
                        step.Second.Y,
                        step.To.X,
                        step.To.Y
                    );
                    break;
                case StepKind.Close:
                    path.CloseFigure();
                    continue;
                default:
                    throw new InvalidOperationException(step.Kind.ToString());
            }
            at = step.To;
        }
    }
}
