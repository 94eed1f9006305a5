using System.Text;
using Reckoner.Numbers;
using Reckoner.Running;
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
            .Select(a => a is WalkAnswer w ? w.Walk : (a as FigureAnswer)?.Walk)
            .OfType<Walk>()
            .DistinctBy(w => (w.Datapath.Machine.Hash, WidthText.Of(w.Datapath.Widths), WalkSteps.Operands(w)));
        foreach (var walk in walks)
        {
            text.Append($"\n## {Escaped(WalkSteps.Caption(walk, words))}\n\n");
            foreach (var row in walk.Rows)
            {
                text.Append($"- {Escaped(Said(row, walk, words))}\n");
            }
            text.Append($"- {Escaped(words.Say("lesson.results"))} {Escaped(WalkBlocks.ResultsSaid(walk, words))}\n");
        }
        return text.ToString();
    }

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
                ("sentence", WalkSteps.Reasons(row, words)),
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
