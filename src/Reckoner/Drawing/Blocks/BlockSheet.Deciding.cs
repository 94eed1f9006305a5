using Reckoner.Structure;

namespace Reckoner.Drawing;

internal sealed partial class BlockSheet
{
    private const double CellSize = 34;
    private const double CellGap = 10;
    private const double WireWidth = 6;

    private readonly Dictionary<BlockPiece, IReadOnlyList<Point>?> wires = [];

    /// <summary>Where a deciding bit stands: in a cell at the left end of the unit that gives it, or in a register.</summary>
    private (BlockPiece Piece, double X, bool IsFlag)? Source(Bundle question)
    {
        if (question.Stretches is not [{ Net: { } net, Width: 1 } only] || layout.Giver(net) is not { } piece)
        {
            return null;
        }
        if (piece.Kind == BlockPieceKind.Unit)
        {
            return BlockLayout.Flag(net) || only.High == net.Width - 1
                ? (piece, piece.X - CellGap - CellSize / 2, true)
                : null;
        }
        return piece.Kind == BlockPieceKind.Register && layout.X(net, only.High) is { } x
            ? (piece, x + grid.Breadth(1) / 2, false)
            : null;
    }

    private static Box FlagBox(BlockPiece unit) =>
        new(unit.X - CellGap - CellSize, unit.Y + (unit.Height - CellSize) / 2, CellSize, CellSize);

    private bool IsWired(BlockPiece choice) => Wire(choice) is not null;

    private bool CellsAtRight(BlockPiece choice) =>
        choice.Question is { } question
        && Source(question) is { IsFlag: false } source
        && source.X > choice.Box.Centre.X;

    private Box CellBox(BlockPiece choice, int arm)
    {
        var box = ArmBox(choice, arm);
        var wide = Math.Max(CellSize, choice.Arms.Max(a => Width(CellText(a), Face.Bold)) + 10);
        return CellsAtRight(choice)
            ? new Box(box.Right - Math.Min(wide, box.Width), box.Top, wide, box.Height)
            : new Box(box.Left, box.Top, wide, box.Height);
    }

    /// <summary>The bits of a register that decide and are seen to.</summary>
    private IEnumerable<Box> Marks(BlockPiece register) =>
        layout
            .Pieces.Where(p =>
                p.Kind == BlockPieceKind.Choice
                && IsWired(p)
                && Source(p.Question!) is { IsFlag: false } s
                && s.Piece == register
            )
            .Select(p => new Box(
                Source(p.Question!)!.Value.X - grid.Breadth(1) / 2,
                register.Y,
                grid.Breadth(1),
                register.Height
            ));

    /// <summary>The way of the deciding bit to a choice: down, and to the cells; null where something stands in it.</summary>
    private IReadOnlyList<Point>? Wire(BlockPiece choice)
    {
        if (!wires.TryGetValue(choice, out var wire))
        {
            wires[choice] = wire = FindWire(choice);
        }
        return wire;
    }

    private List<Point>? FindWire(BlockPiece choice)
    {
        if (
            layout.IsFolded
            || choice.Arms.Count != 2
            || choice.Question is not { } question
            || Source(question) is not { } source
        )
        {
            return null;
        }
        var from = source.IsFlag ? FlagBox(source.Piece).Bottom : source.Piece.Bottom;
        var (first, last) = (ArmBox(choice, 0).Centre.Y, ArmBox(choice, 1).Centre.Y);
        if (source.IsFlag)
        {
            var lane = Math.Min(source.X, choice.X - CellGap - CellSize / 2);
            List<Point> way = [new(source.X, from), new(source.X, from + 12), new(lane, from + 12), new(lane, last)];
            return from < choice.Y && IsFree(way, source.Piece, choice) ? way : null;
        }
        var edge = CellsAtRight(choice) ? choice.Box.Right : choice.X;
        var isBeside = source.X > choice.Box.Right + 8 || source.X < choice.X - 8;
        var stand = isBeside ? source.X : edge + (CellsAtRight(choice) ? 18 : -18);
        var turn = choice.Y - 14;
        List<Point> down = isBeside
            ? [new(source.X, from), new(source.X, last)]
            : [new(source.X, from), new(source.X, turn), new(stand, turn), new(stand, last)];
        return IsFree(down, source.Piece, choice) && IsFree([new(stand, first), new(edge, first)], source.Piece, choice)
            ? down
            : null;
    }

