using Reckoner.Checking;
using Reckoner.Reporting;

namespace Reckoner.Cli;

internal static class IdleVerb
{
    /// <summary>
    /// Beyond so many operand bits idle bits are judged by structure: every cycle asks as much as a check for each register bit.
    /// </summary>
    private const int MostCaseBits = 22;

    public static int Run(Session session, Request request)
    {
        var (study, status) = Ask(session, request);
        if (study is null)
        {
            return status;
        }
        var text = request.IsJson
            ? IdleJson.Of(study)
            : DocumentText.Of(IdleDocument.Of(study, session.Words), session.Columns);
        return session.Write(request, text);
    }

    /// <summary>Null with the exit status when something is wrong; it has been said.</summary>
    public static (IdleStudy? Study, int Status) Ask(Session session, Request request)
    {
        var (datapath, status) = MachineFiles.Bind(session, request, remarks: true);
        if (datapath is null)
        {
            return (null, status);
        }
        var byStructure = request.Has(Option.ByStructure) || datapath.Operands.Sum(o => o.Width) > MostCaseBits;
        var overAll = byStructure ? null : Idle.OverAll(datapath, InterpretedEngine.Widest);
        return (overAll ?? IdleByStructure.Of(datapath), Exit.Done);
    }
}
