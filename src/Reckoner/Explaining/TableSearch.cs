namespace Reckoner.Explaining;

/// <summary>
/// Looks for everything that, with so many causes, gives just the rows that were written. Rows are gone through one after the other
/// with all that may have led there: which cycle is next, what was worked out (which need not be what was written), what went wrong
/// so far. Where a row is not what comes next, each kind of mishap that gives it is one cause more.
/// </summary>
internal sealed partial class TableSearch(Ways ways, Seen seen)
{
    /// <summary>So many beginnings are gone on with at a row, the likeliest.</summary>
    private const int MostNodes = 400;

    private readonly RowLayout layout = ways.Layout;
    private readonly double rowBits = Math.Log2(Math.Max(2, seen.Rows.Count));
    private readonly double slipBits = Math.Log2(ways.Slips.Count + 1);
    private int most;
    private List<Node> next = [];

    /// <summary>How rows came about so far.</summary>
    /// <param name="At">The place in the schedule behind the last cycle.</param>
    /// <param name="Row">What was worked out, hidden registers above.</param>
    private sealed record Node(Mode Mode, int At, UInt128 Row, int Causes, double Bits, Trail? Trail)
    {
        /// <summary>The slip that was made in single rows; made again, it is the same cause.</summary>
        public SlipWay? Lapse { get; init; }

        /// <summary>Rows that were written twice.</summary>
        public int Repeated { get; init; }

        public Node On(int at, UInt128 row) => this with { At = at, Row = row };

        public Node With(Mishap mishap, double bits, int at, UInt128 row) =>
            this with
            {
                At = at,
                Row = row,
                Causes = Causes + 1,
                Bits = Bits + bits,
                Trail = new Trail(mishap, Trail),
            };
    }

    /// <summary>Mishaps from the last backwards.</summary>
    private sealed record Trail(Mishap Mishap, Trail? Before)
    {
        public IEnumerable<Mishap> Backwards()
        {
            for (var at = this; at is not null; at = at.Before)
            {
                yield return at.Mishap;
            }
        }
    }

    /// <summary>All explanations of at most so many causes, the likeliest first.</summary>
    public IReadOnlyList<Explanation> With(IReadOnlyList<Mode> modes, int causes)
    {
        most = causes;
        var found = new List<Explanation>();
        foreach (var mode in modes.Where(m => m.Causes <= causes))
        {
            found.AddRange(Run(mode));
        }
        return [.. found.OrderBy(e => e.Bits)];
    }

    private IEnumerable<Explanation> Run(Mode mode)
    {
        if (IsHopeless(mode))
        {
            return [];
        }
        var now = Begin(mode).ToList();
        for (var i = 1; i < seen.Rows.Count && now.Count > 0; i++)
        {
            next = [];
            foreach (var node in now)
            {
                Advance(node, i);
            }
            now = next.Count > MostNodes ? [.. next.OrderBy(n => (n.Causes, n.Bits)).Take(MostNodes)] : next;
        }
        return now.Select(End).OfType<Explanation>();
    }

    /// <summary>
    /// Rows that no cycle of this way makes of the row above: another cause accounts for two of them at most, a row miscopied and
    /// the one below it.
    /// </summary>
    private bool IsHopeless(Mode mode)
    {
        if (mode.Mishap is null || mode.Way.HiddenBits > 0 || mode.Way.MostCycles == 0)
        {
            return false;
        }
        var spare = 2 * (most - mode.Causes);
        for (var i = 1; i < seen.Rows.Count; i++)
        {
            var (above, row) = (seen.Rows[i - 1], seen.Rows[i]);
            if (
                above.Known == layout.Mask
                && !row.Agrees(above.Bits)
                && !mode.Way.Distinct.Any(at => row.Agrees(mode.Way.After(at, above.Bits)))
                && --spare < 0
            )
            {
                return true;
            }
        }
        return false;
    }

