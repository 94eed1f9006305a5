using Reckoner.Reporting;

namespace Reckoner.Cli;

internal static class StatesVerb
{
    public static int Run(Session session, Request request)
    {
        if (StyleFile.Of(session, request) is not { } style)
        {
            return Exit.Wrong;
        }
        if (session.Asked(request, Asking.States(request)?.Ask()) is not { } states)
        {
            return Exit.Wrong;
        }
        return request.IsJson
            ? session.Write(request, StatesJson.Of(states))
            : session.Write(request, StatesDocument.Of(states, style, session.Words), Exit.Done);
    }
}
