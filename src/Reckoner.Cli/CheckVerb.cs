using Reckoner.Documents.Lessons;
using Reckoner.Questions;
using Reckoner.Reporting;
using Reckoner.Tables;

namespace Reckoner.Cli;

internal static class CheckVerb
{
    public static int Run(Session session, Request request)
    {
        if (request.Has(Option.AddUp))
        {
            return AddUpVerb.Run(session, request);
        }
        if (request.Has(Option.MostParts))
        {
            return MostPartsVerb.Run(session, request);
        }
        if (Ask(session, request, Asking.Check(request)) is not { } reports)
        {
            return Exit.Wrong;
        }
        var text =
            !request.IsJson ? DocumentText.Of(Documents(session, reports), session.Columns)
            : reports.IsRange ? CheckJson.Of(reports.Checks)
            : CheckJson.Of(reports.Checks[0]);
        return session.Write(request, text, Status(reports));
    }

    /// <summary>Averages speak of lines of the description, which a lesson does not show: they are told where they are asked for.</summary>
    public static RequestAnswer? Answer(LessonAsking asked)
    {
        var question = Asking.Check(asked.Request);
        if (question is not null && !asked.Request.Has(Option.Averages))
        {
            question = question with { Averages = AveragesWish.Never };
        }
        return Ask(asked.Session, asked.Request, question) is { } reports
            ? new ReportAnswer(Documents(asked.Session, reports))
            : null;
    }

    private static IReadOnlyList<Document> Documents(Session session, CheckReports reports) =>
        CheckDocument.Of(reports.Checks, reports.NotBegun, session.Words);

    /// <summary>Null when something is wrong; it has been said.</summary>
    private static CheckReports? Ask(Session session, Request request, CheckQuestion? question) =>
        session.Asked(request, question?.Ask(Means(session, request)).GetAwaiter().GetResult(), remarks: false);

    private static Means Means(Session session, Request request) =>
        request[Option.Resume] is { } file
            ? session.Means with
            {
                Keep = new CheckpointFile(session, request, file).Keep,
            }
            : session.Means;

    private static int Status(CheckReports reports) =>
        !reports.IsComplete ? Exit.Interrupted
        : reports.Holds ? Exit.Done
        : Exit.DoesNotHold;
}