    private IEnumerable<Node> Begin(Mode mode)
    {
        var trail = mode.Mishap is { } mishap ? new Trail(mishap, null) : null;
        var loaded = mode.Way.Load(mode.Operands);
        var node = new Node(mode, 0, loaded, mode.Causes, mode.Bits, trail);
        var first = seen.Rows[0];
        if (first.Agrees(loaded))
        {
            return [node];
        }
        return node.Causes < most ? Miscopies(node, first, null, 0, 0, loaded) : [];
    }

    /// <summary>Everything that may follow, so that it agrees with the row.</summary>
    private void Advance(Node node, int i)
    {
        var (way, row, above) = (node.Mode.Way, seen.Rows[i], seen.Rows[i - 1]);
        var at = way.Next(node.At, node.Row);
        var isMore = node.Causes < most;
        if (at < way.MostCycles)
        {
            var after = way.After(at, node.Row);
            if (row.Agrees(after))
            {
                next.Add(node.On(at + 1, after));
                if (row.Known == layout.Mask)
                {
                    if (isMore)
                    {
                        // The next row may be the same, and this one the one that was not written.
                        LeaveOut(node, i, at, after);
                    }
                    return;
                }
            }
            if (row.Known != 0 && way == ways.Right && (isMore || node.Lapse is not null))
            {
                Lapses(node, i, at, after, isMore);
            }
            if (isMore && row.Known != 0)
            {
                next.AddRange(Miscopies(node, row, above, i, at + 1, after));
                LeaveOut(node, i, at, after);
            }
        }
        else if (isMore && way.MostCycles > 0)
        {
            var onward = way.After(way.MostCycles - 1, node.Row);
            if (row.Agrees(onward))
            {
                next.Add(node.With(new RowsOff(RowsKind.WentOn, i, 1), 4, node.At, onward));
            }
        }
        if (isMore && (row.Known & above.Known) != 0 && ((row.Bits ^ above.Bits) & row.Known & above.Known) == 0)
        {
            var twice = node.With(new RowsOff(RowsKind.Repeated, i, 1), 3 + rowBits, node.At, node.Row);
            next.Add(twice with { Repeated = node.Repeated + 1 });
        }
    }

    private void LeaveOut(Node node, int i, int at, UInt128 after)
    {
        var (way, row) = (node.Mode.Way, seen.Rows[i]);
        var second = way.Next(at + 1, after);
        if (second < way.MostCycles && way.After(second, after) is var written && row.Agrees(written))
        {
            next.Add(node.With(new RowsOff(RowsKind.NotWritten, i, 1), 3 + rowBits, second + 1, written));
        }
        if (at + 1 < way.MostCycles && !way.AreAlike(at, at + 1))
        {
            var without = way.After(at + 1, node.Row);
            if (row.Agrees(without))
            {
                next.Add(node.With(new RowsOff(RowsKind.LeftOut, i, 1), 3 + rowBits, at + 2, without));
            }
        }
    }

    /// <summary>What cycles are missing, and whether the results are those of the last row.</summary>
    private Explanation? End(Node node)
    {
        var (way, row) = (node.Mode.Way, node.Row);
        var missing = 0;
        for (var at = way.Next(node.At, row); at < way.MostCycles; at = way.Next(at + 1, row))
        {
            row = way.After(at, row);
            missing++;
        }
        if (missing > node.Repeated && !seen.IsPart)
        {
            if (node.Causes >= most)
            {
                return null;
            }
            row = node.Row;
            node = node.With(
                new RowsOff(RowsKind.StoppedEarly, seen.Rows.Count - 1, missing),
                3 + rowBits,
                node.At,
                row
            );
        }
        if (!seen.Agrees(way.Results(row)))
        {
            if (node.Causes >= most || ResultReading.Of(ways.Datapath, way.Results(row), seen.Results) is not { } off)
            {
                return null;
            }
            node = node.With(off, 6, node.At, row);
        }
        var mishaps = node.Trail?.Backwards().Reverse().ToList() ?? [];
        return new Explanation(way, node.Mode.Operands, mishaps, node.Bits);
    }
}
