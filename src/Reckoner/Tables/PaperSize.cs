namespace Reckoner.Tables;

/// <summary>What is printed on, upright, in millimetres; the one table of sizes that have a name.</summary>
/// <param name="Margin">What is left free on each side.</param>
internal sealed record PaperSize(string Name, double Width, double Height, double Margin)
{
    private const double UnitsToMillimetre = 96 / 25.4;

    /// <summary>A slide as wide to its height as 16 to 9: a page of a document, no sheet that handouts are printed on.</summary>
    public const string Slide = "slide";

    /// <summary>ISO 216; ANSI letter, 8.5 by 11 inches.</summary>
    public static IReadOnlyList<PaperSize> All { get; } =
    [new("a4", 210, 297, 20), new("a5", 148, 210, 15), new("letter", 215.9, 279.4, 20), new(Slide, 254, 142.9, 10)];

    public static IEnumerable<PaperSize> Sheets => All.Where(p => p.Name != Slide);

    /// <summary>In units of which a screen shows 96 to the inch.</summary>
    public static double Units(double millimetres) => Math.Round(millimetres * UnitsToMillimetre, 1);
}
