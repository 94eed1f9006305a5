using PdfSharp.UniversalAccessibility;
using Reckoner.Documents.Lessons.Formulas;
using Reckoner.Drawing;

namespace Reckoner.Documents;

internal sealed partial class HandoutWriter
{
    /// <summary>No figure is made smaller than this for the sake of its page, however large its letters are.</summary>
    private const double Squeeze = 0.66;

    private List<Strip> Strips(Picture picture)
    {
        Scene[] scenes = picture.Twin is { } twin ? [picture.Scene, twin] : [picture.Scene];
        var (width, height) = (scenes.Max(s => s.Width), scenes.Max(s => s.Height));
        var letters = picture.IsForPage ? Size : PaperFigures.Letters(scenes);
        var asItIs = PaperFigures.Scale(width, height, Size / letters, upright);
        var across = PaperFigures.Scale(width, height, Size / letters, upright.Turned);
        // Where its letters would come out smaller than anybody reads, the page is turned.
        var isAcross = asItIs * letters < GridColumns.SmallestSize && asItIs < across;
        var scale = isAcross ? across : asItIs;
        var least = picture.IsForPage ? 1 : Math.Clamp(GridColumns.SmallestSize / (letters * scale), Squeeze, 1);
        var scene = picture.Scene;
        return
        [
            new Strip(
                height * scale,
                (y, given) =>
                {
                    var by = given / height;
                    pages.Figure(scene, new Box(Left, y, scene.Width * by, scene.Height * by), palette, textForm);
                }
            )
            {
                Least = height * scale * least,
                IsAcross = isAcross,
            },
        ];
    }

    private List<Strip> Strips(Photograph photograph)
    {
        var (width, height) = (photograph.Width, photograph.Height);
        var scale = PaperFigures.Scale(width, height, 1, upright);
        return
        [
            new Strip(
                height * scale,
                (y, given) =>
                    pages.Image(
                        photograph.Bytes,
                        photograph.Alternative,
                        new Box(Left, y, width * given / height, given)
                    )
            )
            {
                Least = height * scale * Squeeze,
            },
        ];
    }

    /// <summary>In the middle of the line, smaller where it is longer than that.</summary>
    private List<Strip> Strips(Display display)
    {
        var size = Size * 1.1;
        var drawing = FormulaSetting.Of(display.Formula, size, isDisplay: true);
        if (drawing.Width > TextWidth)
        {
            drawing = FormulaSetting.Of(display.Formula, size * TextWidth / drawing.Width, isDisplay: true);
        }
        var up = Math.Max(drawing.Up, Size);
        var piece = new Piece(FormulaText.Plain(display.Formula), Face.Plain, 0) { Drawing = drawing };
        return Tagged(
            [
                new Strip(
                    up + Math.Max(drawing.Down, LineHeight - Size),
                    (y, _) => Draw(piece, Left + (TextWidth - drawing.Width) / 2, y + up, Role.Ink)
                ),
            ],
            () => Structure.BeginElement(PdfBlockLevelElementTag.Paragraph)
        );
    }

    /// <summary>A formula at its place in a line. Those who cannot see it hear it as a line of plain signs.</summary>
    private void Draw(Piece piece, double left, double line, Role ink)
    {
        var drawing = piece.Drawing!;
        pages.BeginFormula(piece.Words, new Box(left, line - drawing.Up, drawing.Width, drawing.Up + drawing.Down));
        foreach (var letters in drawing.Letters)
        {
            Draw(letters.Words, Face.Plain, letters.Size, left + letters.Left, line + letters.Line, ink);
        }
        foreach (var stroke in drawing.Strokes)
        {
            for (var i = 1; i < stroke.Points.Count; i++)
            {
                var (from, to) = (stroke.Points[i - 1], stroke.Points[i]);
                pages.Page.DrawLine(Pen(ink, stroke.Width), left + from.X, line + from.Y, left + to.X, line + to.Y);
            }
        }
        Structure.End();
    }
}
