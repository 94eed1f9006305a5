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
        if (MachineFiles.Bind(session, request, remarks: true) is not { } datapath)
        {
            return Exit.Wrong;
        }
        return request.IsJson
            ? session.Write(request, StatesJson.Of(datapath))
            : session.Write(request, StatesDocument.Of(datapath, style, session.Words), Exit.Done);
    }
}
