using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Markdig.Syntax;
using Reckoner.Numbers;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Documents.Lessons;

/// <summary>
/// What to say at the board, in the order of the lesson and under its headings: what its text asks, for each walk its cycles with the
/// reasons and what is new in them, and a slip to show.
/// </summary>
internal sealed partial class LessonNotes
{
    private readonly AnsweredLesson lesson;
    private readonly Vocabulary words;
    private readonly StringBuilder text = new();
    private readonly HashSet<(string Machine, string Widths, string Operands)> told = [];

    private LessonNotes(AnsweredLesson lesson)
    {
        this.lesson = lesson;
        words = lesson.Words;
    }

    public static string Of(AnsweredLesson lesson)
    {
        var notes = new LessonNotes(lesson);
        notes.text.Append($"# {Escaped(notes.words.Say("lesson.notes-title", ("title", lesson.Lesson.Title)))}\n\n");
        notes.text.Append($"{Escaped(notes.words.Say("lesson.notes-how"))}\n");
        foreach (var block in lesson.Lesson.Body)
        {
            notes.Tell(block);
        }
        return notes.text.ToString();
    }

    private void Tell(Markdig.Syntax.Block block)
    {
        switch (block)
        {
            // The lesson's title is that of the notes already.
            case HeadingBlock { Level: 1 } h when PlainWords.Of(h.Inline) == lesson.Lesson.Title:
                break;
            case HeadingBlock h:
                text.Append(
                    CultureInfo.InvariantCulture,
                    $"\n{new string('#', h.Level)} {Escaped(PlainWords.Of(h.Inline))}\n\n"
                );
                break;
            case FencedCodeBlock f when lesson.BlockOf(f) is { } answered:
                foreach (var answer in answered.Answers)
                {
                    Tell(answer);
                }
                break;
            case FencedCodeBlock f when lesson.QuestionOf(f) is { } question:
                Item(
                    words.Say(
                        "lesson.notes-ask",
                        ("question", $"{QuestionBlocks.Head(question, words)}: {question.Prompt}")
                    )
                );
                break;
            case LeafBlock leaf when leaf.Inline is not null:
                foreach (var asked in Sentence().Matches(PlainWords.Of(leaf.Inline)).Select(m => m.Value.Trim()))
                {
                    if (asked.EndsWith('?'))
                    {
                        Item(words.Say("lesson.notes-ask", ("question", asked)));
                    }
                }
                break;
            case ContainerBlock c:
                foreach (var inner in c)
                {
                    Tell(inner);
                }
                break;
        }
    }

    private void Item(string said) => text.Append($"- {Escaped(said)}\n");

    private void Tell(RequestAnswer answer)
    {
        var tell = answer.Match<Action>(
            walk: a => () => Tell(a.Walk, a.Grid),
            figure: a => () => Tell(a.Walk, null),
            report: a =>
                () =>
                    a
                        .Documents.ToList()
                        .ForEach(d => Item($"{AnswerBlocks.Subject(d)}. {string.Join(' ', d.Leads)}".TrimEnd())),
            pageEnd: _ => () => { },
            room: _ => () => { }
        );
        tell();
    }

    /// <summary>A walk that was told before is not told again.</summary>
    private void Tell(Walk? walk, Tables.Grid? grid)
    {
        if (
            walk is null
            || !told.Add(
                (walk.Datapath.Machine.Hash, WidthText.Of(walk.Datapath.Widths), WalkSteps.Operands(walk, words))
            )
        )
        {
            return;
        }
        text.Append($"\n**{Escaped(WalkSteps.Caption(walk, words))}**\n\n");
        if (IsTerse(grid))
        {
            Cells(grid!, words).ToList().ForEach(Item);
        }
        else
        {
            Tell(walk.Rows, walk);
        }
        Item($"{words.Say("lesson.results")} {WalkBlocks.ResultsSaid(walk, words)}");
        if (ShownSlip.Of(walk) is { } slip)
        {
            Item(
                words.Say(
                    "lesson.notes-slip",
                    ("slip", slip.Name),
                    ("cycle", slip.Cycle),
                    ("results", WalkBlocks.ResultsSaid(slip.Walk, words))
                )
            );
        }
    }

    /// <summary>A cycle whose reasons are worded as those of none before, numbers aside, says so.</summary>
    private void Tell(IReadOnlyList<Row> rows, Walk walk)
    {
        var kinds = new HashSet<string>();
        foreach (var row in rows)
        {
            var isNew =
                row.Cycle > 0 && kinds.Add(Digits().Replace(WalkSteps.Reasons(row, walk, HouseStyle.None, words), ""));
            Item(Said(row, walk, words) + (isNew && row.Cycle > 1 ? " " + words.Say("lesson.notes-new") : ""));
        }
    }

    /// <summary>Up to and with the sign that ends it; a sign within a number or a name ends nothing.</summary>
    [GeneratedRegex(@".+?(?:[.?!]+(?=\s|$)|$)", RegexOptions.Singleline)]
    private static partial Regex Sentence();

    [GeneratedRegex("[0-9]+")]
    private static partial Regex Digits();

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
