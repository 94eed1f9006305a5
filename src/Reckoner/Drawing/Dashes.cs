namespace Reckoner.Drawing;

/// <summary>A broken line as short lines of their own, so that every program shows it alike.</summary>
internal static class Dashes
{
    private const double Dash = 6;
    private const double Gap = 4;

    /// <param name="points">Corners of the line, in their order.</param>
    public static IEnumerable<Shape> Of(IReadOnlyList<Point> points, Role role, double width)
    {
        var steps = new List<PathStep>();
        foreach (var (from, to) in points.Zip(points.Skip(1)))
        {
            var length = Math.Sqrt((to.X - from.X) * (to.X - from.X) + (to.Y - from.Y) * (to.Y - from.Y));
            for (var at = 0.0; at < length; at += Dash + Gap)
            {
                steps.Add(PathStep.MoveTo(On(from, to, at / length)));
                steps.Add(PathStep.LineTo(On(from, to, Math.Min(1, (at + Dash) / length))));
            }
        }
        return steps.Count == 0 ? [] : [new Stroke(new Trace(steps), role, width)];
    }

    private static Point On(Point from, Point to, double share) =>
        new(from.X + (to.X - from.X) * share, from.Y + (to.Y - from.Y) * share);
}
