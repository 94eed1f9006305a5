using System.Net;
using System.Text;
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

    public static string Of(Document document)
    {
        var text = new StringBuilder();
        text.Append("<!DOCTYPE html>\n")
            .Append($"<html lang=\"{document.Language}\">\n<head>\n<meta charset=\"utf-8\">\n")
            .Append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n")
            .Append($"<title>{Escaped(document.Title)}</title>\n<style>\n{Style}\n");
        if (document.Paper is { } paper)
        {
            text.Append($"@page {{ size: {PageSize(paper)}; }}\n");
        }
        text.Append("</style>\n</head>\n<body>\n<main>\n<section>\n");
        text.Append($"<h1>{Escaped(document.Title)}</h1>\n");
        if (document.Subtitle is { } subtitle)
        {
            text.Append($"<p>{Escaped(subtitle)}</p>\n");
        }
        foreach (var lead in document.Leads)
        {
            text.Append($"<p>{Inline(lead)}</p>\n");
        }
        foreach (var block in document.Blocks)
        {
            text.Append(
                block.Match(
                    paragraph => $"<p>{Inline(paragraph.Text)}</p>\n",
                    Of,
                    items => $"<ul>\n{string.Concat(items.Each.Select(i => $"<li>{Inline(i)}</li>\n"))}</ul>\n",
                    Of
                )
            );
        }
        return text.Append("</section>\n</main>\n</body>\n</html>\n").ToString();
    }

    /// <summary>A slide is as wide to its height as 16 to 9.</summary>
    private static string PageSize(Paper paper) =>
        paper.Size == "slide" ? "254mm 142.9mm"
        : paper.IsLandscape ? $"{paper.Size} landscape"
        : $"{paper.Size} portrait";

    private static string Of(Pairs pairs)
    {
        var rows = pairs.Rows.Select(r =>
            $"<dt>{Inline(r.Name)}</dt>{string.Concat(r.Said.Select(s => $"<dd>{Inline(s)}</dd>"))}\n"
        );
        var caption = pairs.Caption is { } said ? $"<p>{Inline(said)}</p>\n" : "";
        return $"{caption}<dl>\n{string.Concat(rows)}</dl>\n";
    }

    private static string Of(Grid grid)
    {
        var text = new StringBuilder();
        text.Append($"<table>\n<caption>{Escaped(grid.Caption)}</caption>\n<thead>\n<tr>");
        foreach (var column in grid.Columns)
        {
            text.Append($"<th scope=\"col\">{Escaped(Marks.Head(column))}</th>");
        }
        text.Append("</tr>\n</thead>\n<tbody>\n");
        var label = grid.Columns.ToList().FindIndex(c => c.Role == ColumnRole.Label);
        foreach (var row in grid.Rows)
        {
            text.Append("<tr>");
            foreach (var (cell, i) in Marks.Cells(grid, row).Select((c, i) => (c, i)))
            {
                text.Append(i == label ? $"<th scope=\"row\">{Lines(cell)}</th>" : $"<td>{Lines(cell)}</td>");
            }
            text.Append("</tr>\n");
        }
        return text.Append("</tbody>\n</table>\n").ToString();
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
