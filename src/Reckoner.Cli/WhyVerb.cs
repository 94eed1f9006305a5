using Reckoner.Documents.Lessons;
using Reckoner.Explaining;
using Reckoner.Reporting;

namespace Reckoner.Cli;

/// <summary>why MACHINE OPERANDS: what gives just the results, rows or table that somebody got.</summary>
internal static class WhyVerb
{
    public static int Run(Session session, Request request)
    {
        if (Ask(session, request) is not { } verdict)
        {
            return Exit.Wrong;
        }
        var text = request.IsJson
            ? WhyJson.Of(verdict, session.Words)
            : DocumentText.Of(WhyDocument.Of(verdict, session.Words), session.Columns);
        var isRight = verdict.Kind is VerdictKind.Right or VerdictKind.OtherWay;
        return session.Write(request, text, isRight ? Exit.Done : Exit.DoesNotHold);
    }

    public static RequestAnswer? Answer(LessonAsking asked) =>
        Ask(asked.Session, asked.Request) is { } verdict
            ? new ReportAnswer([WhyDocument.Of(verdict, asked.Session.Words)])
            : null;

    /// <summary>Null when something is wrong; it has been said.</summary>
    private static Verdict? Ask(Session session, Request request) => session.Asked(request, Asking.Why(request)?.Ask());
}
