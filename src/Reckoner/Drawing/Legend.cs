using Reckoner.Checking;
using Reckoner.Words;

namespace Reckoner.Drawing;

/// <summary>What a colour stands for, or hatching.</summary>
internal sealed record LegendEntry(string Words, int Hue, bool IsIdle = false)
{
    public static LegendEntry Of(IdleStudy study, Vocabulary words) =>
        new(words.Say(study.IsExhaustive ? "figure.idle" : "figure.idle-structure"), Role.Neutral, IsIdle: true);
}

/// <summary>What the colours of a figure stand for, line by line.</summary>
internal static class Legend
{
    private const double LineHeight = 30;
    private const double Key = 22;

    /// <param name="y">The line of the first entries.</param>
    /// <param name="wide">Where a line ends.</param>
    /// <returns>The shapes, and where they end.</returns>
    public static (IReadOnlyList<Shape> Shapes, double Bottom) Of(
        IReadOnlyList<LegendEntry> entries,
        double y,
        double wide,
        double size
    )
    {
        var shapes = new List<Shape>();
        var x = WeaveGrid.Margin;
        foreach (var entry in entries)
        {
            var text = new Text(
                entry.Words,
                new Point(x + Key + 8, y),
                Anchor.Start,
                Face.Plain,
                size,
                Role.Ink,
                Role.Ground,
                null
            );
            if (x > WeaveGrid.Margin && text.Box.Right > wide)
            {
                x = WeaveGrid.Margin;
                y += LineHeight;
                text = text with { At = new Point(x + Key + 8, y) };
            }
            var box = new Box(x, y - 16, Key, 20);
            shapes.Add(new Area(new Rectangle(box, 4), Role.Tint(entry.Hue), Role.Edge(entry.Hue), 1.3, entry.IsIdle));
            shapes.Add(text);
            x = text.At.X + text.Width + 26;
        }
        return (shapes, y + 6);
    }
}
