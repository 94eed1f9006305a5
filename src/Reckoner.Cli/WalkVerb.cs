using Reckoner.Binding;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Reporting;
using Reckoner.Running;

namespace Reckoner.Cli;

internal static class WalkVerb
{
    public static int Run(Session session, Request request)
    {
        var (datapath, status) = MachineFiles.Bind(session, request, remarks: true);
        if (datapath is null)
        {
            return status;
        }
        if (OperandReader.Read(datapath, request.Operands, request.Whole, request.Report) is not { } operands)
        {
            return session.Refuse(request);
        }
        if (!request.Has(Option.Anyway) && new ClaimJudge(datapath).NotGiven(operands) is { } given)
        {
            var place = Span.Covering(request.Operands[0].Span, request.Operands[^1].Span);
            var spoken = datapath.Operands.Zip(
                operands,
                (o, bits) => $"{o.Name} = {Datapaths.Evaluator.Number(o, bits)}"
            );
            request.Report.Add(
                Id.OperandsOutsideGiven,
                place,
                ("machine", datapath.Machine.Name),
                ("given", Printer.Text(given)),
                ("operands", string.Join(", ", spoken))
            );
            return session.Refuse(request);
        }
        var walk = Walk.Of(datapath, operands);
        var text = request.IsJson
            ? WalkJson.Of(walk, session.Words)
            : WalkText.Of(walk, session.Words, session.Columns);
        return session.Write(request, text, walk.Holds ? Exit.Done : Exit.DoesNotHold);
    }
}
