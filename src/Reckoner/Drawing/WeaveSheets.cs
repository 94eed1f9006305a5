using Reckoner.Running;

namespace Reckoner.Drawing;

/// <summary>A place for a row of a weave.</summary>
/// <param name="Row">The cycle that stands there; null for cycles that do what the one above does.</param>
/// <param name="From">The first of those, or the cycle itself; <paramref name="To"/> likewise the last.</param>
internal sealed record WeaveSlot(Row? Row, int From, int To)
{
    public static WeaveSlot Of(Row row) => new(row, row.Cycle, row.Cycle);
}

/// <summary>Cycles below each other.</summary>
internal sealed record WeaveColumn(IReadOnlyList<WeaveSlot> Slots)
{
    private readonly Dictionary<int, int> places = Slots
        .Select((s, i) => (s, i))
        .Where(x => x.s.Row is not null)
        .ToDictionary(x => x.s.From, x => x.i);

    /// <summary>Where a cycle stands, from the top; null where it does not.</summary>
    public int? Place(int cycle) => places.TryGetValue(cycle, out var place) ? place : null;
}

/// <summary>A page of a weave.</summary>
internal sealed record WeavePage(IReadOnlyList<WeaveColumn> Columns, int Number, int Count);

/// <summary>
/// How the cycles of a weave stand on what it is drawn for: below each other where that can be read, cycles that do the same as one,
/// in columns beside each other, on pages.
/// </summary>
internal static class WeaveSheets
{
    /// <summary>So many cycles stand below each other on a page that nothing is known of.</summary>
    private const int MostRows = 24;

    private const int MostColumns = 4;

    /// <summary>A run of fewer cycles that do the same stands as it is.</summary>
    private const int FewestAlike = 4;

    /// <summary>Single bits want a column of this at least.</summary>
    private const double PitchOfDigits = 16;

    public static WeavePage Whole(Figure figure)
    {
        var rows = Rows(figure);
        return new([new WeaveColumn(figure.Folds && rows.Count > MostRows ? Alike(figure, rows) : All(rows))], 1, 1);
    }

    /// <param name="height">How far the rows may reach down.</param>
    public static IReadOnlyList<WeavePage> Of(Figure figure, FigureRoom room, double height)
    {
        var rows = Rows(figure);
        var registers = figure.Walk.Datapath.Registers;
        var bits = registers.Sum(r => r.Width) + 2 * registers.Count + 5;
        var hasDigits = bits * PitchOfDigits <= room.Width;
        var most = Math.Max(2, (int)(height / (hasDigits ? WeaveGrid.RowOfDigits : WeaveGrid.NarrowestRow)));
        var slots = rows.Count > most && figure.Folds ? Alike(figure, rows) : All(rows);
        var columns = hasDigits ? Math.Clamp((int)(room.Width / (bits * PitchOfDigits)), 1, MostColumns) : 1;
        // The last row of a column stands once more above the next.
        var parts = Math.Max(1, (int)Math.Ceiling((slots.Count - 1) / (most - 1.0)));
        columns = Math.Min(columns, parts);
        var each = (int)Math.Ceiling((slots.Count - 1.0) / parts);
        var cut = Enumerable
            .Range(0, parts)
            .Select(i => slots.Skip(i * each).Take(each + 1).ToList())
            .Where(s => s.Count > 1 || slots.Count == 1)
            .Select(s => new WeaveColumn(s))
            .Chunk(columns)
            .ToList();
        return [.. cut.Select((c, i) => new WeavePage(c, i + 1, cut.Count))];
    }

    private static List<Row> Rows(Figure figure) =>
        [.. figure.Walk.Rows.Skip(figure.From).Take(figure.To - figure.From + 1)];

    private static List<WeaveSlot> All(IEnumerable<Row> rows) => [.. rows.Select(WeaveSlot.Of)];

    /// <summary>Of cycles in a row that do the same the first and the last stand, and between them how many there are.</summary>
    private static List<WeaveSlot> Alike(Figure figure, List<Row> rows)
    {
        var provenance = Provenance.Of(figure.Walk);
        var slots = new List<WeaveSlot>();
        for (var from = 0; from < rows.Count; )
        {
            var to = from;
            while (
                to + 1 < rows.Count
                && IsAlike(provenance[rows[from].Cycle], provenance[rows[to + 1].Cycle], rows, from, to + 1)
            )
            {
                to++;
            }
            if (to - from + 1 < FewestAlike)
            {
                slots.AddRange(All(rows[from..(to + 1)]));
            }
            else
            {
                slots.Add(WeaveSlot.Of(rows[from]));
                slots.Add(new WeaveSlot(null, rows[from + 1].Cycle, rows[to - 1].Cycle));
                slots.Add(WeaveSlot.Of(rows[to]));
            }
            from = to + 1;
        }
        return slots;
    }

    /// <summary>Whether every bit of two cycles comes out of the same thing, and the same is kept and dropped.</summary>
    private static bool IsAlike(ProvenanceRow one, ProvenanceRow other, List<Row> rows, int first, int second) =>
        rows[first].Step == rows[second].Step
        && one.Sources.Zip(other.Sources).All(r => r.First.SequenceEqual(r.Second))
        && one.Landings.SequenceEqual(other.Landings)
        && one.Dropped.SequenceEqual(other.Dropped);
}
