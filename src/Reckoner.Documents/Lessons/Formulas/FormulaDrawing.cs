using Reckoner.Drawing;

namespace Reckoner.Documents.Lessons.Formulas;

/// <summary>Letters of a formula; their line is at 0 where they belong to none of its scripts, y down.</summary>
internal sealed record FormulaLetters(string Words, double Size, double Left, double Line);

/// <summary>A bar of a fraction or the sign of a root.</summary>
internal sealed record FormulaStroke(IReadOnlyList<Point> Points, double Width);

/// <summary>A formula laid out: how wide it is, how far it reaches above its line and below it, and what is drawn.</summary>
internal sealed record FormulaDrawing(
    double Width,
    double Up,
    double Down,
    IReadOnlyList<FormulaLetters> Letters,
    IReadOnlyList<FormulaStroke> Strokes
)
{
    public static readonly FormulaDrawing Empty = new(0, 0, 0, [], []);

    /// <summary>Moved to the right and down.</summary>
    public FormulaDrawing Moved(double right, double down) =>
        new(
            Width,
            Up - down,
            Down + down,
            [.. Letters.Select(l => l with { Left = l.Left + right, Line = l.Line + down })],
            [.. Strokes.Select(s => s with { Points = [.. s.Points.Select(p => new Point(p.X + right, p.Y + down))] })]
        );

    /// <summary>All of them as they stand, in a width.</summary>
    public static FormulaDrawing Together(double width, params IReadOnlyList<FormulaDrawing> parts) =>
        new(
            width,
            parts.Select(p => p.Up).DefaultIfEmpty(0).Max(),
            parts.Select(p => p.Down).DefaultIfEmpty(0).Max(),
            [.. parts.SelectMany(p => p.Letters)],
            [.. parts.SelectMany(p => p.Strokes)]
        );
}
