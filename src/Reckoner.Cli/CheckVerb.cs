using Reckoner.Documents.Lessons;
using Reckoner.Engines;
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
        var status = session.Write(request, text, Status(reports));
        return IsTroubled(session, request, reports) ? Exit.Wrong : status;
    }

    /// <summary>Whether what ran it failed, which is said.</summary>
    private static bool IsTroubled(Session session, Request request, CheckReports reports)
    {
        if (reports.Checks[^1].Trouble is not { } trouble)
        {
            return false;
        }
        session.Remark([trouble with { Source = request.Line, Span = request.Whole }]);
        return true;
    }

    /// <summary>
    /// Averages speak of lines of the description, which a lesson does not show: they are told where they are asked for. What was
    /// not covered to its end since what ran it failed is no answer.
    /// </summary>
    public static RequestAnswer? Answer(LessonAsking asked)
    {
        var question = Asking.Check(asked.Request);
        if (question is not null && !asked.Request.Has(Option.Averages))
        {
            question = question with { Averages = AveragesWish.Never };
        }
        return
            Ask(asked.Session, asked.Request, question) is { } reports
            && !IsTroubled(asked.Session, asked.Request, reports)
            ? new ReportAnswer(Documents(asked.Session, reports))
            : null;
    }

    private static IReadOnlyList<Document> Documents(Session session, CheckReports reports) =>
        CheckDocument.Of(reports.Checks, reports.NotBegun, session.Words);

    /// <summary>Null when something is wrong; it has been said.</summary>
    private static CheckReports? Ask(Session session, Request request, CheckQuestion? question) =>
        session.Asked(
            request,
            question is not null && Means(session, request) is { } means
                ? question.Ask(means).GetAwaiter().GetResult()
                : null
        );

    public static readonly string[] Processors = ["cpu", "gpu"];

    /// <summary>Null where what it is to run on is nothing that there is; the report says so.</summary>
    private static Means? Means(Session session, Request request)
    {
        var on = request.Has(Option.On) ? Asking.Chosen(request, Option.On, Processors, p => p) : null;
        if (on == "gpu")
        {
            Plan.Clash(request, Option.On, [Option.Sample]);
        }
        if (request.Report.HasErrors)
        {
            return null;
        }
        var means = session.Means;
        if (on != "cpu")
        {
            means = means with { Runner = new GraphicsRunner(means.Runner, isAsked: on is not null) };
        }
        return request[Option.Resume] is { } file
            ? means with
            {
                Keep = new CheckpointFile(session, request, file).Keep,
            }
            : means;
    }

    private static int Status(CheckReports reports) =>
        !reports.IsComplete ? Exit.Interrupted
        : reports.Holds ? Exit.Done
        : Exit.DoesNotHold;
}
