using Reckoner.Documents.Lessons;
using Reckoner.Reporting;
using Reckoner.Slips;

namespace Reckoner.Cli;

internal static class SlipsVerb
{
    public static int Run(Session session, Request request)
    {
        if (Ask(session, request) is not { } study)
        {
            return Exit.Wrong;
        }
        var text = request.IsJson
            ? SlipJson.Of(study, session.Words)
            : DocumentText.Of(SlipsDocument.Of(study, session.Words), session.Columns);
        return session.Write(request, text);
    }

    public static RequestAnswer? Answer(LessonAsking asked) =>
        Ask(asked.Session, asked.Request) is { } study
            ? new ReportAnswer([SlipsDocument.Of(study, asked.Session.Words)])
            : null;

    /// <summary>Null when something is wrong; it has been said.</summary>
    private static SlipStudy? Ask(Session session, Request request) =>
        session.Asked(request, Asking.Slips(request)?.Ask(session.Means));
}
