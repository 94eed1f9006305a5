using Reckoner.Checking;
using Reckoner.Reporting;
using Reckoner.Slips;

namespace Reckoner.Cli;

internal static class SlipsVerb
{
    /// <summary>The sample where operands cannot be exhausted and none is asked for.</summary>
    private const int DefaultSample = 20_000;

    public static int Run(Session session, Request request)
    {
        var (study, status) = Ask(session, request);
        if (study is null)
        {
            return status;
        }
        var text = request.IsJson
            ? SlipJson.Of(study, session.Words)
            : DocumentText.Of(SlipsDocument.Of(study, session.Words), session.Columns);
        return session.Write(request, text);
    }

    /// <summary>Null with the exit status when something is wrong; it has been said.</summary>
    public static (SlipStudy? Study, int Status) Ask(Session session, Request request)
    {
        if (Plan.Read(request) is not { } plan)
        {
            return (null, session.Refuse(request));
        }
        var (datapath, status) = MachineFiles.Bind(session, request, remarks: true);
        if (datapath is null)
        {
            return (null, status);
        }
        if (MachineFiles.IsGivenBeyondGates(request, datapath))
        {
            return (null, session.Refuse(request));
        }
        var isWide = datapath.Operands.Sum(o => o.Width) > SlipStudy.MostBits;
        var (seed, count) = plan.Sample ?? (1, DefaultSample);
        var sample = isWide || plan.Sample is not null ? SlipSample.Of(datapath, count, seed) : null;
        var study = SlipStudy.Of(
            datapath,
            InterpretedEngine.Widest,
            sample,
            withConditions: sample is null && !request.Has(Option.Quick)
        );
        return (study, Exit.Done);
    }
}
