namespace Reckoner.Drawing;

/// <summary>
/// Colours for roles. The hues are those of Okabe and Ito ("Color Universal Design", 2008), which people with every kind of
/// colour vision tell apart; without colours, hatching and dashes do their work.
/// </summary>
public sealed class Palette
{
    /// <summary>Blue, orange, purple, green, sky blue, vermilion, yellow.</summary>
    private static readonly Colour[] OkabeIto =
    [
        Colour.Of(0x0072B2),
        Colour.Of(0xE69F00),
        Colour.Of(0xCC79A7),
        Colour.Of(0x009E73),
        Colour.Of(0x56B4E9),
        Colour.Of(0xD55E00),
        Colour.Of(0xF0E442),
    ];

    /// <summary>How many hues there are; of more origins some share one.</summary>
    public static int Hues => OkabeIto.Length;

    private const double EdgeContrast = 4.5;

    private readonly Colour ground;
    private readonly Colour plain;
    private readonly Colour ink;
    private readonly Colour quiet;
    private readonly Colour rule;
    private readonly Colour hatch;
    private readonly (Colour Tint, Colour Full, Colour Edge)[] hues;

    private Palette(string name, int ground, int plain, int ink, int quiet, int rule, int hatch, bool hasColours)
    {
        Name = name;
        HasColours = hasColours;
        this.ground = Colour.Of(ground);
        this.plain = Colour.Of(plain);
        this.ink = Colour.Of(ink);
        this.quiet = Colour.Of(quiet);
        this.rule = Colour.Of(rule);
        this.hatch = Colour.Of(hatch);
        hues = [.. OkabeIto.Select(Hue)];
    }

    public static readonly Palette Light = new(
        "light",
        0xFFFDF8,
        0xF4F0E6,
        0x211D17,
        0x5C564B,
        0xD8D1C2,
        0xA89F8E,
        hasColours: true
    );

    public static readonly Palette Dark = new(
        "dark",
        0x15181D,
        0x23272E,
        0xF3F0EA,
        0xCBC6BC,
        0x3C424C,
        0x5C636E,
        hasColours: true
    );

    public static readonly Palette Grey = new(
        "grey",
        0xFFFFFF,
        0xF6F6F6,
        0x000000,
        0x4A4A4A,
        0xC8C8C8,
        0x9A9A9A,
        hasColours: false
    );

    public static IReadOnlyList<Palette> All { get; } = [Light, Dark, Grey];

    public string Name { get; }

    /// <summary>Whether hues differ by colour; else by hatching and dashes.</summary>
    public bool HasColours { get; }

    public Colour Of(Role role)
    {
        return role.Purpose switch
        {
            Purpose.Ground => ground,
            Purpose.Plain => plain,
            Purpose.Ink => ink,
            Purpose.Quiet => quiet,
            Purpose.Rule => rule,
            Purpose.Hatch => hatch,
            Purpose.Tint => role.Hue == Role.Neutral ? plain : hues[role.Hue].Tint,
            Purpose.Full => role.Hue == Role.Neutral ? hatch : hues[role.Hue].Full,
            Purpose.Edge => role.Hue == Role.Neutral ? quiet : hues[role.Hue].Edge,
        };
    }

    private (Colour, Colour, Colour) Hue(Colour hue, int index)
    {
        if (!HasColours)
        {
            // Every second one darker, so that neighbours differ even where a hatching is too fine to see.
            var level = (byte)(index % 2 == 0 ? 0x6E : 0xB4);
            var full = new Colour(level, level, level);
            return (ground.Mixed(full, 0.16), full, ink.Mixed(ground, 0.15));
        }
        return (ground.Mixed(hue, 0.26), hue, hue.Until(EdgeContrast, ground, ink));
    }
}
