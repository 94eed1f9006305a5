using Reckoner.Drawing;
using SkiaSharp;

namespace Reckoner.Documents;

/// <summary>A scene as a PNG. Letters are painted from their outlines, so no font of the system has a say.</summary>
internal static class PngWriter
{
    /// <summary>Pixels to a unit of the scene: sharp on a projector when the figure fills the slide.</summary>
    public const double Fine = 2;

    /// <summary>Beyond that programs refuse to open it, so very long figures come out coarser.</summary>
    private const double MostPixels = 16_000;

    /// <summary>
    /// Figures are even areas and repeated letters: unfiltered rows come out a sixth smaller, in half the time, than with the filters
    /// that photographs need.
    /// </summary>
    private static readonly SKPngEncoderOptions AsTheyAre = new(SKPngEncoderFilterFlags.None, 6);

    public static byte[] Write(Scene scene, Palette palette, double pixelsPerUnit = Fine)
    {
        var scale = Math.Min(pixelsPerUnit, MostPixels / Math.Max(scene.Width, scene.Height));
        var (width, height) = ((int)Math.Ceiling(scene.Width * scale), (int)Math.Ceiling(scene.Height * scale));
        var pixels = new SKImageInfo(width, height, SKImageInfo.PlatformColorType, SKAlphaType.Opaque);
        using var surface = SKSurface.Create(pixels);
        var canvas = surface.Canvas;
        canvas.Clear(Of(palette.Of(Role.Ground)));
        canvas.Scale((float)scale);
        foreach (var shape in scene.Leaves)
        {
            foreach (var paint in Painting.Of(shape, palette))
            {
                Draw(canvas, paint);
            }
        }
        using var painted = surface.PeekPixels();
        using var data =
            painted.Encode(AsTheyAre)
            ?? throw new InvalidOperationException($"{width} x {height} pixels were not encoded");
        return data.ToArray();
    }

    private static SKColor Of(Colour colour) => new(colour.Red, colour.Green, colour.Blue);

    private static void Draw(SKCanvas canvas, Paint paint) =>
        paint.Switch(form: p => Draw(canvas, p), text: p => Draw(canvas, p));

    private static void Draw(SKCanvas canvas, TextPaint paint)
    {
        using var letters = Path(new Trace([.. Lettering.Of(paint.Text)]));
        Fill(canvas, letters, paint.Ink);
    }

    private static void Draw(SKCanvas canvas, FormPaint paint)
    {
        using var path = Path(paint.Outline);
        if (paint.Fill is { } fill)
        {
            Fill(canvas, path, fill);
        }
        if (paint.Line is { } line)
        {
            using var dashes =
                paint.Dash.Count == 0 ? null : SKPathEffect.CreateDash([.. paint.Dash.Select(d => (float)d)], 0);
            using var pen = new SKPaint
            {
                IsAntialias = true,
                Style = SKPaintStyle.Stroke,
                Color = Of(line),
                StrokeWidth = (float)paint.Width,
                PathEffect = dashes,
            };
            canvas.DrawPath(path, pen);
        }
    }

    private static void Fill(SKCanvas canvas, SKPath path, Colour colour)
    {
        using var brush = new SKPaint { IsAntialias = true, Color = Of(colour) };
        canvas.DrawPath(path, brush);
    }

    private static SKPath Path(Outline outline)
    {
        using var path = new SKPathBuilder();
        var add = outline.Match<Action>(
            rectangle: f => () => Add(path, f),
            disc: f => () => path.AddCircle((float)f.Centre.X, (float)f.Centre.Y, (float)f.Radius),
            trace: f => () => Add(path, f.Steps)
        );
        add();
        return path.Detach();
    }

    private static void Add(SKPathBuilder path, Rectangle rectangle)
    {
        var (box, radius) = (rectangle.Box, (float)rectangle.Radius);
        path.AddRoundRect(
            new SKRect((float)box.Left, (float)box.Top, (float)box.Right, (float)box.Bottom),
            radius,
            radius
        );
    }

    private static void Add(SKPathBuilder path, IReadOnlyList<PathStep> steps)
    {
        foreach (var step in steps)
        {
            switch (step.Kind)
            {
                case StepKind.Move:
                    path.MoveTo(Of(step.To));
                    break;
                case StepKind.Line:
                    path.LineTo(Of(step.To));
                    break;
                case StepKind.Curve:
                    path.CubicTo(Of(step.First), Of(step.Second), Of(step.To));
                    break;
                case StepKind.Close:
                    path.Close();
                    break;
                default:
                    throw new InvalidOperationException(step.Kind.ToString());
            }
        }
    }

    private static SKPoint Of(Point point) => new((float)point.X, (float)point.Y);
}
