using System.Text;
using System.Text.RegularExpressions;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>A document as Markdown with pipe tables, as GitHub describes them (GitHub Flavored Markdown Spec, 4.10).</summary>
internal static partial class Markdown
{
    /// <summary>Signs that mean something in Markdown; between two $ GitHub sets a formula, and &amp; begins a named letter.</summary>
    private const string Special = "\\`*_[]<>#|~$&";

    /// <summary>Signs that make a list or a rule where a line begins with them.</summary>
    private const string SpecialFirst = "-+=";

    public static string Of(Document document)
    {
        var text = new StringBuilder($"# {Escaped(document.Title)}\n");
        if (document.Subtitle is { } subtitle)
        {
            text.Append('\n').Append(Line(subtitle)).Append('\n');
        }
        foreach (var lead in document.Leads)
        {
            text.Append('\n').Append(Inline(lead)).Append('\n');
        }
        foreach (var block in document.Blocks)
        {
            text.Append('\n');
            text.Append(
                block.Match(
                    paragraph => Inline(paragraph.Text) + "\n",
                    Of,
                    items => string.Concat(items.Each.Select(i => $"- {Inline(i)}\n")),
                    grid => $"**{Escaped(grid.Caption)}**\n\n{Table(grid)}"
                )
            );
        }
        return text.ToString();
    }

    private static string Of(Pairs pairs)
    {
        var rows = pairs.Rows.Select(r => $"{(r.IsPart ? "  " : "")}- {Inline(r.Name)}: {Inline(r.SaidTogether)}\n");
        return (pairs.Caption is { } said ? $"{Inline(said)}\n\n" : "") + string.Concat(rows);
    }

    private static string Table(Grid grid)
    {
        var text = new StringBuilder();
        List<string[]> rows =
        [
            [.. grid.Columns.Select(c => Escaped(Marks.Head(c)))],
            .. Marks.Seen(grid).Select(r => r.Select(Cell).ToArray()),
        ];
        var widths = grid
            .Columns.Select((c, i) => c.Role == ColumnRole.Sentences ? 3 : rows.Max(r => r[i].Length))
            .ToList();
        for (var i = 0; i < rows.Count; i++)
        {
            text.Append("| ").AppendJoin(" | ", rows[i].Select((c, j) => c.PadRight(widths[j]))).Append(" |\n");
            if (i == 0)
            {
                text.Append("| ").AppendJoin(" | ", widths.Select(w => new string('-', Math.Max(3, w)))).Append(" |\n");
            }
        }
        return text.ToString();
    }

    private static string Cell(Cell cell) => string.Join("<br>", cell.Lines.Select(Inline));

    private static string Inline(Content content) =>
        string.Concat(
            content.Runs.Select(r =>
                r.Kind switch
                {
                    RunKind.Text or RunKind.Phrase or RunKind.Number => Escaped(r.Text),
                    RunKind.Formula or RunKind.Digits or RunKind.Marks => Code(r.Text),
                }
            )
        );

    /// <summary>Inside a table even code must not show a bare bar.</summary>
    private static string Code(string text) =>
        text.Contains('`', StringComparison.Ordinal) || text.Length == 0
            ? Escaped(text)
            : $"`{text.Replace("|", "\\|", StringComparison.Ordinal)}`";

    /// <summary>A text that a line begins with.</summary>
    private static string Line(string text) =>
        text.Length > 0 && SpecialFirst.Contains(text[0], StringComparison.Ordinal) ? $"\\{Escaped(text)}"
        : Numbered().Match(text) is { Success: true } number ? $"{number.Value}\\{Escaped(text[number.Length..])}"
        : Escaped(text);

    private static string Escaped(string text) =>
        string.Concat(text.Select(c => Special.Contains(c, StringComparison.Ordinal) ? $"\\{c}" : $"{c}"));

    /// <summary>The number of an item of a list, without the sign behind it.</summary>
    [GeneratedRegex(@"^\d{1,9}(?=[.)])")]
    private static partial Regex Numbered();
}
