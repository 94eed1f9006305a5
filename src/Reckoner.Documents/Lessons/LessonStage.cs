using System.Text;
using Reckoner.Drawing;
using Reckoner.Running;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Documents.Lessons;

/// <summary>The answers of one block as HTML. What belongs to a cycle says which, so that a script can hold back what is still to come.</summary>
internal sealed class LessonStage(AnsweredLesson lesson, AnsweredBlock block)
{
    /// <summary>More digits than this leave no room for reasons beside them, which then have rows of their own.</summary>
    private const int MostDigitsOnPaper = 48;

    private readonly StringBuilder html = new();
    private readonly Vocabulary words = lesson.Words;

    public string Html()
    {
        var label = block.Answers.Select(Name).First();
        Line($"<div class=\"stage\" role=\"group\" aria-label=\"{Escaped(label)}\">");
        foreach (var answer in block.Answers)
        {
            Write(answer);
        }
        Line("</div>");
        return html.ToString();
    }

    /// <summary>A box that scrolls by itself where the page is narrower than what stands in it.</summary>
    public static string Wide(string label) =>
        $"<div class=\"wide\" tabindex=\"0\" role=\"group\" aria-label=\"{Escaped(label)}\">\n";

    private static string Escaped(string text) => LessonPage.Escaped(text);

    private void Line(string text) => html.Append(text).Append('\n');

    private string Name(RequestAnswer answer) =>
        answer.Match(
            walk: a => WalkSteps.Caption(a.Walk, words),
            figure: a => a.Caption(words),
            compare: a => a.Document.Title,
            check: a => a.Reports[0].Result.Datapath.Machine.Name,
            slips: a => a.Study.Datapath.Machine.Name,
            idle: a => a.Study.Datapath.Machine.Name
        );

    private void Write(RequestAnswer answer)
    {
        var write = answer.Match<Action>(
            walk: a => () => Write(a),
            figure: a => () => Write(a),
            compare: a => () => Write(AnswerBlocks.Of(a, Edition.Full)),
            check: a => () => Write(AnswerBlocks.Of(a, words)),
            slips: a => () => Write(AnswerBlocks.Of(a, words)),
            idle: a => () => Write(AnswerBlocks.Of(a, words))
        );
        write();
    }

    // ---- a walk

    private void Write(WalkAnswer answer)
    {
        var (walk, grid) = (answer.Walk, answer.Grid);
        var caption = WalkSteps.Caption(walk, words);
        html.Append(Wide(caption));
        var why = grid.Columns.ToList().FindIndex(c => c.Role == ColumnRole.Sentences);
        var isBroad = Digits(grid) > MostDigitsOnPaper && why >= 0;
        var columns = grid.Columns.Where((_, i) => !isBroad || i != why).ToList();
        // Where a screen is narrow the style sheet has to know how many columns stand above the reasons.
        var form = isBroad
            ? "class=\"broad\""
            : $"class=\"walk\" style=\"--columns:{columns.Count - (why < 0 ? 0 : 1)}\"";
        Line($"<table {form}>\n<caption>{Escaped(caption)}</caption>\n<thead>\n<tr>");
        foreach (var column in columns)
        {
            var said = walk.Datapath.Registers.FirstOrDefault(r => r.Name == column.Name)?.Phrase?.In(words.Language);
            var phrase = said is null ? "" : $" <span>{Escaped(said)}</span>";
            var kind =
                column.Role == ColumnRole.Sentences ? " class=\"why\""
                : WalkBlocks.IsNumber(grid, grid.Columns.ToList().IndexOf(column)) ? " class=\"number\""
                : "";
            Line($"<th scope=\"col\"{kind}>{Escaped(Marks.Head(column))}{phrase}</th>");
        }
        Line("</tr>\n</thead>\n<tbody>");
        foreach (var row in grid.Rows)
        {
            var cells = Cells(grid, row).ToList();
            Line($"<tr data-cycle=\"{row.Cycle}\">{string.Concat(cells.Where((_, i) => !isBroad || i != why))}</tr>");
            if (isBroad && !row.Cells[why].IsEmpty)
            {
                var reason = Escaped(string.Join("; ", Marks.Cells(grid, row).ElementAt(why).Lines));
                Line(
                    $"<tr data-cycle=\"{row.Cycle}\" class=\"reason\"><td colspan=\"{columns.Count}\"><div>{reason}</div></td></tr>"
                );
            }
        }
        Line("</tbody>\n</table>\n</div>");
        foreach (var note in answer.Document.Signs)
        {
            Line($"<p>{Escaped(note.ToString())}</p>");
        }
        Line($"<div data-cycle=\"{walk.Cycles}\" class=\"end\">");
        Line($"<p>{Escaped(words.Say("lesson.results"))} {Escaped(WalkBlocks.ResultsSaid(walk, words))}</p>");
        foreach (var claim in WalkBlocks.Claims(walk, words))
        {
            Line($"<p>{Escaped(claim)}</p>");
        }
        Line("</div>");
    }

