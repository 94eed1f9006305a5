using Reckoner.Binding;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Running;

namespace Reckoner.Cli;

/// <summary>The walk that a request's machine, widths and operands ask for.</summary>
internal static class RequestedWalk
{
    /// <summary>Null with the exit status when something is wrong; it has been said.</summary>
    public static (Walk? Walk, int Status) Of(Session session, Request request)
    {
        var (datapath, status) = MachineFiles.Bind(session, request, remarks: true);
        return datapath is null ? (null, status) : Of(session, request, datapath);
    }

    public static (Walk? Walk, int Status) Of(Session session, Request request, Datapath datapath)
    {
        if (OperandReader.Read(datapath, request.Operands, request.Whole, request.Report) is not { } operands)
        {
            return (null, session.Refuse(request));
        }
        if (!request.Has(Option.Anyway) && datapath.NotGiven(operands) is { } given)
        {
            var place = Span.Covering(request.Operands[0].Span, request.Operands[^1].Span);
            var spoken = datapath.Operands.Zip(operands, (o, bits) => $"{o.Name} = {Evaluator.Number(o, bits)}");
            request.Report.Add(
                Id.OperandsOutsideGiven,
                place,
                ("machine", datapath.Machine.Name),
                ("given", given.Text),
                ("operands", string.Join(", ", spoken))
            );
            return (null, session.Refuse(request));
        }
        return (Walk.Of(datapath, operands), Exit.Done);
    }
}
