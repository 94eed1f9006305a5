namespace Reckoner.Documents.HandedIn;

/// <summary>Gathers the cells of a worksheet, as far as anybody fills one in.</summary>
internal sealed class CellGrid
{
    /// <summary>More lines, columns and cells are no sheet of ours; lines with nothing in them do not count.</summary>
    private const int MostCells = 100_000;
    public const int MostColumns = 400;
    public const int MostLetters = 5_000;

    private readonly List<IReadOnlyList<string>> rows = [];
    private readonly List<string> row = [];
    private int cells;

    /// <param name="column">From 0.</param>
    public void Put(int column, string text)
    {
        if (text.Length == 0 || column >= MostColumns)
        {
            return;
        }
        if (++cells > MostCells || text.Length > MostLetters)
        {
            throw new TooMuchException();
        }
        while (row.Count < column)
        {
            row.Add("");
        }
        row.Add(text);
    }

    /// <summary>Of several blank lines one is kept.</summary>
    public void EndRow() => EndRow(1);

    /// <param name="times">So many rows are alike.</param>
    public void EndRow(int times)
    {
        if (row.Count > 0)
        {
            cells += (times - 1) * row.Count(c => c.Length > 0);
            if (times > MostCells || cells > MostCells)
            {
                throw new TooMuchException();
            }
            rows.AddRange(Enumerable.Repeat<IReadOnlyList<string>>([.. row], times));
        }
        else if (rows is [.., { Count: > 0 }])
        {
            rows.Add([]);
        }
        row.Clear();
    }

    public IReadOnlyList<IReadOnlyList<string>> Rows => rows;
}
