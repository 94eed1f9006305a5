namespace Reckoner.Documents.Marking;

/// <summary>What a line of a table on a sheet is.</summary>
internal enum LineStanding
{
    /// <summary>One of its rows.</summary>
    Row,

    /// <summary>Below all of its rows.</summary>
    Below,

    /// <summary>Something between them: a note, or a row that is none of the sheet's.</summary>
    Unknown,
}

/// <summary>Finds the rows of a table on a sheet by what stands before them, whatever was written between them.</summary>
internal sealed class RowLabels(AnsweredTable table)
{
    private readonly bool[] isTaken = new bool[table.Rows.Count];

    /// <summary>Where the first column was to be filled in, it says nothing of the row.</summary>
    private readonly bool hasLabels = !table.Rows.Any(r => r.Open.ContainsKey(0));

    private int next;

    /// <summary>The row that the last line was.</summary>
    public int Row { get; private set; }

    /// <summary>Whether the last row is passed.</summary>
    public bool AreAllBehind => next >= isTaken.Length;

    /// <summary>A line without a label is the next row.</summary>
    /// <param name="hasCells">Whether something stands in one of its columns.</param>
    public LineStanding Standing(string label, bool hasCells)
    {
        if (!hasLabels || label.Length == 0)
        {
            return !hasCells ? LineStanding.Unknown
                : AreAllBehind ? LineStanding.Below
                : Take(next);
        }
        var rows = Enumerable.Range(0, isTaken.Length).Where(r => IsSame(label, table.Rows[r].Cells[0])).ToList();
        var free = rows.Where(r => !isTaken[r]).OrderBy(r => r < next).ThenBy(r => r).ToList();
        return free.Count > 0 ? Take(free[0])
            : rows.Count == 0 && AreAllBehind ? LineStanding.Below
            : LineStanding.Unknown;
    }

    private LineStanding Take(int row)
    {
        (isTaken[row], Row) = (true, row);
        next = Math.Max(next, row + 1);
        return LineStanding.Row;
    }

    private static bool IsSame(string label, string said) =>
        string.Equals(Bare(label), Bare(said), StringComparison.OrdinalIgnoreCase);

    /// <summary>"cycle 3", "3." and "3)" are 3; zeros in front of a number are lost in spreadsheets.</summary>
    private static string Bare(string label)
    {
        var text = label.Trim().TrimStart('\'').TrimEnd('~', '*', ' ', '=', ':', '.', ')');
        text = text.StartsWith("0b", StringComparison.OrdinalIgnoreCase) ? text[2..] : text;
        var digits = text[(text.LastIndexOf(' ') + 1)..];
        return digits.Length > 0 && digits.All(char.IsAsciiDigit)
            ? digits.TrimStart('0') is { Length: > 0 } number
                ? number
                : "0"
            : text;
    }
}
