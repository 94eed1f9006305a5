namespace Reckoner.Drawing;

/// <summary>Lines across a box, cut at its sides, so that no program needs to know patterns.</summary>
internal static class Hatching
{
    private const double Spacing = 5;

    /// <summary>How many patterns <see cref="Of"/> tells apart, besides none.</summary>
    public const int Patterns = 6;

    /// <summary>Rising lines across what carries nothing.</summary>
    public static Trace Idle(Box box) => new([.. Slanted(box, Spacing, rises: true)]);

    /// <summary>A pattern of its own for each hue; the first has none.</summary>
    public static Trace? Of(int hue, Box box)
    {
        IEnumerable<PathStep> steps = hue switch
        {
            1 => Slanted(box, Spacing, rises: false),
            2 => Level(box),
            3 => Upright(box),
            4 => [.. Level(box), .. Upright(box)],
            5 => Slanted(box, Spacing / 2, rises: false),
            6 => [.. Upright(box), .. Slanted(box, Spacing, rises: false)],
            _ => [],
        };
        var path = new Trace([.. steps]);
        return path.Steps.Count == 0 ? null : path;
    }

    private static IEnumerable<PathStep> Slanted(Box box, double spacing, bool rises)
    {
        for (var at = spacing; at < box.Width + box.Height; at += spacing)
        {
            // From the left or bottom side up to the top or right one; falling lines are these seen in a mirror.
            var start = new Point(Math.Max(0, at - box.Height), Math.Min(at, box.Height));
            var end = new Point(Math.Min(at, box.Width), Math.Max(0, at - box.Width));
            yield return PathStep.MoveTo(Placed(start));
            yield return PathStep.LineTo(Placed(end));
        }

        Point Placed(Point p) => new(rises ? box.Left + p.X : box.Right - p.X, box.Top + p.Y);
    }

    private static IEnumerable<PathStep> Level(Box box)
    {
        for (var y = box.Top + Spacing / 2; y < box.Bottom; y += Spacing)
        {
            yield return PathStep.MoveTo(new(box.Left, y));
            yield return PathStep.LineTo(new(box.Right, y));
        }
    }

    private static IEnumerable<PathStep> Upright(Box box)
    {
        for (var x = box.Left + Spacing / 2; x < box.Right; x += Spacing)
        {
            yield return PathStep.MoveTo(new(x, box.Top));
            yield return PathStep.LineTo(new(x, box.Bottom));
        }
    }
}
