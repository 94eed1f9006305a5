using Reckoner.Classroom;
using Reckoner.Datapaths;

namespace Reckoner.Explaining;

/// <summary>What was taken for granted when a table was read.</summary>
internal enum TableAssumption
{
    /// <summary>No column has a register's name, so they stand in the order of the text.</summary>
    ColumnsInOrder,

    /// <summary>The row of the load is missing and was not asked for.</summary>
    NoLoad,

    /// <summary>Zeros in front were left out.</summary>
    ZerosInFront,

    /// <summary>An O or an l was read as a digit.</summary>
    LettersAsDigits,

    /// <summary>Of rows in half steps the last of each cycle was read.</summary>
    HalfSteps,
}

/// <summary>A cell that cannot be read; it is never guessed.</summary>
/// <param name="Row">Counted from 1 as rows stand in the table.</param>
internal sealed record UnreadCell(int Row, string Column, string Text);

/// <summary>A table as somebody handed it in.</summary>
/// <param name="Rows">The load, then a row for each cycle; in each a word for every register by its index.</param>
internal sealed record HandTable(
    IReadOnlyList<IReadOnlyList<HandWord>> Rows,
    IReadOnlyList<UnreadCell> Unread,
    IReadOnlyList<TableAssumption> Assumed
)
{
    /// <summary>
    /// Reads what spreadsheets write (cells parted by commas, semicolons or tabs) and what was pasted as text (by two blanks or
    /// more). A head names registers, by their names or as they are spoken; other columns are passed over.
    /// </summary>
    public static HandTable Of(Datapath datapath, string text) => Of(datapath, CellsText.Of(text));

    /// <param name="lines">The cells of each line.</param>
    public static HandTable Of(Datapath datapath, IReadOnlyList<IReadOnlyList<string>> lines)
    {
        var assumed = new HashSet<TableAssumption>();
        var head = lines.ToList().FindIndex(l => l.Any(c => Named(datapath, c) is not null));
        var columns =
            head >= 0
                ? [.. lines[head].Select(c => Named(datapath, c))]
                : InOrder(datapath, lines.FirstOrDefault(IsRow), assumed);
        var unread = new List<UnreadCell>();
        var rows = Body(lines.Skip(head + 1), assumed);
        var read = rows.Select((r, i) => Words(datapath, columns, r, i + 1, unread, assumed)).ToList();
        if (read.Count > 0 && rows[0][0].Trim() == "1" && columns is [null, ..])
        {
            assumed.Add(TableAssumption.NoLoad);
            read.Insert(0, [.. datapath.Registers.Select(_ => HandWord.Blank)]);
        }
        return new HandTable(read, unread, [.. assumed.Order()]);
    }

    private static Register? Named(Datapath datapath, string cell)
    {
        var name = cell.Trim();
        return datapath.Registers.FirstOrDefault(r => r.Name == name)
            ?? datapath.Registers.FirstOrDefault(r =>
                string.Equals(r.Name, name, StringComparison.OrdinalIgnoreCase)
                || r.Phrase is { } phrase && (phrase.In("en") == name || phrase.In("de") == name)
            );
    }

    /// <summary>As many columns as registers, one before them for the cycle where there is one more.</summary>
    private static Register?[] InOrder(
        Datapath datapath,
        IReadOnlyList<string>? first,
        HashSet<TableAssumption> assumed
    )
    {
        assumed.Add(TableAssumption.ColumnsInOrder);
        var cells = first?.Count ?? 0;
        return cells > datapath.Registers.Count ? [null, .. datapath.Registers] : [.. datapath.Registers];
    }

    /// <summary>
    /// The lines from the first row to the last, without those that are blank; of half steps the last of each cycle. A line among
    /// them that is no row is not passed over in silence: its cells cannot be read.
    /// </summary>
    private static List<IReadOnlyList<string>> Body(
        IEnumerable<IReadOnlyList<string>> lines,
        HashSet<TableAssumption> assumed
    )
    {
        var rows = lines.SkipWhile(l => !IsRow(l)).Where(l => !IsBlank(l)).ToList();
        rows.RemoveRange(rows.FindLastIndex(IsRow) + 1, rows.Count - rows.FindLastIndex(IsRow) - 1);
        for (var i = rows.Count - 1; i > 0; i--)
        {
            if (HalfStep(rows[i]) is { } cycle && HalfStep(rows[i - 1]) == cycle)
            {
                rows.RemoveAt(i - 1);
                assumed.Add(TableAssumption.HalfSteps);
            }
        }
        return rows;
    }

    /// <summary>The cycle of a row that is called 3.1 or 3.2.</summary>
    private static string? HalfStep(IReadOnlyList<string> row)
    {
        var parts = row[0].Trim().Split('.');
        return parts.Length == 2 && parts.All(p => p.Length > 0 && p.All(char.IsAsciiDigit)) ? parts[0] : null;
    }

    private static bool IsBlank(IReadOnlyList<string> cells) => cells.All(string.IsNullOrWhiteSpace);

    /// <summary>A digit, or a cell with nothing but signs for what is not known.</summary>
    private static bool IsRow(IReadOnlyList<string> cells) =>
        cells.Any(c => c.Any(char.IsAsciiDigit) || (c.Contains('?') && c.All(d => d is '?' or '.' or ' ')));

    private static List<HandWord> Words(
        Datapath datapath,
        IReadOnlyList<Register?> columns,
        IReadOnlyList<string> cells,
        int row,
        List<UnreadCell> unread,
        HashSet<TableAssumption> assumed
    )
    {
        var words = datapath.Registers.Select(_ => HandWord.Blank).ToList();
        if (cells.Count == 1 && columns.Count > 1)
        {
            unread.Add(new UnreadCell(row, "1", cells[0].Trim()));
            return words;
        }
        for (var i = 0; i < Math.Min(columns.Count, cells.Count); i++)
        {
            if (columns[i] is not { } register || words[register.Index] != HandWord.Blank)
            {
                continue;
            }
            if (HandCell.Of(cells[i], register.Width, assumed) is { } word)
            {
                words[register.Index] = word;
            }
            else
            {
                unread.Add(new UnreadCell(row, register.Name, cells[i].Trim()));
            }
        }
        return words;
    }
}
