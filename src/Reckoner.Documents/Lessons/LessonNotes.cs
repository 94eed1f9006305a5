using System.Text;
using Reckoner.Numbers;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Documents.Lessons;

/// <summary>What to say at the board: for each walk its cycles with the registers before and after, and the reasons.</summary>
internal static class LessonNotes
{
    public static string Of(AnsweredLesson lesson)
    {
        var words = lesson.Words;
        var text = new StringBuilder();
        text.Append($"# {Escaped(words.Say("lesson.notes-title", ("title", lesson.Lesson.Title)))}\n\n");
        text.Append($"{Escaped(words.Say("lesson.notes-how"))}\n");
        var walks = lesson
            .Blocks.SelectMany(b => b.Answers)
            .Select(a => (Walk: (a as WalkAnswer)?.Walk ?? (a as FigureAnswer)?.Walk, (a as WalkAnswer)?.Grid))
            .Where(a => a.Walk is not null)
            .DistinctBy(a =>
                (a.Walk!.Datapath.Machine.Hash, WidthText.Of(a.Walk.Datapath.Widths), WalkSteps.Operands(a.Walk, words))
            );
        foreach (var (walk, grid) in walks.Select(a => (a.Walk!, a.Grid)))
        {
            text.Append($"\n## {Escaped(WalkSteps.Caption(walk, words))}\n\n");
            foreach (var said in IsTerse(grid) ? Cells(grid!, words) : walk.Rows.Select(r => Said(r, walk, words)))
            {
                text.Append($"- {Escaped(said)}\n");
            }
            text.Append($"- {Escaped(words.Say("lesson.results"))} {Escaped(WalkBlocks.ResultsSaid(walk, words))}\n");
        }
        return text.ToString();
    }

    /// <summary>A house style that shows no reasons and not the registers either is followed here too.</summary>
    private static bool IsTerse(Tables.Grid? grid) =>
        grid is not null && grid.Columns.All(c => c.Role != ColumnRole.Sentences);

    /// <summary>Each row by the names of its columns.</summary>
    private static IEnumerable<string> Cells(Tables.Grid grid, Vocabulary words) =>
        grid.Rows.Select(row =>
        {
            var said = row
                .Cells.Select(
                    (cell, i) =>
                        (
                            Name: grid.Columns[i].Full ?? grid.Columns[i].Name,
                            Text: string.Join("; ", cell.Lines),
                            grid.Columns[i].Role
                        )
                )
                .Where(c => c.Role != ColumnRole.Label && c.Text.Length > 0)
                .Select(c => $"{c.Name} = {c.Text}");
            var all = string.Join(words.Say("walk.between-effects"), said);
            return row.Cycle is 0 or null
                ? words.Say("lesson.notes-load", ("registers", all))
                : words.Say("lesson.in-cycle", ("cycle", row.Cycle.Value), ("sentence", all));
        });

    private static string Said(Row row, Walk walk, Vocabulary words)
    {
        var registers = string.Join(
            words.Say("walk.between-effects"),
            walk.Datapath.Registers.Zip(WalkSteps.Digits(row, walk.Datapath), (r, digits) => $"{r.Name} = {digits}")
        );
        return row.Cycle == 0
            ? words.Say("lesson.notes-load", ("registers", registers))
            : words.Say(
                "lesson.notes-cycle",
                ("cycle", row.Cycle),
                ("sentence", WalkSteps.Reasons(row, walk, HouseStyle.None with { Reasons = ReasonForm.Full }, words)),
                ("registers", registers)
            );
    }

    /// <summary>Signs that Markdown would take for marks.</summary>
    private static string Escaped(string text)
    {
        var escaped = new StringBuilder();
        foreach (var c in text)
        {
            if ("\\`*_[]<>#|~".Contains(c, StringComparison.Ordinal))
            {
                escaped.Append('\\');
            }
            escaped.Append(c);
        }
        return escaped.ToString();
    }
}
