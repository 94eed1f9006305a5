using System.Net;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>
/// A document as a page of HTML. Its one section can be pasted into another page: nothing in it needs the style sheet, since
/// digits are grouped by blanks that do not break and heads say their scope.
/// </summary>
internal static class Html
{
    private const string Style = """
        body { margin: 1.5rem; background: #fff; color: #1a1a1a; font: 1rem/1.45 system-ui, sans-serif; }
        table { border-collapse: collapse; margin: 0 0 1rem; }
        caption { text-align: left; padding: 0 0 .4rem; font-weight: 600; }
        th, td { padding: .2rem .7rem; text-align: left; vertical-align: top; border-bottom: 1px solid #c4c4c4; }
        thead th { border-bottom: 2px solid #1a1a1a; }
        code { font: .95em ui-monospace, monospace; }
        td p { margin: 0; min-width: 18em; }
        dl { display: grid; grid-template-columns: max-content auto; gap: .1rem 1rem; }
        dd { margin: 0; overflow-wrap: anywhere; }
        """;

    public static string Of(Document document) => Written.Text(text => Write(text, document));

    public static void Write(TextWriter text, Document document)
    {
        text.Write("<!DOCTYPE html>\n");
        text.Write($"<html lang=\"{document.Language}\">\n<head>\n<meta charset=\"utf-8\">\n");
        text.Write("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
        text.Write($"<title>{Escaped(document.Title)}</title>\n<style>\n{Style}\n");
        if (document.Paper is { } paper)
        {
            text.Write($"@page {{ size: {PageSize(paper)}; }}\n");
        }
        text.Write("</style>\n</head>\n<body>\n<main>\n<section>\n");
        text.Write($"<h1>{Escaped(document.Title)}</h1>\n");
        WriteBelowTitle(text, document);
        text.Write("</section>\n</main>\n</body>\n</html>\n");
    }

    /// <summary>What stands below the title, for a page that has one of its own.</summary>
    public static string BelowTitle(Document document) => Written.Text(text => WriteBelowTitle(text, document));

    private static void WriteBelowTitle(TextWriter text, Document document)
    {
        if (document.Subtitle is { } subtitle)
        {
            text.Write($"<p>{Escaped(subtitle)}</p>\n");
        }
        foreach (var lead in document.Leads)
        {
            text.Write($"<p>{Inline(lead)}</p>\n");
        }
        foreach (var block in document.Blocks)
        {
            foreach (var piece in block.Match(Of, Of, Of, Of))
            {
                text.Write(piece);
            }
        }
    }

    /// <summary>A slide is as wide to its height as 16 to 9.</summary>
    private static string PageSize(Paper paper) =>
        paper.Size == PaperSize.Slide ? "254mm 142.9mm"
        : paper.IsLandscape ? $"{paper.Size} landscape"
        : $"{paper.Size} portrait";

    private static IEnumerable<string> Of(Paragraph paragraph) => [$"<p>{Inline(paragraph.Text)}</p>\n"];

    private static IEnumerable<string> Of(Items items) =>
        items.Each.Select(i => $"<li>{Inline(i)}</li>\n").Prepend("<ul>\n").Append("</ul>\n");

    private static IEnumerable<string> Of(Pairs pairs) =>
        pairs
            .Rows.Select(r =>
                $"<dt>{Inline(r.Name)}</dt>{string.Concat(r.Said.Select(s => $"<dd>{Inline(s)}</dd>"))}\n"
            )
            .Prepend("<dl>\n")
            .Prepend(pairs.Caption is { } said ? $"<p>{Inline(said)}</p>\n" : "")
            .Append("</dl>\n");

    private static IEnumerable<string> Of(Grid grid)
    {
        var heads = grid.Columns.Select(c => $"<th scope=\"col\">{Escaped(Marks.Head(c))}</th>");
        yield return $"<table>\n<caption>{Escaped(grid.Caption)}</caption>\n<thead>\n<tr>{string.Concat(heads)}</tr>\n</thead>\n<tbody>\n";
        var label = grid.Columns.ToList().FindIndex(c => c.Role == ColumnRole.Label);
        foreach (var row in grid.Rows)
        {
            var cells = Marks
                .Cells(grid, row)
                .Select((cell, i) => i == label ? $"<th scope=\"row\">{Lines(cell)}</th>" : $"<td>{Lines(cell)}</td>");
            yield return $"<tr>{string.Concat(cells)}</tr>\n";
        }
        yield return "</tbody>\n</table>\n";
    }

    private static string Lines(Cell cell) =>
        cell.Lines.Count == 1 ? Inline(cell.Lines[0]) : string.Concat(cell.Lines.Select(l => $"<p>{Inline(l)}</p>"));

    private static string Inline(Content content) =>
        string.Concat(
            content.Runs.Select(r =>
                r.Kind switch
                {
                    RunKind.Text or RunKind.Phrase or RunKind.Number => Escaped(r.Text),
                    RunKind.Formula or RunKind.Marks => $"<code>{Escaped(r.Text)}</code>",
                    RunKind.Digits => $"<code>{Breakable(r.Text)}</code>",
                }
            )
        );

    /// <summary>Groups keep together; digits of more than two words may break behind every sixteenth.</summary>
    private static string Breakable(string digits) =>
        string.Join("&nbsp;", digits.Split(' ').Select(g => string.Join("<wbr>", Wrapping.Folds(g, 16))));

    private static string Escaped(string text) => WebUtility.HtmlEncode(text);
}
