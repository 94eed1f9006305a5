using System.Text;

namespace Reckoner.Sheets;

/// <param name="Line">On which it begins, from 1.</param>
/// <param name="Cells">Without the blanks around them.</param>
internal sealed record ListRow(int Line, IReadOnlyList<string> Cells);

/// <summary>
/// Values between separators (RFC 4180, also with semicolons or tabs): the sign that stands most often in the first line separates.
/// What stands in quotes may hold separators, ends of lines and quotes that are doubled.
/// </summary>
internal static class ListRows
{
    private static readonly char[] Separators = [',', ';', '\t'];

    /// <summary>What some spreadsheets write above a list to say what separates it.</summary>
    private const string Declared = "sep=";

    /// <param name="open">The line on which a quote begins that nothing closes; null for none.</param>
    public static IReadOnlyList<ListRow> Of(string text, out int? open) => Of(text, Separator(text), out open);

    /// <param name="separator">What separates, where the text does not say so itself.</param>
    public static IReadOnlyList<ListRow> Of(string text, char separator, out int? open)
    {
        var (start, line) = (0, 1);
        if (text.StartsWith(Declared, StringComparison.OrdinalIgnoreCase))
        {
            start = text.IndexOf('\n', StringComparison.Ordinal) is var end and >= 0 ? end + 1 : text.Length;
            line = 2;
            separator =
                text.Length > Declared.Length && text[Declared.Length] is not ('\n' or '\r')
                    ? text[Declared.Length]
                    : separator;
        }
        var rows = new List<ListRow>();
        var cells = new List<string>();
        var cell = new StringBuilder();
        var (begun, isQuoted, quoted) = (line, false, line);
        var hasText = false;
        for (var i = start; i < text.Length; i++)
        {
            var sign = text[i];
            line += sign == '\n' ? 1 : 0;
            if (isQuoted)
            {
                hasText = true;
                if (sign != '"')
                {
                    cell.Append(sign);
                }
                else if (i + 1 < text.Length && text[i + 1] == '"')
                {
                    cell.Append(text[++i]);
                }
                else
                {
                    isQuoted = false;
                }
            }
            else if (sign == '"' && !hasText)
            {
                cell.Clear();
                (isQuoted, quoted) = (true, line);
            }
            else if (sign == separator || sign == '\n')
            {
                End();
                if (sign == '\n')
                {
                    rows.Add(new ListRow(begun, [.. cells]));
                    cells.Clear();
                    begun = line;
                }
            }
            else
            {
                cell.Append(sign);
                hasText |= !char.IsWhiteSpace(sign);
            }
        }
        End();
        rows.Add(new ListRow(begun, [.. cells]));
        open = isQuoted ? quoted : null;
        return rows;

        void End()
        {
            cells.Add(string.Join(' ', cell.ToString().Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)));
            cell.Clear();
            hasText = false;
        }
    }

    private static char Separator(string text)
    {
        var first = text.Split('\n').FirstOrDefault(l => l.Trim().Length > 0) ?? "";
        return Separators.MaxBy(s => first.Count(c => c == s));
    }
}
