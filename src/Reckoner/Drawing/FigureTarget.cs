using System.Globalization;
using Reckoner.Tables;

namespace Reckoner.Drawing;

/// <summary>
/// What a figure is drawn for: a screen, a sheet, a place in a document. A figure is laid out for it, not only made as large as it.
/// </summary>
/// <param name="Width">In units of which a screen shows 96 to the inch.</param>
/// <param name="SmallestText">How large the smallest text must be, in the same units, to be legible there.</param>
public sealed record FigureTarget(double Width, double Height, double SmallestText)
{
    /// <summary>From the back of a room a fortieth of a screen's height can be read.</summary>
    internal const double HeightsOfText = 40;

    /// <summary>Nine points: what one reads in print without taking it nearer.</summary>
    private const double InPrint = 12;

    private const double Least = 240;
    private const double Most = 8000;

    private static readonly (string Name, FigureTarget Target)[] Named =
    [
        ("16:9", Screen(1280, 720)),
        ("4:3", Screen(960, 720)),
        .. PaperSize.Sheets.Select(p => (p.Name, Sheet(p))),
    ];

    /// <summary>What can be read, with an example of a size that has no name.</summary>
    public static IReadOnlyList<string> Known { get; } = [.. Named.Select(n => n.Name), "1600x1000"];

    /// <summary>
    /// A format by its name, or width and height with an x between them, each from 240 to 8000; null where it is neither.
    /// </summary>
    public static FigureTarget? Read(string text)
    {
        if (Array.Find(Named, n => n.Name == text).Target is { } named)
        {
            return named;
        }
        return text.Split('x') is [var w, var h] && Length(w) is { } width && Length(h) is { } height
            ? Screen(width, height)
            : null;
    }

    private static int? Length(string text) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var length)
        && length is >= (int)Least and <= (int)Most
            ? length
            : null;

    private static FigureTarget Sheet(PaperSize paper) =>
        new(
            Math.Round(PaperSize.Units(paper.Width)),
            Math.Round(PaperSize.Units(paper.Height), MidpointRounding.AwayFromZero),
            InPrint
        );

    private static FigureTarget Screen(double width, double height) =>
        new(width, height, Math.Max(InPrint, Math.Min(width, height) / HeightsOfText));

    /// <summary>The room that there is for a figure whose smallest text has that size.</summary>
    internal FigureRoom Room(double smallest) => new(Width * smallest / SmallestText, Height * smallest / SmallestText);
}

/// <summary>The room that a figure is laid out for, in the units in which it is laid out.</summary>
internal sealed record FigureRoom(double Width, double Height)
{
    public double Ratio => Width / Height;

    /// <summary>How wide a page is for its height where its rows may be moved apart.</summary>
    public double Wanted => Math.Min(Ratio, Widest);

    /// <summary>How wide a page may be for its height where it can be made higher instead.</summary>
    public double Widest { get; init; } = double.PositiveInfinity;

    /// <summary>How much larger a page may be made to fill it.</summary>
    public double Scale(Scene page) => Math.Min(Width / page.SafeWidth, Height / page.Height);
}
