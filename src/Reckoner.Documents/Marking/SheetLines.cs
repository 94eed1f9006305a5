using System.Globalization;

namespace Reckoner.Documents.Marking;

/// <summary>The lines of a question on a sheet, with the places that are found in them.</summary>
internal sealed class SheetLines(
    IReadOnlyList<IReadOnlyList<string>> lines,
    AnsweredQuestion answer,
    Dictionary<string, string> found
)
{
    private readonly string question = answer.Number.ToString(CultureInfo.InvariantCulture);

    public void Read()
    {
        var at = 0;
        foreach (var table in answer.Tables)
        {
            at = Read(table, at);
        }
        foreach (var field in answer.Fields)
        {
            Read(field);
        }
    }

    private static string Plain(string cell) => cell.Trim().TrimStart('\'').TrimEnd('~', ' ', '=', ':').Trim();

    private static bool IsSame(string cell, string said) =>
        string.Equals(Plain(cell), Plain(said), StringComparison.OrdinalIgnoreCase);

    private static bool IsBlank(IReadOnlyList<string> line) => line.All(string.IsNullOrWhiteSpace);

    private void Put(string place, string text)
    {
        if (text.Trim() is { Length: > 0 } written)
        {
            found[place] = written;
        }
    }

    /// <summary>The line behind it, where the next table is looked for; the same where it is not there.</summary>
    private int Read(AnsweredTable table, int from)
    {
        // Whoever pastes a table leaves out what he likes, but not a column that he filled in.
        List<int> asked =
        [
            .. table.Rows.SelectMany(r => r.Open.Keys).Distinct().Where(i => !table.Reasons.Contains(table.Columns[i])),
        ];
        for (var head = from; head < lines.Count; head++)
        {
            if (Columns(table, lines[head]) is var columns && asked.TrueForAll(columns.ContainsKey))
            {
                return Rows(table, columns, head + 1);
            }
        }
        return from;
    }

    /// <summary>Where the columns of a table stand in a line; of columns of one name in their order.</summary>
    private static Dictionary<int, int> Columns(AnsweredTable table, IReadOnlyList<string> line)
    {
        var (columns, taken) = (new Dictionary<int, int>(), new HashSet<int>());
        for (var i = 0; i < table.Columns.Count; i++)
        {
            for (var c = 0; c < line.Count; c++)
            {
                if (!taken.Contains(c) && line[c].Length > 0 && IsSame(line[c], table.Columns[i]))
                {
                    columns[i] = c;
                    taken.Add(c);
                    break;
                }
            }
        }
        return columns;
    }

    private int Rows(AnsweredTable table, Dictionary<int, int> columns, int line)
    {
        var row = 0;
        for (; line < lines.Count; line++)
        {
            var cells = lines[line];
            if (IsBlank(cells))
            {
                if (row >= table.Rows.Count)
                {
                    break;
                }
                continue;
            }
            if (IsField(cells) || answer.Tables.Any(t => t != table && Columns(t, cells).Count == t.Columns.Count))
            {
                break;
            }
            row = Matching(table, columns, cells, row);
            if (row >= table.Rows.Count)
            {
                if (!HasDigits(table, columns, cells))
                {
                    break;
                }
                foreach (var (column, at) in columns)
                {
                    Put(FilledSheet.Extra(question, table, row - table.Rows.Count, column), Cell(cells, at));
                }
            }
            else
            {
                foreach (var (column, place) in table.Rows[row].Open)
                {
                    if (columns.TryGetValue(column, out var at))
                    {
                        Put(place, Cell(cells, at));
                    }
                }
            }
            row++;
        }
        return line;
    }

    /// <summary>The row of the table that a line is: that of its label where there is one, at this or further down.</summary>
    private static int Matching(AnsweredTable table, Dictionary<int, int> columns, IReadOnlyList<string> cells, int row)
    {
        if (!columns.TryGetValue(0, out var at) || Cell(cells, at) is not { Length: > 0 } label)
        {
            return row;
        }
        for (var r = row; r < table.Rows.Count; r++)
        {
            if (IsSame(label, table.Rows[r].Cells[0]))
            {
                return r;
            }
        }
        return row;
    }

    private static string Cell(IReadOnlyList<string> cells, int at) => at < cells.Count ? cells[at] : "";

    private static bool HasDigits(AnsweredTable table, Dictionary<int, int> columns, IReadOnlyList<string> cells) =>
        columns.Any(c =>
            c.Key > 0
            && !table.Reasons.Contains(table.Columns[c.Key])
            && Cell(cells, c.Value) is { Length: > 0 } cell
            && cell.All(d => char.IsAsciiHexDigit(d) || d is ' ' or 'x' or 'b' or 'O' or 'l' or '_')
        );

    private bool IsField(IReadOnlyList<string> cells) =>
        cells.FirstOrDefault(c => c.Trim().Length > 0) is { } first && answer.Fields.Any(f => IsSame(first, f.Label));

    /// <summary>"quotient", and in the next cell what was written; or both in one, with an equals sign between.</summary>
    private void Read(AnsweredField field)
    {
        foreach (var cells in lines)
        {
            var first = cells.ToList().FindIndex(c => c.Trim().Length > 0);
            if (first < 0)
            {
                continue;
            }
            if (IsSame(cells[first], field.Label))
            {
                Put($"{question}.{field.Name}", cells.Skip(first + 1).FirstOrDefault(c => c.Trim().Length > 0) ?? "");
                return;
            }
            if (
                cells[first].IndexOf('=', StringComparison.Ordinal) is var equals and > 0
                && IsSame(cells[first][..equals], field.Label)
            )
            {
                Put($"{question}.{field.Name}", cells[first][(equals + 1)..]);
                return;
            }
        }
    }
}
