using System.Text;
using System.Text.RegularExpressions;

namespace Reckoner.Explaining;

/// <summary>The cells of a table that comes as text.</summary>
internal static partial class CellsText
{
    private static readonly char[] Between = ['\t', ';', ','];

    /// <summary>
    /// A line for each row. What parts cells is what the line with the most digits has: a tab, a semicolon, a comma; else two blanks
    /// or more.
    /// </summary>
    public static IReadOnlyList<IReadOnlyList<string>> Of(string text)
    {
        var lines = text.TrimStart('\uFEFF').ReplaceLineEndings("\n").Split('\n');
        var row = lines.MaxBy(l => l.Count(c => c is '0' or '1')) ?? "";
        var between = Between.Where(c => row.Contains(c, StringComparison.Ordinal)).ToList();
        return
        [
            .. lines.Select(l =>
                between.Count > 0 ? Parted(l, between[0])
                : l.Trim().Length == 0 ? []
                : (IReadOnlyList<string>)Blanks().Split(l.Trim())
            ),
        ];
    }

    [GeneratedRegex("  +")]
    private static partial Regex Blanks();

    /// <summary>Cells may stand in quotes, with two for each in them.</summary>
    private static List<string> Parted(string line, char between)
    {
        var (cells, cell, isQuoted) = (new List<string>(), new StringBuilder(), false);
        for (var i = 0; i < line.Length; i++)
        {
            var c = line[i];
            if (c == '"' && isQuoted && i + 1 < line.Length && line[i + 1] == '"')
            {
                cell.Append(line[++i]);
            }
            else if (c == '"')
            {
                isQuoted = !isQuoted;
            }
            else if (c == between && !isQuoted)
            {
                cells.Add(cell.ToString());
                cell.Clear();
            }
            else
            {
                cell.Append(c);
            }
        }
        return line.Trim().Length == 0 ? [] : [.. cells, cell.ToString()];
    }
}
