using System.Globalization;
using System.Text;
using Reckoner.Documents.Lessons;
using Reckoner.Words;

namespace Reckoner.Documents.Marking;

/// <summary>A page of marks, line by line, that needs no network and no script.</summary>
internal sealed class MarkPage(Vocabulary words)
{
    private readonly StringBuilder html = new();

    public static string Escaped(string text) => LessonPage.Escaped(text);

    public void Line(string markup) => html.Append(markup).Append('\n');

    public void Say(string tag, string text) => Line($"<{tag}>{Escaped(text)}</{tag}>");

    public void Quiet(string text) => Line($"<p class=\"quiet\">{Escaped(text)}</p>");

    /// <summary>A heading with what stands at the end of its line.</summary>
    public void Head(string text, string end) =>
        Line($"<h2><span>{Escaped(text)}</span> <span>{Escaped(end)}</span></h2>");

    public void Items(IEnumerable<string> items)
    {
        List<string> all = [.. items];
        if (all.Count > 0)
        {
            Line($"<ul>{string.Concat(all.Select(i => $"<li>{Escaped(i)}</li>"))}</ul>");
        }
    }

    /// <summary>A table of texts under heads; bars where they are numbers to be compared.</summary>
    public void Table(string caption, IReadOnlyList<string> heads, IEnumerable<IReadOnlyList<string>> rows)
    {
        Line($"<div class=\"wide\"><table>\n<caption>{Escaped(caption)}</caption>");
        Line(
            $"<thead><tr>{string.Concat(heads.Select(h => $"<th scope=\"col\">{Escaped(h)}</th>"))}</tr></thead>\n<tbody>"
        );
        foreach (var row in rows)
        {
            Line($"<tr>{string.Concat(row.Select(c => $"<td>{Escaped(c)}</td>"))}</tr>");
        }
        Line("</tbody>\n</table></div>");
    }

    /// <summary>How often each of some things came; the longest bar is the most frequent.</summary>
    public void Bars(string caption, string head, string count, IReadOnlyList<(string What, int Count)> bars)
    {
        var most = bars.Max(b => b.Count);
        Line($"<div class=\"wide\"><table>\n<caption>{Escaped(caption)}</caption>");
        Line(
            $"<thead><tr><th scope=\"col\">{Escaped(head)}</th><th scope=\"col\">{Escaped(count)}</th></tr></thead>\n<tbody>"
        );
        foreach (var (what, number) in bars)
        {
            var wide = (16.0 * number / most).ToString("0.##", CultureInfo.InvariantCulture);
            var bar = number == 0 ? "" : $"<span class=\"bar\" style=\"width:{wide}rem\"></span>";
            Line(
                $"<tr><th scope=\"row\">{Escaped(what)}</th><td>{bar}{number.ToString(CultureInfo.InvariantCulture)}</td></tr>"
            );
        }
        Line("</tbody>\n</table></div>");
    }

    /// <summary>The whole page.</summary>
    public string Whole(string title) =>
        $"<!DOCTYPE html>\n<html lang=\"{words.Language}\">\n<head>\n<meta charset=\"utf-8\">\n"
        + "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
        + $"<title>{Escaped(title)}</title>\n<style>\n{LessonPage.Resource("marking.css")}</style>\n</head>\n<body>\n<main>\n"
        + html
        + "</main>\n</body>\n</html>\n";
}
