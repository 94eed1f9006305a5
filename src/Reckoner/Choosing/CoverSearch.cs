using Reckoner.Numbers;

namespace Reckoner.Choosing;

/// <summary>
/// Branch and bound on a reduced table. A first cover takes the column with the most open rows again and again. Then covers of the
/// smallest number that is possible are looked for, then of one more, until one is found or the effort is spent; so each number that
/// was searched in vain is proven too small.
/// </summary>
internal sealed class CoverSearch
{
    private readonly ReducedTable table;
    private readonly Effort effort;

    /// <summary>The rows, those with few columns first.</summary>
    private readonly List<int> byColumns;

    public CoverSearch(ReducedTable table, Effort effort)
    {
        this.table = table;
        this.effort = effort;
        byColumns = [.. Enumerable.Range(0, table.Rows.Count).OrderBy(row => BitSets.Count(table.Rows[row]))];
        var all = BitSets.Of(table.Rows.Count);
        for (var row = 0; row < table.Rows.Count; row++)
        {
            BitSets.Add(all, row);
        }
        Found = Greedy(all);
        for (AtLeast = Apart(all); AtLeast < Found.Count; AtLeast++)
        {
            var chosen = new List<int>();
            var isFound = Searched(all, AtLeast, chosen);
            if (isFound)
            {
                Found = chosen;
            }
            if (isFound || effort.IsSpent)
            {
                return;
            }
        }
    }

    /// <summary>The places of columns that meet every row.</summary>
    public IReadOnlyList<int> Found { get; }

    /// <summary>No fewer do.</summary>
    public int AtLeast { get; }

    private List<int> Greedy(ulong[] open)
    {
        var chosen = new List<int>();
        while (!BitSets.IsEmpty(open))
        {
            var best = table.Sets.Index().MaxBy(s => BitSets.CountCommon(s.Item, open));
            chosen.Add(best.Index);
            open = BitSets.Without(open, best.Item);
        }
        return chosen;
    }

    /// <summary>As many columns are needed as there are open rows no two of which have a column in common.</summary>
    private int Apart(ulong[] open)
    {
        var (count, taken) = (0, BitSets.Of(table.Columns.Count));
        foreach (var row in byColumns)
        {
            if (BitSets.Has(open, row) && !BitSets.Meet(taken, table.Rows[row]))
            {
                count++;
                for (var i = 0; i < taken.Length; i++)
                {
                    taken[i] |= table.Rows[row][i];
                }
            }
        }
        effort.Spend(byColumns.Count);
        return count;
    }

    /// <summary>
    /// Whether so many columns meet the open rows; they are added to those chosen. One of the columns of the open row that has the
    /// fewest must be among them. Not known when the effort is spent.
    /// </summary>
    private bool Searched(ulong[] open, int columns, List<int> chosen)
    {
        if (BitSets.IsEmpty(open))
        {
            return true;
        }
        if (effort.IsSpent || columns == 0 || Apart(open) > columns)
        {
            return false;
        }
        var row = byColumns.Find(r => BitSets.Has(open, r));
        var choices = BitSets
            .Items(table.Rows[row])
            .OrderByDescending(place => BitSets.CountCommon(table.Sets[place], open))
            .ToList();
        effort.Spend(choices.Count);
        foreach (var place in choices)
        {
            chosen.Add(place);
            if (Searched(BitSets.Without(open, table.Sets[place]), columns - 1, chosen))
            {
                return true;
            }
            chosen.RemoveAt(chosen.Count - 1);
        }
        return false;
    }
}
