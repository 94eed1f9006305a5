namespace Reckoner.Documents.HandedIn;

/// <summary>Gathers the cells of a worksheet, as far as anybody fills one in.</summary>
internal sealed class CellGrid
{
    /// <summary>More lines, columns and cells are no sheet of ours; lines with nothing in them do not count.</summary>
    private const int MostCells = 100_000;
    private const int MostColumns = 400;
    private const int MostLetters = 5_000;

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
    public void EndRow()
    {
        if (row.Count > 0 || rows is [.., { Count: > 0 }])
        {
            rows.Add([.. row]);
        }
        row.Clear();
    }

    public IReadOnlyList<IReadOnlyList<string>> Rows => rows;
}
