using Reckoner.Structure;

namespace Reckoner.Drawing;

/// <summary>Bits that run from one bar down into another.</summary>
/// <param name="X">Their left edge where they leave.</param>
/// <param name="To">Their left edge where they arrive.</param>
/// <param name="Low">The lowest of them where they arrive.</param>
internal sealed record Way(
    BlockPiece From,
    BlockPiece Into,
    Stretch Stretch,
    double X,
    double To,
    int Low,
    double Top,
    double Bottom
)
{
    public int Width => Stretch.Width;
}

internal sealed partial class BlockLayout
{
    /// <summary>Bits that slant farther than this are named where they arrive instead.</summary>
    private const double ShortestFar = 170;

    private double FarthestSlant => Math.Max(ShortestFar, 2.2 * grid.Pitch);

    private const double Slanting = 46;

    /// <summary>The ways that run free of every bar, into the units' strips, the first words of choices, tables, and registers.</summary>
    public IReadOnlyList<Way> Ways() =>
        [
            .. pieces.Where(p => p.Kind is BlockPieceKind.Choice).SelectMany(p => Into(p, p.Arms[0].Word)),
            .. pieces.Where(p => p.Kind == BlockPieceKind.Table).SelectMany(p => Into(p, p.Word!)),
            .. pieces.Where(p => p.Kind == BlockPieceKind.Unit).SelectMany(Into),
            .. afters.SelectMany(p => Into(p, p.Word!)),
        ];

    /// <summary>How many bits are seen to run into registers.</summary>
    public int Arriving => afters.SelectMany(p => Into(p, p.Word!)).Sum(w => w.Width);

    /// <summary>A unit that stands apart from what it takes.</summary>
    private IEnumerable<Way> Into(BlockPiece unit)
    {
        var operands = unit.Settings.Count > 0 ? unit.Settings[0].Operands : [];
        return operands.SelectMany(o => Into(unit, o)).Where(w => w.Bottom - w.Top > Between + 1);
    }

    private IEnumerable<Way> Into(BlockPiece piece, Bundle word)
    {
        var low = word.Width;
        foreach (var stretch in word.Stretches)
        {
            low -= stretch.Width;
            if (stretch is { Net: { } net, Times: 1 } && X(net, stretch.High) is { } x)
            {
                var width = piece.Kind == BlockPieceKind.Table ? word.Width : piece.Width;
                var to = piece.X + (width - low - stretch.Width) * grid.Pitch;
                var from = Giver(net)!;
                var way = new Way(from, piece, stretch, x, to, low, from.Bottom, piece.Y);
                if (IsFree(way))
                {
                    yield return way;
                }
            }
        }
    }

    private bool IsFree(Way way)
    {
        var breadth = way.Width * grid.Pitch;
        var turn = Turn(way);
        var down = new Box(way.X, way.Top + 0.5, breadth, turn - way.Top - 0.5);
        var left = Math.Min(way.X, way.To);
        var slant = new Box(left, turn, Math.Max(way.X, way.To) + breadth - left, way.Bottom - turn - 0.5);
        return way.Bottom - way.Top >= (Math.Abs(way.X - way.To) < 0.5 ? 1 : 24)
            && Math.Abs(way.X - way.To) <= FarthestSlant
            && pieces
                .Concat(afters)
                .All(p =>
                    p == way.From || p == way.Into || !(p.Box.Overlaps(down) || p.Box.Overlaps(slant)) || Passes(way, p)
                );
    }

    /// <summary>A register below another lets pass what the upper one sends farther down, and it is seen to pass.</summary>
    public static bool Passes(Way way, BlockPiece piece) =>
        piece.Kind == BlockPieceKind.Register
        && way.From.Kind == BlockPieceKind.Register
        && way.Into.Kind == BlockPieceKind.After
        && piece.Bottom <= Turn(way);

    /// <summary>Where a way stops running straight down.</summary>
    public static double Turn(Way way) =>
        Math.Abs(way.X - way.To) < 0.5 ? way.Bottom : Math.Max(way.Top, way.Bottom - Slanting);
}
