using Reckoner.Drawing;

namespace Reckoner.Tests;

/// <summary>What may not be seen in a scene of bars and ways.</summary>
internal static class BlockShapes
{
    /// <summary>Texts over each other, or over an edge or a line with nothing painted between the two.</summary>
    public static IEnumerable<string> Covered(Scene scene)
    {
        var shapes = scene.Leaves.ToList();
        for (var i = 0; i < shapes.Count; i++)
        {
            if (shapes[i] is not Text text)
            {
                continue;
            }
            var box = text.Box.Grown(-1);
            foreach (var other in shapes.Skip(i + 1).OfType<Text>().Where(o => o.Box.Overlaps(text.Box)))
            {
                yield return $"text over text: {text.Words}, {other.Words}";
            }
            var ground = shapes
                .Take(i)
                .ToList()
                .FindLastIndex(s => s is Area { Fill: not null, Outline: Rectangle r } && r.Box.Contains(text.Box));
            foreach (var line in shapes.Skip(ground + 1).Where(s => Runs(s, box)))
            {
                yield return $"a line through text: {text.Words}: {line.GetType().Name} {Where(line)}";
            }
        }
    }

    private static string Where(Shape shape) =>
        shape switch
        {
            Area { Outline: Rectangle r } => $"{r.Box}",
            Stroke { Outline: Trace t } => $"{t.Steps[0].To} {t.Steps[^1].To}",
            Strand t => $"{t.Trace.Steps[0].To} {t.Trace.Steps[^1].To}",
            _ => "",
        };

    private static bool Runs(Shape shape, Box box) =>
        shape switch
        {
            // Where two grounds meet without a line between them a text may go on.
            Area { Edge: null, Outline: Rectangle } => false,
            Area { Outline: Rectangle r } => r.Box.Overlaps(box) && !r.Box.Contains(box),
            Area { Outline: Trace t } => Crosses(t, box),
            Stroke { Outline: Trace t } => Crosses(t, box),
            Strand t => Crosses(t.Trace, box),
            _ => false,
        };

    /// <summary>Whether a path comes into a box; curves are taken in small steps.</summary>
    private static bool Crosses(Trace trace, Box box)
    {
        var at = default(Point);
        foreach (var step in trace.Steps.Where(s => s.Kind != StepKind.Close))
        {
            for (var i = 0; step.Kind != StepKind.Move && i <= 40; i++)
            {
                var p = On(at, step, i / 40.0);
                if (p.X > box.Left && p.X < box.Right && p.Y > box.Top && p.Y < box.Bottom)
                {
                    return true;
                }
            }
            at = step.To;
        }
        return false;
    }

    private static Point On(Point from, PathStep step, double t)
    {
        if (step.Kind == StepKind.Line)
        {
            return new(from.X + (step.To.X - from.X) * t, from.Y + (step.To.Y - from.Y) * t);
        }
        var u = 1 - t;
        double Mixed(double a, double b, double c, double d) =>
            u * u * u * a + 3 * u * u * t * b + 3 * u * t * t * c + t * t * t * d;
        return new(
            Mixed(from.X, step.First.X, step.Second.X, step.To.X),
            Mixed(from.Y, step.First.Y, step.Second.Y, step.To.Y)
        );
    }

    /// <summary>Forms that other drawings of hardware are made of: discs, and four sides of which just two are parallel.</summary>
    public static IEnumerable<string> Foreign(Scene scene)
    {
        foreach (var area in scene.Leaves.OfType<Area>())
        {
            if (area.Outline is Disc)
            {
                yield return "a disc";
            }
            if (area.Outline is Trace trace && IsTrapezoid(trace))
            {
                yield return "a trapezoid";
            }
        }
    }

    public static bool IsTrapezoid(Trace trace)
    {
        var corners = trace
            .Steps.Where(s => s.Kind is StepKind.Move or StepKind.Line)
            .Select(s => s.To)
            .Distinct()
            .ToList();
        if (corners.Count != 4 || trace.Steps.Any(s => s.Kind == StepKind.Curve))
        {
            return false;
        }
        return IsParallel(0, 1, 2, 3) != IsParallel(1, 2, 3, 0);

        bool IsParallel(int a, int b, int c, int d)
        {
            var (x, y) = (corners[b].X - corners[a].X, corners[b].Y - corners[a].Y);
            var (u, v) = (corners[d].X - corners[c].X, corners[d].Y - corners[c].Y);
            return Math.Abs(x * v - y * u) < 0.5;
        }
    }
}
