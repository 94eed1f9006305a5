namespace Reckoner.Drawing;

/// <summary>What a surface, line or text is for. A palette turns it into a colour.</summary>
public enum Purpose
{
    /// <summary>The page.</summary>
    Ground,

    /// <summary>A surface that came from nowhere in particular: a constant's cell, a box of the legend.</summary>
    Plain,

    /// <summary>Text that is to be read first, and lines as dark as that.</summary>
    Ink,

    /// <summary>Text that is to be read second.</summary>
    Quiet,

    /// <summary>Lines that order the page and say nothing.</summary>
    Rule,

    /// <summary>Lines across what carries nothing.</summary>
    Hatch,

    /// <summary>A cell's surface in a pale form of a hue.</summary>
    Tint,

    /// <summary>A hue at full strength: threads, bars, dots.</summary>
    Full,

    /// <summary>The dark edge of a hue.</summary>
    Edge,
}

/// <param name="Hue">
/// For tint, full and edge: which of the <see cref="Palette.Hues"/>, or <see cref="Neutral"/>. Hues say where bits came from, never
/// what they are.
/// </param>
public readonly record struct Role(Purpose Purpose, int Hue = Role.Neutral)
{
    /// <summary>The hue of what has no origin among operands, units and decisions.</summary>
    public const int Neutral = -1;

    public static readonly Role Ground = new(Purpose.Ground);
    public static readonly Role Plain = new(Purpose.Plain);
    public static readonly Role Ink = new(Purpose.Ink);
    public static readonly Role Quiet = new(Purpose.Quiet);
    public static readonly Role Rule = new(Purpose.Rule);
    public static readonly Role Hatch = new(Purpose.Hatch);

    public static Role Tint(int hue) => new(Purpose.Tint, hue);

    public static Role Full(int hue) => new(Purpose.Full, hue);

    public static Role Edge(int hue) => new(Purpose.Edge, hue);
}
