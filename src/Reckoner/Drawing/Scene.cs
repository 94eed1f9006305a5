using Reckoner.Datapaths;

namespace Reckoner.Drawing;

/// <summary>
/// A figure before it has colours or a file format: shapes in the order in which they are painted, each with a role instead of
/// a colour. Title and description are what those hear who cannot see it.
/// </summary>
public sealed record Scene(
    double Width,
    double Height,
    string Title,
    string Description,
    string Language,
    IReadOnlyList<Shape> Shapes
)
{
    /// <summary>The cycle that it shows alone; null for one that shows several, or none.</summary>
    internal int? Cycle { get; init; }

    public Box Box => new(0, 0, Width, Height);

    /// <summary>
    /// As wide as it must be shown: bold letters that stand in the place of ours may be wider, so a title that ends near the border
    /// has room to spare.
    /// </summary>
    internal double SafeWidth =>
        Shapes
            .OfType<Text>()
            .Where(t => t is { Face: Face.Bold, Anchor: Anchor.Start })
            .Select(t => Math.Ceiling(t.At.X + t.Box.Width * Typeface.WidestInstead))
            .Append(Width)
            .Max();

    /// <summary>Every shape that is not a group, in painting order.</summary>
    public IEnumerable<Shape> Leaves => Shapes.SelectMany(LeavesOf);

    private static IEnumerable<Shape> LeavesOf(Shape shape) =>
        shape is Group group ? group.Shapes.SelectMany(LeavesOf) : [shape];
}

/// <summary>What a shape stands for: a cycle (0 is the load), a register, one of its bits, a line of the description.</summary>
public sealed record Link(int? Cycle = null, Register? Register = null, int? Bit = null, int? Line = null);

internal enum DrawnKind
{
    Group,
    Area,
    Stroke,
    Strand,
    Text,
}

public abstract record Shape
{
    public Link? Link { get; init; }

    internal abstract DrawnKind Kind { get; }

    /// <summary>What is made of each kind of shape. A new kind is asked for wherever shapes are read, by the compiler.</summary>
    internal T Match<T>(
        Func<Group, T> group,
        Func<Area, T> area,
        Func<Stroke, T> stroke,
        Func<Strand, T> strand,
        Func<Text, T> text
    ) =>
        Kind switch
        {
            DrawnKind.Group => group((Group)this),
            DrawnKind.Area => area((Area)this),
            DrawnKind.Stroke => stroke((Stroke)this),
            DrawnKind.Strand => strand((Strand)this),
            DrawnKind.Text => text((Text)this),
        };
}

/// <summary>Shapes that belong together, with what they are in words.</summary>
public sealed record Group(string? Said, IReadOnlyList<Shape> Shapes) : Shape
{
    internal override DrawnKind Kind => DrawnKind.Group;

    /// <summary>What was put down last becomes a group that belongs to a cycle, if to any.</summary>
    /// <param name="from">Where in the list it begins.</param>
    /// <returns>How far its texts reach to the right.</returns>
    internal static double From(List<Shape> shapes, int from, int? cycle)
    {
        var last = shapes[from..];
        if (cycle is not null)
        {
            shapes.RemoveRange(from, last.Count);
            shapes.Add(new Group(null, last) { Link = new Link(cycle) });
        }
        return last.OfType<Text>().Select(t => t.Box.Right).Append(0).Max();
    }
}

/// <summary>An area with or without an edge.</summary>
/// <param name="Hatched">Lines across it: it carries nothing.</param>
public sealed record Area(Outline Outline, Role? Fill, Role? Edge = null, double EdgeWidth = 1, bool Hatched = false)
    : Shape
{
    /// <summary>How its edge is drawn.</summary>
    public EdgeLine Line { get; init; }

    internal override DrawnKind Kind => DrawnKind.Area;
}

public enum EdgeLine
{
    Unbroken,

    /// <summary>What could be taken and is not.</summary>
    Dashed,

    /// <summary>What is no longer there.</summary>
    Dotted,
}

/// <summary>A plain line.</summary>
public sealed record Stroke(Outline Outline, Role Role, double Width) : Shape
{
    internal override DrawnKind Kind => DrawnKind.Stroke;
}

/// <summary>A thread: a line in the colour of where its bits came from, between dark edges.</summary>
public sealed record Strand(Trace Trace, int Hue, double Width) : Shape
{
    internal override DrawnKind Kind => DrawnKind.Strand;
}

public enum Anchor
{
    Start,
    Middle,
    End,
}

/// <summary>One line of text.</summary>
/// <param name="At">Where its baseline starts, is halved or ends.</param>
/// <param name="On">What it stands on; it must be readable there.</param>
/// <param name="Within">The box it may not leave; the page where there is none.</param>
public sealed record Text(string Words, Point At, Anchor Anchor, Face Face, double Size, Role Ink, Role On, Box? Within)
    : Shape
{
    internal override DrawnKind Kind => DrawnKind.Text;

    public double Width => Typeface.Of(Face).Width(Words, Size);

    /// <summary>As wide as it advances, as high and deep as its letters reach.</summary>
    public Box Box
    {
        get
        {
            var left =
                At.X
                - Anchor switch
                {
                    Anchor.Start => 0,
                    Anchor.Middle => Width / 2,
                    Anchor.End => Width,
                };
            var (up, down) = Typeface.Of(Face).Reach(Words, Size);
            return new Box(left, At.Y - up, Width, up + down);
        }
    }

    /// <summary>Text in the middle of a box, its capitals halved by the box's middle.</summary>
    public static Text Centred(string words, Box box, Face face, double size, Role ink, Role on) =>
        new(
            words,
            new Point(box.Centre.X, box.Centre.Y + Typeface.Of(face).CapitalHeight * size / 2),
            Anchor.Middle,
            face,
            size,
            ink,
            on,
            box
        );
}
