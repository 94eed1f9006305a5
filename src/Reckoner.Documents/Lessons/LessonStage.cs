using System.Text;
using Reckoner.Drawing;
using Reckoner.Running;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Documents.Lessons;

/// <summary>
/// The answers of one block as HTML. What belongs to a cycle says which, so that a script can hold back what is still to come; what
/// is known only at the end, and what a report answers, has steps of its own behind the last cycle.
/// </summary>
internal sealed partial class LessonStage
{
    /// <summary>More digits than this leave no room for reasons beside them, which then have rows of their own.</summary>
    private const int MostDigitsOnPaper = 48;

    private readonly StringBuilder html = new();
    private readonly AnsweredLesson lesson;
    private readonly IReadOnlyList<RequestAnswer> answers;
    private readonly IReadOnlyList<Walk> walks;
    private readonly Vocabulary words;

    /// <summary>The last step that something was put down for; 0 is what one begins with.</summary>
    private int step;

    private LessonStage(AnsweredLesson lesson, AnsweredBlock block)
    {
        this.lesson = lesson;
        words = lesson.Words;
        answers = [.. block.Answers.Where(IsOnScreen)];
        walks = [.. answers.Select(WalkOf).OfType<Walk>()];
        step = walks.Count == 0 ? 0 : Cycles + 1;
    }

    /// <summary>Empty where the block speaks of paper alone.</summary>
    public static string Html(AnsweredLesson lesson, AnsweredBlock block)
    {
        var stage = new LessonStage(lesson, block);
        return stage.answers.Count == 0 ? "" : stage.Html();
    }

    private static bool IsOnScreen(RequestAnswer answer) =>
        answer.Match(walk: _ => true, figure: _ => true, report: _ => true, pageEnd: _ => false, room: _ => false);

    private static Walk? WalkOf(RequestAnswer answer) =>
        answer.Match(
            walk: a => a.Walk,
            figure: a => a.Walk,
            report: _ => null,
            pageEnd: _ => null,
            room: _ => (Walk?)null
        );

    /// <summary>The longest walk's.</summary>
    private int Cycles => walks.Select(w => w.Cycles).DefaultIfEmpty(0).Max();

    private string Html()
    {
        var body = new List<string>();
        foreach (var answer in answers)
        {
            html.Clear();
            Write(answer);
            body.Add(html.ToString());
        }
        // How many cycles it takes is a result where a loop may stop early.
        var open = walks.Any(w => w.Datapath.MayStopEarly) ? " data-open=\"yes\"" : "";
        return $"<div class=\"stage\" role=\"group\" aria-label=\"{Escaped(Name(answers[0]))}\" data-cycles=\"{Cycles}\" data-steps=\"{step}\"{open}>\n"
            + string.Concat(body)
            + "</div>\n";
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
            report: a => a.Documents.Select(d => d.Title).FirstOrDefault() ?? words.Say("lesson.description"),
            pageEnd: _ => "",
            room: _ => ""
        );

    private void Write(RequestAnswer answer)
    {
        var write = answer.Match<Action>(
            walk: a => () => Write(a),
            figure: a => () => Write(a),
            report: a => () => Write(a),
            pageEnd: _ => () => { },
            room: _ => () => { }
        );
        write();
    }

    // ---- a walk

    private void Write(WalkAnswer answer)
    {
        var (walk, grid) = (answer.Walk, answer.Grid);
        var caption = WalkSteps.Caption(walk, words);
        Line("<div class=\"answer walked\">");
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
            Line($"<p class=\"below\">{Escaped(note.ToString())}</p>");
        }
        Line($"<div data-cycle=\"{Cycles + 1}\" class=\"end\">");
        Line($"<p>{Escaped(words.Say("lesson.results"))} {Escaped(WalkBlocks.ResultsSaid(walk, words))}</p>");
        foreach (var claim in WalkBlocks.Claims(walk, words))
        {
            Line($"<p>{Escaped(claim)}</p>");
        }
        Line("</div>\n</div>");
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
        Line($"<figure class=\"answer\"{(answer.View.HasOwnScreen ? " data-screen=\"own\"" : "")}>");
        foreach (var scene in answer.Scenes(isBlank: false))
        {
            // One of several pages is held back like a row, until its cycle comes.
            var of = scene.Cycle is { } cycle
                ? $"<div class=\"sheet\" data-cycle=\"{cycle}\">"
                : "<div class=\"sheet\">";
            Line(of);
            html.Append(Wide(caption));
            html.Append(SvgWriter.Write(scene, Palette.Light));
            Line("</div>\n</div>");
        }
        Line($"<figcaption>{Escaped(caption)}");
        if (answer.Walk is { } walk && !answers.OfType<WalkAnswer>().Any(w => IsSame(w.Walk, walk)))
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
}
