using Reckoner.Diagnostics;
using Reckoner.Documents.Lessons;
using Reckoner.Styles;
using Reckoner.Words;

namespace Reckoner.Cli;

/// <summary>The house style that a lesson names at its top; no other is looked for, so that a lesson comes out alike everywhere.</summary>
internal static class LessonStyle
{
    /// <summary>None where none is named; null with what is wrong said. Sets the session's language where nobody else does.</summary>
    public static HouseStyle? Of(Session session, Request request, Lesson lesson, string folder)
    {
        if (lesson.Header.Style is not { } file)
        {
            return HouseStyle.None;
        }
        var report = new Report(lesson.Source);
        if (
            !RequestDefaults.Of(lesson.Header, folder).IsInside(file, report)
            || MachineFiles.ReadNamed(Path.Combine(folder, file.Text), file, report) is not { } text
        )
        {
            session.Refuse(report.InOrder());
            return null;
        }
        var (style, found) = StyleReader.Read(new Source(Path.GetFileName(file.Text), text));
        if (style is null)
        {
            session.Refuse(found);
            return null;
        }
        if (style.Language is { } language && lesson.Header.Language is null && request[Option.Language] is null)
        {
            session.Words = Vocabulary.Of(language)!;
        }
        return style;
    }
}
