using Reckoner.Reporting;

namespace Reckoner.Cli;

internal static class WalkVerb
{
    public static int Run(Session session, Request request)
    {
        if (StyleFile.Of(session, request) is not { } house)
        {
            return Exit.Wrong;
        }
        if (Asking.Styled(request, house) is not { } style)
        {
            return session.Refuse(request);
        }
        if (session.Asked(request, Asking.Walk(request)?.Ask()) is not { } walk)
        {
            return Exit.Wrong;
        }
        var done = walk.Holds ? Exit.Done : Exit.DoesNotHold;
        if (request.IsJson)
        {
            return session.Write(request, stream => WalkJson.Write(stream, walk, session.Words), done);
        }
        var format = TableFormat.Of(request);
        if (style.Source is null && format.Name == "text")
        {
            return session.Write(request, WalkText.Of(walk, session.Words, session.Columns, style.Reasons), done);
        }
        var (document, found) = WalkDocument.Of(walk, style, session.Words, oneByOne: format.Name == "prose");
        return document is null ? session.Refuse(found) : session.Write(request, document, done);
    }
}
