using System.Globalization;
using Reckoner.Sheets;
using Reckoner.Words;

namespace Reckoner.Documents.Lessons;

/// <summary>A question on paper, to be filled in or filled in.</summary>
internal static class QuestionBlocks
{
    /// <summary>"Question 2 (6 marks)".</summary>
    public static string Head(AskedQuestion asked, Vocabulary words) =>
        Head(asked.Question.Number, asked.Question.Terms.Marks, words);

    public static string Head(int number, decimal? marks, Vocabulary words) =>
        marks is { } most
            ? words.Say("question.head-marks", ("number", number), ("marks", Spoken(most, words)))
            : words.Say("question.head", ("number", number));

    /// <summary>"1 mark", "2.5 marks".</summary>
    public static string Spoken(decimal marks, Vocabulary words) =>
        words.Say(
            marks == 1 ? "question.one-mark" : "question.marks",
            ("marks", words.Decimal(marks.ToString("0.##", CultureInfo.InvariantCulture)))
        );

    /// <param name="pictures">A figure on this paper.</param>
    public static IEnumerable<Block> Of(
        AskedQuestion asked,
        AnsweredLesson lesson,
        Edition edition,
        Func<FigureAnswer, IEnumerable<Block>> pictures
    )
    {
        yield return new Heading(3, Head(asked, lesson.Words)) { IsLedTo = true };
        yield return Paragraph.Of(asked.Prompt) with
        {
            IsAbove = true,
        };
        foreach (var block in asked.Works.SelectMany(w => Of(w, lesson.Form, edition, pictures)))
        {
            yield return block;
        }
    }

    private static IEnumerable<Block> Of(
        Work work,
        SheetForm form,
        Edition edition,
        Func<FigureAnswer, IEnumerable<Block>> pictures
    ) =>
        work.Match<IEnumerable<Block>>(
            table: w => Of(w, form, edition),
            fields: w => [Of(w, edition)],
            figure: w => pictures(w.Figure),
            text: w => [new Verbatim(w.Lines) { IsAbove = w.IsRule }],
            options: w =>
                [
                    new Listing([.. w.Options.Select(o => (IReadOnlyList<Run>)[new Run(o)])], IsNumbered: true)
                    {
                        Labels = [.. w.Options.Select((_, i) => OptionsWork.Letter(i))],
                    },
                ],
            lines: w => [new Room(w.Lines)]
        );

    private static IEnumerable<Block> Of(TableWork work, SheetForm form, Edition edition)
    {
        yield return WalkBlocks.Table(work, form, edition);
        foreach (var sign in work.Signs)
        {
            yield return Paragraph.Of(sign) with
            {
                IsBelow = true,
            };
        }
    }

    /// <summary>Places beside each other, with what belongs there on the key.</summary>
    private static Paragraph Of(FieldsWork work, Edition edition)
    {
        var runs = new List<Run>();
        if (work.Lead.Length > 0)
        {
            runs.Add(new Run(work.Lead + " "));
        }
        for (var i = 0; i < work.Fields.Count; i++)
        {
            var field = work.Fields[i];
            runs.Add(new Run($"{(i > 0 ? "   " : "")}{field.Label} = "));
            runs.Add(WalkBlocks.Place(field.Expected, edition, field.Room));
        }
        return new Paragraph(runs) { IsBelow = true };
    }
}
