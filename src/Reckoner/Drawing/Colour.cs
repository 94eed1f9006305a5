namespace Reckoner.Drawing;

/// <summary>A colour of a screen.</summary>
public readonly record struct Colour(byte Red, byte Green, byte Blue)
{
    public static Colour Of(int rgb) => new((byte)(rgb >> 16), (byte)(rgb >> 8), (byte)rgb);

    public string Hex => $"#{Red:x2}{Green:x2}{Blue:x2}";

    /// <summary>Relative luminance, from 0 to 1 (W3C, Web Content Accessibility Guidelines 2.2).</summary>
    public double Luminance => 0.2126 * Linear(Red) + 0.7152 * Linear(Green) + 0.0722 * Linear(Blue);

    /// <summary>The contrast ratio of two colours, from 1 to 21 (the same guidelines).</summary>
    public double Contrast(Colour other)
    {
        var (a, b) = (Luminance, other.Luminance);
        return (Math.Max(a, b) + 0.05) / (Math.Min(a, b) + 0.05);
    }

    /// <summary>This colour with a share of another, from 0 to 1.</summary>
    public Colour Mixed(Colour other, double share)
    {
        byte Mix(byte a, byte b) => (byte)Math.Round(a + (b - a) * share);
        return new Colour(Mix(Red, other.Red), Mix(Green, other.Green), Mix(Blue, other.Blue));
    }

    /// <summary>As little of another colour mixed in as reaches a contrast on a ground.</summary>
    public Colour Until(double contrast, Colour ground, Colour other)
    {
        var colour = this;
        for (var share = 0.0; share < 1 && colour.Contrast(ground) < contrast; share += 0.02)
        {
            colour = Mixed(other, share);
        }
        return colour;
    }

    private static double Linear(byte value)
    {
        var share = value / 255.0;
        return share <= 0.04045 ? share / 12.92 : Math.Pow((share + 0.055) / 1.055, 2.4);
    }
}