    private bool IsFree(IReadOnlyList<Point> way, params BlockPiece[] ends) =>
        way.Zip(way.Skip(1))
            .All(step =>
            {
                var (a, b) = step;
                var box = Span(a, b).Grown(5);
                return box.Left > 4
                    && box.Right < BlockGrid.Wide - 4
                    && layout.Pieces.Concat(layout.Afters).All(p => ends.Contains(p) || !p.Box.Overlaps(box));
            });

    /// <summary>Where the ways of decisions run; nothing is written there.</summary>
    private readonly List<Box> green = [];

    private void FindWires()
    {
        foreach (var choice in layout.Pieces.Where(p => p.Kind == BlockPieceKind.Choice && Wire(p) is not null))
        {
            var wire = Wire(choice)!;
            Keep(wire);
            for (var arm = 0; arm < 2; arm++)
            {
                var cell = CellBox(choice, arm);
                Keep([new(wire[^1].X, cell.Centre.Y), cell.Centre]);
            }
            if (Source(choice.Question!) is { IsFlag: true } source)
            {
                taken.Add(FlagBox(source.Piece));
            }
        }
        foreach (var (_, way, asked, _) in layout.Afters.SelectMany(Entering))
        {
            Keep(way);
            taken.Add(FlagBox(Source(asked)!.Value.Piece));
        }
        var asking = layout.Pieces.Where(p => p.Kind == BlockPieceKind.Choice && IsWired(p)).Select(p => p.Question!);
        foreach (var question in asking.Concat(layout.Afters.SelectMany(Entering).Select(e => e.Asked)))
        {
            if (Source(question) is { IsFlag: true } source && labelled.Add(source.Piece))
            {
                // At the left end of the unit; the right side of the cell is the unit itself.
                var cell = FlagBox(source.Piece) with
                {
                    Width = CellSize + 8,
                };
                if (!Beside(cell, Face.Bold, Role.Ink, names.Asked(question)))
                {
                    untold.Add(source.Piece);
                }
            }
        }
    }

    private readonly HashSet<BlockPiece> labelled = [];

    /// <summary>Units beside whose deciding bit its name has no room: the strips say it.</summary>
    private readonly HashSet<BlockPiece> untold = [];

    private bool IsUntold(BlockPiece choice) =>
        choice.Question is { } question && Source(question) is { IsFlag: true } source && untold.Contains(source.Piece);

    private void Keep(IReadOnlyList<Point> way) => green.AddRange(way.Zip(way.Skip(1), (a, b) => Span(a, b).Grown(5)));

    private static Box Span(Point a, Point b) =>
        new(Math.Min(a.X, b.X), Math.Min(a.Y, b.Y), Math.Abs(a.X - b.X), Math.Abs(a.Y - b.Y));

    // ---- drawn

    private void Deciding()
    {
        foreach (var choice in layout.Pieces.Where(p => p.Kind == BlockPieceKind.Choice && IsWired(p)))
        {
            var wire = Wire(choice)!;
            var stand = wire[^1].X;
            for (var arm = 0; arm < 2; arm++)
            {
                var cell = CellBox(choice, arm);
                Green([new(stand, cell.Centre.Y), new(stand < cell.Centre.X ? cell.Left : cell.Right, cell.Centre.Y)]);
            }
            Green(wire);
            Asked(choice.Question!, wire, isAsked: true);
        }
        foreach (var (x, way, asked, isTurned) in layout.Afters.SelectMany(Entering))
        {
            Green(way);
            Asked(asked, way, isAsked: false);
            Arrow(new Point(x, way[^1].Y));
            if (isTurned)
            {
                Turned(way);
            }
        }
    }

