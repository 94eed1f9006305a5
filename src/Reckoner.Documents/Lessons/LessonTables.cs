using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Documents.Lessons;

/// <summary>All walks of a lesson as one document of tables.</summary>
internal static class LessonTables
{
    public static string Latex(AnsweredLesson lesson)
    {
        var walks = lesson.Blocks.SelectMany(b => b.Answers).OfType<WalkAnswer>().ToList();
        var blocks = walks.SelectMany(w =>
            w.Document.Blocks.Prepend(new Tables.Paragraph(Content.Phrase(WalkSteps.Caption(w.Walk, lesson.Words))))
        );
        return Reporting.Latex.Of(
            new Document("walk", lesson.Words.Language, lesson.Lesson.Title, null, [.. blocks])
            {
                Paper = walks.FirstOrDefault()?.Document.Paper,
            }
        );
    }
}
