using Reckoner.Documents.Lessons;
using Reckoner.Questions;
using Reckoner.Reporting;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Cli;

internal static class OperandsVerb
{
    public static int Run(Session session, Request request)
    {
        var question = Asking.Chosen(request);
        if (session.Asked(request, question?.Ask(session.Means)) is not { } found)
        {
            return Exit.Wrong;
        }
        var subject = Subject(found);
        var text = request.IsJson
            ? Json(question!, found, subject, session.Words)
            : DocumentText.Of(Document(question!, found, subject, session.Words), session.Columns);
        return session.Write(request, text, found.Chosen.Count > 0 ? Exit.Done : Exit.DoesNotHold);
    }

    public static RequestAnswer? Answer(LessonAsking asked)
    {
        var question = Asking.Chosen(asked.Request);
        return asked.Session.Asked(asked.Request, question?.Ask(asked.Session.Means)) is { } found
            ? new ReportAnswer([Document(question!, found, Subject(found), asked.Session.Words)])
            : null;
    }

    private static OperandsSubject Subject(OperandsFound found) => new(found.Candidates, found.Condition, found.Seed);

    private static string Json(
        OperandsQuestion question,
        OperandsFound found,
        OperandsSubject subject,
        Vocabulary words
    ) =>
        question.For switch
        {
            ChosenFor.Showing => OperandsJson.Best(subject, found.Chosen, found.Slips, words),
            ChosenFor.EqualDifficulty => OperandsJson.Equal(subject, question.Asked, found.Draw, found.Ways),
            ChosenFor.ExposingAll or ChosenFor.TellingApart => OperandsJson.Fewest(subject, found.Slips!, words),
        };

    private static Document Document(
        OperandsQuestion question,
        OperandsFound found,
        OperandsSubject subject,
        Vocabulary words
    ) =>
        question.For switch
        {
            ChosenFor.Showing => BestDocument.Of(subject, found.Chosen, found.Slips, words),
            ChosenFor.EqualDifficulty => EqualDocument.Of(subject, question.Asked, found.Draw, found.Ways, words),
            ChosenFor.ExposingAll => FewestDocument.Of(subject, found.Slips!, isApart: false, words),
            ChosenFor.TellingApart => FewestDocument.Of(subject, found.Slips!, isApart: true, words),
        };
}