    /// <summary>The word for a bit that is turned over, in its way.</summary>
    private void Turned(IReadOnlyList<Point> way)
    {
        var word = words.Say("blocks.not");
        var wide = Width(word, Face.Bold) + 16;
        var plate = new Box(way[^1].X - 24 - wide, way[^2].Y - 16, wide, 32);
        shapes.Add(new Area(new Rectangle(plate, 6), Role.Tint(hues.Decided), Role.Edge(hues.Decided), 2.4));
        shapes.Add(Text.Centred(word, plate, Face.Bold, BlockGrid.TextSize, Role.Ink, Role.Tint(hues.Decided)));
    }

    private readonly HashSet<BlockPiece> flagged = [];
    private readonly HashSet<(BlockPiece, double)> marked = [];

    /// <summary>The cell at the end of a unit, with what it is called; the bit of a register with a strong edge.</summary>
    /// <param name="isAsked">Whether something is chosen by it; else it is only carried on.</param>
    private void Asked(Bundle question, IReadOnlyList<Point> wire, bool isAsked)
    {
        var source = Source(question)!.Value;
        var decided = hues.Decided;
        if (source.IsFlag)
        {
            if (flagged.Add(source.Piece))
            {
                var cell = FlagBox(source.Piece);
                shapes.Add(new Area(new Rectangle(cell, 6), Role.Tint(decided), Role.Edge(decided), 3.4));
                shapes.Add(
                    new Stroke(
                        Trace.Through(new(cell.Right, cell.Centre.Y), new(source.Piece.X, cell.Centre.Y)),
                        Role.Edge(decided),
                        WireWidth
                    )
                );
                var digit =
                    telling.Wires is { } values ? $"{values[question]}"
                    : isAsked ? "?"
                    : "";
                shapes.Add(Text.Centred(digit, cell, Face.Bold, BlockGrid.TextSize, Role.Ink, Role.Tint(decided)));
            }
            return;
        }
        if (marked.Add((source.Piece, source.X)))
        {
            var bit = new Box(source.X - grid.Breadth(1) / 2, source.Piece.Y, grid.Breadth(1), source.Piece.Height);
            shapes.Add(new Area(new Rectangle(bit, 6), null, Role.Edge(decided), 4));
            var (top, bottom) = (wire[0].Y, wire[1].Y);
            Beside(
                new Box(source.X - 4, Math.Max(top, bottom - 60), 8, Math.Min(40, bottom - top)),
                Face.Bold,
                Role.Ink,
                $"{names.Asked(question)}?"
            );
        }
    }

    private void Green(IReadOnlyList<Point> points)
    {
        shapes.Add(new Stroke(Trace.Through(points), Role.Ground, WireWidth + 5));
        shapes.Add(new Stroke(Trace.Through(points), Role.Edge(hues.Decided), WireWidth));
    }

    /// <summary>A decided bit on its way into a register: round below everything, and in from above.</summary>
    private IEnumerable<(double X, IReadOnlyList<Point> Way, Bundle Asked, bool IsTurned)> Entering(BlockPiece after)
    {
        var low = after.Width;
        foreach (var stretch in after.Word!.Stretches)
        {
            low -= stretch.Width;
            if (stretch.Width != 1 || stretch.Net is not { Width: 1 } net)
            {
                continue;
            }
            var (asked, isTurned) = BlockPlan.Plain(net.Word);
            if (Source(asked) is not { IsFlag: true } source)
            {
                continue;
            }
            var x = after.X + (after.Width - 1 - low) * grid.Pitch + grid.Breadth(1) / 2;
            var y = after.Y - (after.Y > layout.AfterY ? 24 : 30);
            var from = FlagBox(source.Piece).Bottom;
            var lane = layout
                .Pieces.Where(p =>
                    p.Kind == BlockPieceKind.Choice && IsWired(p) && Source(p.Question!)?.Piece == source.Piece
                )
                .Select(p => Wire(p)![^1].X)
                .Append(source.X)
                .Min();
            List<Point> way =
            [
                new(source.X, from),
                new(source.X, from + 12),
                new(lane, from + 12),
                new(lane, y),
                new(x, y),
                new(x, after.Y),
            ];
            if (IsFree(way, source.Piece, after))
            {
                yield return (x, way, asked, isTurned);
            }
        }
    }
}
