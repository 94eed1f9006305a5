using Reckoner.Checking;
using Reckoner.Documents.Lessons;
using Reckoner.Reporting;

namespace Reckoner.Cli;

internal static class IdleVerb
{
    public static int Run(Session session, Request request)
    {
        if (Ask(session, request) is not { } study)
        {
            return Exit.Wrong;
        }
        return request.IsJson
            ? session.Write(request, stream => IdleJson.Write(stream, study))
            : session.Write(request, DocumentText.Of(IdleDocument.Of(study, session.Words), session.Columns));
    }

    public static RequestAnswer? Answer(LessonAsking asked) =>
        Ask(asked.Session, asked.Request) is { } study
            ? new ReportAnswer([IdleDocument.Of(study, asked.Session.Words)])
            : null;

    /// <summary>Null when something is wrong; it has been said.</summary>
    private static IdleStudy? Ask(Session session, Request request) =>
        session.Asked(request, Asking.Idle(request)?.Ask(session.Means));
}
