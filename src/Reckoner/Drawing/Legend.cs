using Reckoner.Checking;
using Reckoner.Words;

namespace Reckoner.Drawing;

/// <summary>What a legend shows of a mark beside its words.</summary>
internal enum LegendMark
{
    /// <summary>A cell in a colour: where bits come from.</summary>
    Cell,

    /// <summary>A cell across which lines run: it carries nothing.</summary>
    Hatched,

    /// <summary>A bar in a colour: an output that is kept.</summary>
    Bar,

    /// <summary>A hollow bar: one that was tried and not kept.</summary>
    HollowBar,

    /// <summary>A cell with a dot above it.</summary>
    Dot,

    /// <summary>A thin line that ends in a square: something that decides.</summary>
    Control,

    /// <summary>A line of dashes: what is there and not taken.</summary>
    Dashed,

    /// <summary>A short bar across threads, and a line from it.</summary>
    Tap,

    /// <summary>A number beside a line.</summary>
    Number,

    /// <summary>A box.</summary>
    Box,

    /// <summary>A heavy line into a flag with a number.</summary>
    Late,
}

/// <summary>What a colour or a mark stands for.</summary>
internal sealed record LegendEntry(string Words, int Hue, LegendMark Mark = LegendMark.Cell)
{
    public static LegendEntry Of(IdleStudy study, Vocabulary words) =>
        new(words.Say(study.IsExhaustive ? "figure.idle" : "figure.idle-structure"), Role.Neutral, LegendMark.Hatched);
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
            shapes.AddRange(Drawn(entry, new Box(x, y - 16, Key, 20)));
            shapes.Add(text);
            x = text.At.X + text.Width + 26;
        }
        return (shapes, y + 6);
    }

    private static IEnumerable<Shape> Drawn(LegendEntry entry, Box box)
    {
        var middle = box.Centre;
        var (left, right) = (new Point(box.Left, middle.Y), new Point(box.Right, middle.Y));
        return entry.Mark switch
        {
            LegendMark.Cell => [Cell(IsHatched: false)],
            LegendMark.Hatched => [Cell(IsHatched: true)],
            LegendMark.Dot =>
            [
                Cell(IsHatched: false),
                new Area(new Disc(middle, 5), Role.Full(entry.Hue), Role.Edge(entry.Hue), 1.2),
            ],
            LegendMark.Bar => [Bar(Role.Full(entry.Hue))],
            LegendMark.HollowBar => [Bar(null)],
            LegendMark.Control =>
            [
                new Stroke(Trace.Through(left, right), Role.Ink, PathPage.ControlWidth),
                new Area(new Rectangle(new Box(right.X - 7, middle.Y - 3.5, 7, 7)), Role.Ink),
            ],
            LegendMark.Box => [new Area(new Rectangle(box, 4), Role.Ground, Role.Ink, 1.2)],
            LegendMark.Late =>
            [
                new Stroke(Trace.Through(left, middle), Role.Ink, PathPage.LateWidth),
                new Area(new Rectangle(new Box(middle.X - 2, box.Top, box.Width / 2 + 4, box.Height), 4), Role.Ink),
                Text.Centred(
                    "8",
                    new Box(middle.X - 2, box.Top, box.Width / 2 + 4, box.Height),
                    Face.Bold,
                    FigureHead.TextSize,
                    Role.Ground,
                    Role.Ink
                ),
            ],
            LegendMark.Dashed => Dashes.Of([left, right], Role.Quiet, 1.7),
            LegendMark.Tap =>
            [
                new Stroke(Trace.Through(left, right), Role.Quiet, 1.7),
                new Stroke(Trace.Through(left, new(middle.X, middle.Y)), Role.Quiet, 5),
            ],
            LegendMark.Number =>
            [
                new Stroke(Trace.Through(new(box.Left + 3, box.Top), new(box.Left + 3, box.Bottom)), Role.Quiet, 1.7),
                Text.Centred(
                    "8",
                    box with
                    {
                        Left = box.Left + 4,
                    },
                    Face.Plain,
                    FigureHead.TextSize,
                    Role.Ink,
                    Role.Ground
                ),
            ],
        };

        Area Cell(bool IsHatched) =>
            new(new Rectangle(box, 4), Role.Tint(entry.Hue), Role.Edge(entry.Hue), 1.3, IsHatched);

        Area Bar(Role? fill) =>
            new(new Rectangle(new Box(box.Left, middle.Y - 4.5, box.Width, 9), 4.5), fill, Role.Edge(entry.Hue), 1.6);
    }
}
