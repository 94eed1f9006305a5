using Reckoner.Numbers;

namespace Reckoner.Choosing;

/// <summary>The fewest columns of a table that together meet every row: the minimum set cover.</summary>
/// <param name="Columns">They meet every row; the lowest that do in this number, one by one, in rising order.</param>
/// <param name="AtLeast">No fewer can. Where the effort sufficed it is the number of columns.</param>
internal sealed record SmallestCover(IReadOnlyList<int> Columns, int AtLeast)
{
    /// <param name="rows">For each row the columns that meet it, as bits; none is empty.</param>
    /// <param name="effort">Comparisons of sets for making the table smaller, and again for the search.</param>
    public static SmallestCover Of(IReadOnlyList<ulong[]> rows, long effort)
    {
        if (rows.Count == 0)
        {
            return new SmallestCover([], 0);
        }
        var table = ReducedTable.Of(rows, new Effort(effort));
        var search = new CoverSearch(table, new Effort(effort));
        var found = search.Found.Select(place => table.Columns[place]);
        return new SmallestCover(Lowest(rows, found), search.AtLeast);
    }

    /// <summary>Each column exchanged for the lowest that meets what it alone meets, and left out where that is nothing.</summary>
    private static List<int> Lowest(IReadOnlyList<ulong[]> rows, IEnumerable<int> columns)
    {
        var chosen = columns.OrderDescending().ToList();
        foreach (var column in chosen.ToList())
        {
            chosen.Remove(column);
            var alone = rows.Where(row => !chosen.Exists(other => BitSets.Has(row, other))).ToList();
            if (alone.Count > 0)
            {
                chosen.Add(Common(alone));
            }
        }
        return [.. chosen.Order()];
    }

    private static int Common(List<ulong[]> rows)
    {
        var common = rows[0].ToArray();
        foreach (var row in rows)
        {
            for (var i = 0; i < common.Length; i++)
            {
                common[i] &= row[i];
            }
        }
        return BitSets.Items(common).First();
    }
}
