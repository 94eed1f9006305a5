using Reckoner.Documents.Lessons;
using Reckoner.Reporting;
using Reckoner.Sheets;
using Reckoner.Styles;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Documents.Packs;

/// <summary>A lesson as it is read in another form.</summary>
internal static class LessonForms
{
    /// <param name="style">Of the tables that stand in the place of figures.</param>
    public static AnsweredLesson Of(AnsweredLesson lesson, SheetForm form, HouseStyle style) =>
        form switch
        {
            SheetForm.Usual or SheetForm.Large => lesson with { Form = form },
            SheetForm.Read => lesson with
            {
                Form = form,
                Blocks =
                [
                    .. lesson.Blocks.Select(b =>
                        b with
                        {
                            Answers = [.. b.Answers.Select(a => Read(a, lesson, style))],
                        }
                    ),
                ],
            },
        };

    /// <summary>In the place of a figure the table of its walk, or what the figure is said to show.</summary>
    private static RequestAnswer Read(RequestAnswer answer, AnsweredLesson lesson, HouseStyle style) =>
        answer.Match(
            walk: a => a,
            figure: a =>
                a.Walk is { } walk
                && WalkDocument.Of(walk, style, lesson.Words, oneByOne: false).Document is { } document
                    ? new WalkAnswer(walk, document)
                    : (RequestAnswer)Told(a, lesson),
            report: a => a,
            pageEnd: a => a,
            room: a => a
        );

    private static ReportAnswer Told(FigureAnswer figure, AnsweredLesson lesson) =>
        new([
            new Document(
                figure.View.Name,
                lesson.Words.Language,
                figure.Caption(lesson.Words),
                null,
                [
                    .. figure
                        .Scenes(isBlank: false)
                        .Select(s => new Tables.Paragraph(Content.Text($"{s.Title}. {s.Description}"))),
                ]
            ),
        ]);
}