    /// <summary>How many digits stand beside each other in a row.</summary>
    private static int Digits(Tables.Grid grid) =>
        grid
            .Rows.Select(row => Marks.Cells(grid, row).Select(c => string.Concat(c.Lines).Length).ToList())
            .Select(lengths => lengths.Where((_, i) => grid.Columns[i].Role == ColumnRole.Digits).Sum())
            .DefaultIfEmpty(0)
            .Max();

    private static IEnumerable<string> Cells(Tables.Grid grid, GridRow row)
    {
        var label = grid.Columns.ToList().FindIndex(c => c.Role == ColumnRole.Label);
        return Marks
            .Cells(grid, row)
            .Select(
                (cell, i) =>
                {
                    var text = Escaped(string.Join("; ", cell.Lines));
                    var column = grid.Columns[i];
                    var number = WalkBlocks.IsNumber(grid, i) ? " class=\"number\"" : "";
                    return i == label ? $"<th scope=\"row\">{text}</th>"
                        : column is { Role: ColumnRole.Digits, OnWires: false }
                            ? $"<td{number} data-register=\"{Escaped(column.Name)}\"><code>{text}</code></td>"
                        : column.Role == ColumnRole.Digits ? $"<td{number}><code>{text}</code></td>"
                        : column.Role == ColumnRole.Sentences ? $"<td class=\"why\">{text}</td>"
                        : $"<td{number}>{text}</td>";
                }
            );
    }

    // ---- figures

    private void Write(FigureAnswer answer)
    {
        var number = lesson.Figures.First(f => ReferenceEquals(f.Figure, answer)).Number;
        var caption = words.Say("lesson.figure", ("number", number), ("what", answer.Caption(words)));
        Line("<figure>");
        foreach (var scene in answer.Scenes(isBlank: false))
        {
            html.Append(Wide(caption));
            html.Append(SvgWriter.Write(scene, Palette.Light));
            Line("</div>");
        }
        Line($"<figcaption>{Escaped(caption)}");
        if (answer.Walk is { } walk && !block.Answers.OfType<WalkAnswer>().Any(w => IsSame(w.Walk, walk)))
        {
            Line("<ul class=\"told\">");
            foreach (var (cycle, sentence) in answer.Told)
            {
                Line($"<li data-cycle=\"{cycle}\">{Escaped(sentence)}</li>");
            }
            Line("</ul>");
        }
        Line("</figcaption>\n</figure>");
    }

    private static bool IsSame(Walk a, Walk b) =>
        a.Datapath.Machine.Hash == b.Datapath.Machine.Hash
        && a.Datapath.Widths.SequenceEqual(b.Datapath.Widths)
        && a.Operands.SequenceEqual(b.Operands);

    // ---- what stands on paper alike

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
                pageEnd: InNoReport
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
