using Reckoner.Reporting;

namespace Reckoner.Cli;

internal static class WalkVerb
{
    public static int Run(Session session, Request request)
    {
        var (walk, status) = RequestedWalk.Of(session, request);
        if (walk is null)
        {
            return status;
        }
        var text = request.IsJson
            ? WalkJson.Of(walk, session.Words)
            : WalkText.Of(walk, session.Words, session.Columns);
        return session.Write(request, text, walk.Holds ? Exit.Done : Exit.DoesNotHold);
    }
}
