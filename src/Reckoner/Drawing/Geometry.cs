namespace Reckoner.Drawing;

/// <summary>A place on the page: x to the right, y down, in units of which a screen shows 96 to the inch.</summary>
public readonly record struct Point(double X, double Y);

public readonly record struct Box(double Left, double Top, double Width, double Height)
{
    public double Right => Left + Width;
    public double Bottom => Top + Height;
    public Point Centre => new(Left + Width / 2, Top + Height / 2);

    /// <summary>Whether another box lies inside, but for a hair's breadth of rounding.</summary>
    public bool Contains(Box other) =>
        other.Left >= Left - 0.01
        && other.Top >= Top - 0.01
        && other.Right <= Right + 0.01
        && other.Bottom <= Bottom + 0.01;

    public bool Overlaps(Box other) =>
        other.Left < Right - 0.01
        && Left < other.Right - 0.01
        && other.Top < Bottom - 0.01
        && Top < other.Bottom - 0.01;

    public Box Grown(double by) => new(Left - by, Top - by, Width + 2 * by, Height + 2 * by);
}

/// <summary>The kinds of forms.</summary>
internal enum OutlineKind
{
    Rectangle,
    Disc,
    Trace,
}

/// <summary>The form of a shape.</summary>
public abstract record Outline
{
    internal abstract OutlineKind Kind { get; }

    /// <summary>What a writer makes of each kind of form. A new kind is asked for in every writer, by the compiler.</summary>
    internal T Match<T>(Func<Rectangle, T> rectangle, Func<Disc, T> disc, Func<Trace, T> trace) =>
        Kind switch
        {
            OutlineKind.Rectangle => rectangle((Rectangle)this),
            OutlineKind.Disc => disc((Disc)this),
            OutlineKind.Trace => trace((Trace)this),
        };
}

public sealed record Rectangle(Box Box, double Radius = 0) : Outline
{
    internal override OutlineKind Kind => OutlineKind.Rectangle;
}

public sealed record Disc(Point Centre, double Radius) : Outline
{
    internal override OutlineKind Kind => OutlineKind.Disc;
}

/// <summary>Lines and cubic curves; several stretches may stand in one path.</summary>
public sealed record Trace(IReadOnlyList<PathStep> Steps) : Outline
{
    internal override OutlineKind Kind => OutlineKind.Trace;

    /// <summary>A straight line through points.</summary>
    public static Trace Through(params IReadOnlyList<Point> points) =>
        new([.. points.Select((p, i) => i == 0 ? PathStep.MoveTo(p) : PathStep.LineTo(p))]);

    /// <summary>Through points and back to the first.</summary>
    public static Trace Around(params IReadOnlyList<Point> points) => new([.. Through(points).Steps, PathStep.Close]);

    /// <summary>
    /// Down from one place to another: upright at both ends, slanting between. Straight where nothing moves sideways.
    /// </summary>
    public static Trace Down(Point from, Point to)
    {
        if (Math.Abs(from.X - to.X) < 0.01)
        {
            return Through(from, to);
        }
        var middle = (from.Y + to.Y) / 2;
        return new([PathStep.MoveTo(from), PathStep.CurveTo(new(from.X, middle), new(to.X, middle), to)]);
    }

    public static Trace Together(IEnumerable<Trace> paths) => new([.. paths.SelectMany(p => p.Steps)]);
}

public enum StepKind
{
    Move,
    Line,
    Curve,
    Close,
}

/// <summary>One step of a path; a curve has two handles before its end.</summary>
public readonly record struct PathStep(StepKind Kind, Point First, Point Second, Point To)
{
    public static readonly PathStep Close = new(StepKind.Close, default, default, default);

    public static PathStep MoveTo(Point to) => new(StepKind.Move, default, default, to);

    public static PathStep LineTo(Point to) => new(StepKind.Line, default, default, to);

    public static PathStep CurveTo(Point first, Point second, Point to) => new(StepKind.Curve, first, second, to);
}
