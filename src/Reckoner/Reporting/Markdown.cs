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

    public static string Of(Document document) => Written.Text(text => Write(text, document));

    public static void Write(TextWriter text, Document document)
    {
        text.Write($"# {Escaped(document.Title)}\n");
        if (document.Subtitle is { } subtitle)
        {
            text.Write($"\n{Line(subtitle)}\n");
        }
        foreach (var lead in document.Leads)
        {
            text.Write($"\n{Inline(lead)}\n");
        }
        foreach (var block in document.Blocks)
        {
            text.Write('\n');
            foreach (var piece in block.Match(Of, Of, Of, Of))
            {
                text.Write(piece);
            }
        }
    }

    private static IEnumerable<string> Of(Paragraph paragraph) => [Inline(paragraph.Text) + "\n"];

    private static IEnumerable<string> Of(Items items) => items.Each.Select(i => $"- {Inline(i)}\n");

    private static IEnumerable<string> Of(Pairs pairs) =>
        pairs
            .Rows.Select(r => $"{(r.IsPart ? "  " : "")}- {Inline(r.Name)}: {Inline(r.SaidTogether)}\n")
            .Prepend(pairs.Caption is { } said ? $"{Inline(said)}\n\n" : "");

    private static IEnumerable<string> Of(Grid grid)
    {
        yield return $"**{Escaped(grid.Caption)}**\n\n";
        // Cells are made twice, once to be measured, so that they need not all be kept.
        IEnumerable<string[]> Rows() =>
            Marks
                .Seen(grid)
                .Select(r => r.Select(Cell).ToArray())
                .Prepend([.. grid.Columns.Select(c => Escaped(Marks.Head(c)))]);
        var widths = new int[grid.Columns.Count];
        foreach (var row in Rows())
        {
            for (var i = 0; i < widths.Length; i++)
            {
                widths[i] = grid.Columns[i].Role == ColumnRole.Sentences ? 3 : Math.Max(widths[i], row[i].Length);
            }
        }
        var rule = $"| {string.Join(" | ", widths.Select(w => new string('-', Math.Max(3, w))))} |\n";
        foreach (var row in Rows())
        {
            yield return $"| {string.Join(" | ", row.Select((c, j) => c.PadRight(widths[j])))} |\n{rule}";
            rule = "";
        }
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
