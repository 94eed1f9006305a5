using Reckoner.Numbers;

namespace Reckoner.Choosing;

/// <summary>
/// A table for <see cref="SmallestCover"/> made smaller without changing how few columns meet its rows: of equal columns the first
/// stays; a column goes that meets no more than another does; a row goes that is met whenever another is. These are the classic
/// reductions of the covering problem. When the effort is spent, what is left stays.
/// </summary>
/// <param name="Columns">Those that are left, by their number in the whole table.</param>
/// <param name="Sets">For each of them the rows that it meets.</param>
/// <param name="Rows">For each row that is left the places of the columns that meet it.</param>
internal sealed record ReducedTable(
    IReadOnlyList<int> Columns,
    IReadOnlyList<ulong[]> Sets,
    IReadOnlyList<ulong[]> Rows
)
{
    public static ReducedTable Of(IReadOnlyList<ulong[]> table, Effort effort)
    {
        var rows = Needed(table, effort);
        var columns = Different(rows);
        var sets = columns.ConvertAll(_ => BitSets.Of(rows.Count));
        for (var row = 0; row < rows.Count; row++)
        {
            for (var place = 0; place < columns.Count; place++)
            {
                if (BitSets.Has(rows[row], columns[place]))
                {
                    BitSets.Add(sets[place], row);
                }
            }
        }
        while (true)
        {
            var kept = Useful(sets, effort);
            columns = kept.ConvertAll(place => columns[place]);
            var needed = Needed(BitSets.Turned(kept.ConvertAll(place => sets[place]), rows.Count), effort);
            var isSame = kept.Count == sets.Count && needed.Count == rows.Count;
            rows = needed;
            sets = BitSets.Turned(rows, columns.Count);
            if (isSame)
            {
                return new ReducedTable(columns, sets, rows);
            }
        }
    }

    /// <summary>Rows with few columns first; one that holds all columns of another is met with it.</summary>
    private static List<ulong[]> Needed(IReadOnlyList<ulong[]> rows, Effort effort)
    {
        var kept = new List<ulong[]>();
        foreach (var row in rows.OrderBy(BitSets.Count))
        {
            if (effort.IsSpent || !kept.Exists(other => BitSets.IsWithin(other, row)))
            {
                kept.Add(row);
            }
            effort.Spend(kept.Count);
        }
        return kept;
    }

    /// <summary>The first of the columns that meet the same rows, for each such class: row by row the classes are split.</summary>
    private static List<int> Different(List<ulong[]> rows)
    {
        var classes = new int[64 * rows[0].Length];
        var count = 1;
        foreach (var row in rows)
        {
            var numbers = new int[2 * count];
            count = 0;
            for (var column = 0; column < classes.Length; column++)
            {
                ref var number = ref numbers[2 * classes[column] + (BitSets.Has(row, column) ? 1 : 0)];
                number = number == 0 ? ++count : number;
                classes[column] = number - 1;
            }
        }
        var first = new List<int>();
        for (var column = 0; column < classes.Length; column++)
        {
            // Numbers are given from the lowest column up.
            if (classes[column] == first.Count)
            {
                first.Add(column);
            }
        }
        return first;
    }

    /// <summary>The places of the columns that meet something which no other of them meets as well.</summary>
    private static List<int> Useful(List<ulong[]> sets, Effort effort)
    {
        var kept = new List<int>();
        foreach (var place in Enumerable.Range(0, sets.Count).OrderByDescending(p => BitSets.Count(sets[p])))
        {
            var set = sets[place];
            if (effort.IsSpent ? !BitSets.IsEmpty(set) : !kept.Exists(k => BitSets.IsWithin(set, sets[k])))
            {
                kept.Add(place);
            }
            effort.Spend(kept.Count);
        }
        return kept;
    }
}
