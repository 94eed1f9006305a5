namespace Reckoner.Drawing;

/// <summary>The faces that figures are set in.</summary>
public enum Face
{
    Plain,
    Bold,

    /// <summary>All characters of one width: digits that stand in columns.</summary>
    Mono,
}

/// <summary>
/// A bundled font and its measures, in shares of the text's size. Text is set by advances alone, without kerning, so that every
/// program places it alike.
/// </summary>
internal sealed class Typeface
{
    private static readonly Lazy<Typeface>[] Bundled =
    [
        new(() => new("B612", 400, "B612-Regular.ttf")),
        new(() => new("B612", 700, "B612-Bold.ttf")),
        new(() => new("B612 Mono", 400, "B612Mono-Regular.ttf")),
    ];

    /// <summary>How many times as wide as our bold letters those may be that stand in their place where the font is missing.</summary>
    public const double WidestInstead = 1.18;

    private readonly Dictionary<char, double> advances = [];

    private Typeface(string family, int weight, string file)
    {
        Family = family;
        Weight = weight;
        using var stream = typeof(Typeface).Assembly.GetManifestResourceStream($"fonts/{file}")!;
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        Bytes = bytes;
        Font = new FontFile(bytes);
    }

    public static Typeface Of(Face face) => Bundled[(int)face].Value;

    public string Family { get; }

    /// <summary>400 is regular, 700 bold.</summary>
    public int Weight { get; }

    /// <summary>The whole file.</summary>
    public ReadOnlyMemory<byte> Bytes { get; }

    public FontFile Font { get; }

    public double CapitalHeight => Font.CapitalHeight;

    public double Width(string text, double size) => text.Sum(Advance) * size;

    /// <summary>How far a text reaches above its line, a capital's height at least, and below it.</summary>
    public (double Up, double Down) Reach(string text, double size)
    {
        var bounds = text.Select(c => Font.Bounds(Font.Glyph(c))).ToList();
        return (
            bounds.Select(b => b.Top).Append(CapitalHeight).Max() * size,
            -bounds.Select(b => b.Bottom).Append(0).Min() * size
        );
    }

    /// <summary>Whether the font has every character of a text.</summary>
    public bool Knows(string text) => text.All(c => Font.Glyph(c) != 0);

    private double Advance(char c)
    {
        lock (advances)
        {
            if (!advances.TryGetValue(c, out var advance))
            {
                advance = Font.Advance(Font.Glyph(c));
                advances.Add(c, advance);
            }
            return advance;
        }
    }
}
