using Reckoner.Documents.Lessons;
using Reckoner.Reporting;
using Reckoner.Structure;

namespace Reckoner.Cli;

internal static class StatesVerb
{
    public static int Run(Session session, Request request)
    {
        if (StyleFile.Of(session, request) is not { } style)
        {
            return Exit.Wrong;
        }
        if (Ask(session, request) is not { } states)
        {
            return Exit.Wrong;
        }
        return request.IsJson
            ? session.Write(request, StatesJson.Of(states))
            : session.Write(request, StatesDocument.Of(states, style, session.Words), Exit.Done);
    }

    public static RequestAnswer? Answer(LessonAsking asked) =>
        Ask(asked.Session, asked.Request) is { } states
            ? new ReportAnswer([StatesDocument.Of(states, asked.Style, asked.Session.Words)])
            : null;

    private static ControlStates? Ask(Session session, Request request) =>
        session.Asked(request, Asking.States(request)?.Ask());
}
