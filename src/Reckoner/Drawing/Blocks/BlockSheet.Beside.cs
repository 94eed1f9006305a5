namespace Reckoner.Drawing;

internal sealed partial class BlockSheet
{
    /// <summary>A text inside a bar, or beside it where it is too narrow.</summary>
    private void Inside(BlockPiece piece, Role on, Face face, params IReadOnlyList<string> candidates)
    {
        if (!Centred(piece.Box, on, face, Role.Ink, candidates))
        {
            Beside(piece.Box, face, Role.Ink, candidates);
        }
    }

    /// <summary>The first text that finds room at the right of a bar, else at the left.</summary>
    private bool Beside(Box box, Face face, Role ink, params IReadOnlyList<string> candidates) =>
        Beside(box, face, ink, isLeftFirst: false, candidates);

    private bool Beside(Box box, Face face, Role ink, bool isLeftFirst, IReadOnlyList<string> candidates)
    {
        var baseline = box.Centre.Y + Rise(face, BlockGrid.TextSize) / 2;
        foreach (var said in candidates.Where(c => c.Length > 0))
        {
            (double X, Anchor Anchor)[] sides = [(box.Right + 10, Anchor.Start), (box.Left - 10, Anchor.End)];
            foreach (var (x, anchor) in isLeftFirst ? sides.Reverse() : sides)
            {
                var text = new Text(
                    said,
                    new Point(x, baseline),
                    anchor,
                    face,
                    BlockGrid.TextSize,
                    ink,
                    Role.Ground,
                    null
                );
                var room = text.Box.Grown(3);
                var isOnSheet =
                    room.Left >= 8
                    && text.Box.Left + text.Box.Width * (face == Face.Bold ? Typeface.WidestInstead : 1)
                        <= BlockGrid.Wide - 8;
                if (isOnSheet && IsFree(room))
                {
                    shapes.Add(text);
                    taken.Add(text.Box);
                    return true;
                }
            }
        }
        return false;
    }

    /// <summary>Whether nothing stands in a box and nothing runs through it.</summary>
    private bool IsFree(Box box) =>
        !taken.Exists(t => t.Overlaps(box)) && !ways.Any(w => Crosses(w, box)) && !green.Exists(g => g.Overlaps(box));

    private bool Crosses(Way way, Box box)
    {
        var left = Math.Min(way.X, way.To);
        var right = Math.Max(way.X, way.To) + way.Width * grid.Pitch;
        return box.Overlaps(new Box(left, way.Top, right - left, way.Bottom - way.Top));
    }
}
