using System.Globalization;
using Reckoner.Explaining;

namespace Reckoner.Documents.Marking;

/// <summary>The lines of a question on a sheet, with the places that are found in them.</summary>
internal sealed class SheetLines(IReadOnlyList<IReadOnlyList<string>> lines, AnsweredQuestion answer)
{
    private readonly string question = answer.Number.ToString(CultureInfo.InvariantCulture);
    private readonly Dictionary<string, string> found = [];
    private readonly List<UnreadCell> unread = [];

    /// <summary>Heads of tables and lines of fields.</summary>
    private readonly HashSet<int> used = [];

    /// <summary>Lines of tables.</summary>
    private readonly HashSet<int> tabled = [];

    public int Question => answer.Number;

    public IReadOnlyDictionary<string, string> Found => found;

    /// <summary>Lines with digits of which nobody can say which row they are.</summary>
    public IReadOnlyList<UnreadCell> Unread => unread;

    /// <summary>Whether every table and every place is there, be something written into it or not.</summary>
    public bool IsWhole { get; private set; } = true;

    /// <summary>Whether both read the same line as theirs.</summary>
    public bool Shares(SheetLines other) => ReferenceEquals(lines, other.AllLines) && used.Overlaps(other.used);

    private IReadOnlyList<IReadOnlyList<string>> AllLines => lines;

    public void Read()
    {
        var at = 0;
        foreach (var table in answer.Tables)
        {
            at = Read(table, at);
        }
        foreach (var field in answer.Fields)
        {
            IsWhole &= IsRead(field, isFirstOnly: true) || IsRead(field, isFirstOnly: false);
        }
    }

    private static string Plain(string cell) => cell.Trim().TrimStart('\'').TrimEnd('~', ' ', '=', ':').Trim();

    private static bool IsSame(string cell, string said) =>
        string.Equals(Plain(cell), Plain(said), StringComparison.OrdinalIgnoreCase);

    /// <summary>For those that read a table alone, heads of versions are followed by the name of the machine: "A: divide-restoring".</summary>
    private static bool IsHead(string cell, string column) =>
        IsSame(cell, column) || cell.Trim().StartsWith($"{column}: ", StringComparison.OrdinalIgnoreCase);

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
            if (Columns(table, lines[head]) is { Count: > 0 } columns && asked.TrueForAll(columns.ContainsKey))
            {
                used.Add(head);
                var end = Rows(table, columns, asked, head + 1);
                tabled.UnionWith(Enumerable.Range(head, end - head));
                return end;
            }
        }
        IsWhole = false;
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
                if (!taken.Contains(c) && line[c].Length > 0 && IsHead(line[c], table.Columns[i]))
                {
                    columns[i] = c;
                    taken.Add(c);
                    break;
                }
            }
        }
        return columns;
    }

    private int Rows(AnsweredTable table, Dictionary<int, int> columns, IReadOnlyList<int> asked, int line)
    {
        var labels = new RowLabels(table);
        var extra = 0;
        for (; line < lines.Count; line++)
        {
            var cells = lines[line];
            if (IsBlank(cells))
            {
                if (labels.AreAllBehind)
                {
                    break;
                }
                continue;
            }
            if (IsField(cells) || answer.Tables.Any(t => t != table && Columns(t, cells).Count == t.Columns.Count))
            {
                break;
            }
            var label = columns.TryGetValue(0, out var first) ? Cell(cells, first) : "";
            var hasDigits = HasDigits(columns, asked, cells);
            switch (labels.Standing(label, hasDigits || columns.Values.Any(c => Cell(cells, c).Length > 0)))
            {
                case LineStanding.Row:
                    foreach (var (column, place) in table.Rows[labels.Row].Open)
                    {
                        if (columns.TryGetValue(column, out var at))
                        {
                            Put(place, Cell(cells, at));
                        }
                    }
                    break;
                case LineStanding.Below when !hasDigits:
                    return line;
                case LineStanding.Below:
                    foreach (var (column, at) in columns)
                    {
                        Put(FilledSheet.Extra(question, table, extra, column), Cell(cells, at));
                    }
                    extra++;
                    break;
                case LineStanding.Unknown when hasDigits:
                    unread.Add(new UnreadCell(0, label, string.Join(' ', cells.Where(c => c.Length > 0))));
                    break;
                case LineStanding.Unknown:
                    break;
            }
        }
        return line;
    }

    private static string Cell(IReadOnlyList<string> cells, int at) => at < cells.Count ? cells[at].Trim() : "";

    private static bool HasDigits(
        Dictionary<int, int> columns,
        IReadOnlyList<int> asked,
        IReadOnlyList<string> cells
    ) =>
        asked.Any(c =>
            Cell(cells, columns[c]) is { Length: > 0 } cell
            && cell.All(d => char.IsAsciiHexDigit(d) || d is ' ' or 'x' or 'b' or 'O' or 'l' or '_')
        );

    private bool IsField(IReadOnlyList<string> cells) =>
        cells.FirstOrDefault(c => c.Trim().Length > 0) is { } first && IsLabel(first);

    private bool IsLabel(string cell) =>
        answer.Fields.Any(f => IsSame(cell, f.Label) || Behind(cell, f.Label) is not null);

    /// <summary>"4" of "quotient = 4"; null where it is not said so.</summary>
    private static string? Behind(string cell, string label) =>
        cell.IndexOf('=', StringComparison.Ordinal) is var equals and > 0 && IsSame(cell[..equals], label)
            ? cell[(equals + 1)..].Trim()
            : null;

    /// <summary>"quotient", and in the next cell what was written; or both in one, with an equals sign between.</summary>
    /// <param name="isFirstOnly">Whether only the first cell of each line is looked at.</param>
    private bool IsRead(AnsweredField field, bool isFirstOnly)
    {
        for (var line = 0; line < lines.Count; line++)
        {
            if (tabled.Contains(line))
            {
                continue;
            }
            List<string> cells = [.. lines[line].Where(c => Plain(c).Length > 0)];
            for (var i = 0; i < (isFirstOnly ? Math.Min(1, cells.Count) : cells.Count); i++)
            {
                var written =
                    Behind(cells[i], field.Label) is { Length: > 0 } behind ? behind
                    : !IsSame(cells[i], field.Label) ? null
                    : i + 1 < cells.Count && !IsLabel(cells[i + 1]) ? cells[i + 1]
                    : "";
                if (written is not null)
                {
                    used.Add(line);
                    Put($"{question}.{field.Name}", written);
                    return true;
                }
            }
        }
        return false;
    }
}
