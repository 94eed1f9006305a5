using Reckoner.Marking;

namespace Reckoner.Documents.Marking;

/// <summary>Judges a table that is no walk by what belongs into its cells; each row counts.</summary>
internal static class CellsJudge
{
    public static (MarkedCells Cells, Credit Credit) Of(AnsweredTable table, FilledSheet filled)
    {
        var (typed, wrong) = (new List<IReadOnlyList<string>>(), new List<IReadOnlySet<int>>());
        var (most, lost) = (0, 0);
        foreach (var row in table.Rows)
        {
            List<string> cells =
            [
                .. row.Cells.Select((c, i) => row.Open.TryGetValue(i, out var place) ? filled[place] : c),
            ];
            var off = row
                .Open.Keys.Where(i => !table.Reasons.Contains(table.Columns[i]) && !IsSame(cells[i], row.Cells[i]))
                .ToHashSet();
            var isAsked = row.Open.Keys.Any(i => !table.Reasons.Contains(table.Columns[i]));
            most += isAsked ? 1 : 0;
            lost += off.Count > 0 ? 1 : 0;
            typed.Add(cells);
            wrong.Add(off);
        }
        return (new MarkedCells(table, typed, wrong), new Credit(most, lost));
    }

    /// <summary>Blanks, zeros in front of digits, and O and l for digits are no difference.</summary>
    private static bool IsSame(string typed, string expected) => Bare(typed) == Bare(expected);

    private static string Bare(string cell)
    {
        var text = FieldJudge.Plain(cell).Replace("_", "", StringComparison.Ordinal).ToUpperInvariant();
        var isDigits = text.Length > 0 && text.All(c => char.IsAsciiDigit(c) || c is 'O' or 'L' or 'I' or 'B');
        if (!isDigits)
        {
            return text;
        }
        text = text.Replace('O', '0').Replace('L', '1').Replace('I', '1');
        text = text.StartsWith("0B", StringComparison.Ordinal) ? text[2..] : text;
        return text.TrimStart('0') is { Length: > 0 } digits ? digits : "0";
    }
}
