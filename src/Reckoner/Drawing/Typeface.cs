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

    private static readonly Lazy<Typeface> OfSigns = new(() => new("Reckoner Signs", 400, "Signs-Regular.ttf"));

    public static Typeface Of(Face face) => Bundled[(int)face].Value;

    /// <summary>Letters and signs that the faces lack: those of formulas, Greek ones, Latin ones of all of Europe.</summary>
    public static Typeface Signs => OfSigns.Value;

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
        var bounds = text.Select(c => For(c).Font.Bounds(For(c).Font.Glyph(c))).ToList();
        return (
            bounds.Select(b => b.Top).Append(CapitalHeight).Max() * size,
            -bounds.Select(b => b.Bottom).Append(0).Min() * size
        );
    }

    /// <summary>Whether every character of a text can be written.</summary>
    public bool Knows(string text) => text.All(c => For(c).Font.Glyph(c) != 0);

    /// <summary>What writes a character: this, or the signs where they alone have it.</summary>
    public Typeface For(char c) => Font.Glyph(c) == 0 && Signs.Font.Glyph(c) != 0 ? Signs : this;

    /// <summary>A text in stretches, each in the typeface that writes it.</summary>
    public IEnumerable<(Typeface Typeface, string Words)> Stretches(string text)
    {
        var start = 0;
        for (var i = 1; i <= text.Length; i++)
        {
            if (i == text.Length || For(text[i]) != For(text[start]))
            {
                yield return (For(text[start]), text[start..i]);
                start = i;
            }
        }
    }

    private double Advance(char c)
    {
        lock (advances)
        {
            if (!advances.TryGetValue(c, out var advance))
            {
                var font = For(c).Font;
                advance = font.Advance(font.Glyph(c));
                advances.Add(c, advance);
            }
            return advance;
        }
    }
}
