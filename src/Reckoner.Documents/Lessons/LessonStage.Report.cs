using Reckoner.Drawing;

namespace Reckoner.Documents.Lessons;

internal sealed partial class LessonStage
{
    /// <summary>
    /// What is asked is seen first. The answer comes part by part: a table or list with the sentences above it is one, and what is
    /// said below the last belongs to that.
    /// </summary>
    private void Write(ReportAnswer answer)
    {
        Line("<div class=\"answer report\">");
        foreach (var document in answer.Documents)
        {
            Line($"<p class=\"asked\">{Escaped(AnswerBlocks.Subject(document))}</p>");
            var parts = new List<List<Block>>();
            var next = new List<Block>();
            if (document.Leads.Count > 0)
            {
                next.Add(AnswerBlocks.Said(document));
            }
            foreach (var block in AnswerBlocks.Parts(answer, document, Edition.Full))
            {
                next.Add(block);
                if (block is Grid or Listing)
                {
                    parts.Add(next);
                    next = [];
                }
            }
            if (parts.Count == 0)
            {
                parts.Add(next);
            }
            else
            {
                parts[^1].AddRange(next);
            }
            foreach (var part in parts)
            {
                step++;
                Line($"<div class=\"part\" data-cycle=\"{step}\">");
                Write(part);
                Line("</div>");
            }
        }
        if (answer.Verbatim is { } text)
        {
            Line($"<pre><code>{Escaped(text)}</code></pre>");
        }
        Line("</div>");
    }

    private void Write(IEnumerable<Block> blocks)
    {
        foreach (var block in blocks)
        {
            var write = block.Match<Action>(
                heading: InNoReport,
                paragraph: p => () => Line($"<p>{Runs(p.Runs)}</p>"),
                listing: l => () => Write(l),
                verbatim: InNoReport,
                grid: g => () => Write(g),
                picture: InNoReport,
                photograph: InNoReport,
                display: InNoReport,
                pageEnd: InNoReport,
                room: InNoReport
            );
            write();
        }
    }

    private static Action InNoReport(Block block) => throw new InvalidOperationException($"{block.Kind} in a report");

    private void Write(Listing listing)
    {
        Line("<ul>");
        foreach (var item in listing.Items)
        {
            Line($"<li>{Runs(item)}</li>");
        }
        Line("</ul>");
    }

    private static string Runs(IEnumerable<Run> runs) =>
        string.Concat(
            runs.Select(r =>
                r.Face switch
                {
                    Face.Plain => Escaped(r.Words),
                    Face.Bold => $"<b>{Escaped(r.Words)}</b>",
                    Face.Mono => $"<code>{Escaped(r.Words)}</code>",
                }
            )
        );

    private void Write(Grid grid)
    {
        html.Append(Wide(grid.Caption ?? words.Say("lesson.table")));
        Line("<table>");
        if (grid.Caption is { } caption)
        {
            Line($"<caption>{Escaped(caption)}</caption>");
        }
        Line(
            $"<thead><tr>{string.Concat(grid.Head.Select(h => $"<th scope=\"col\">{Escaped(h)}</th>"))}</tr></thead>\n<tbody>"
        );
        foreach (var row in grid.Rows)
        {
            var cells = row.Skip(1).Select((c, i) => $"<td>{Runs([new Run(c, grid.FaceOf(i + 1))])}</td>");
            Line($"<tr><th scope=\"row\">{Escaped(row[0])}</th>{string.Concat(cells)}</tr>");
        }
        Line("</tbody>\n</table>\n</div>");
    }
}
