using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Measuring;
using Reckoner.Reporting;
using Reckoner.Running;

namespace Reckoner.Cli;

internal static class CompareVerb
{
    private const int Fewest = 2;
    private const int Most = 5;

    public static int Run(Session session, Request request)
    {
        if (request.Machines.Count is < Fewest or > Most)
        {
            var place = request.Machines.Count > Most ? request.Machines[Most].Span : request.Whole;
            request.Report.Add(
                Id.MachineCount,
                place,
                ("verb", request.Verb!.Name),
                ("low", Fewest),
                ("high", Most),
                ("found", request.Machines.Count)
            );
            return session.Refuse(request);
        }
        if (StyleFile.Of(session, request) is not { } style)
        {
            return Exit.Wrong;
        }
        var datapaths = new List<Datapath>();
        foreach (var machine in request.Machines)
        {
            var (datapath, status) = MachineFiles.Bind(session, request, remarks: true, machine);
            if (datapath is null)
            {
                return status;
            }
            datapaths.Add(datapath);
        }
        var walks = new List<Walk>();
        foreach (var datapath in request.Operands.Count > 0 ? datapaths : [])
        {
            var (walk, status) = RequestedWalk.Of(session, request, datapath);
            if (walk is null)
            {
                return status;
            }
            walks.Add(walk);
        }
        var document = CompareDocument.Of(Comparison.Of(datapaths), walks, style, session.Words);
        var done = walks.TrueForAll(w => w.Holds) ? Exit.Done : Exit.DoesNotHold;
        return session.Write(request, document, datapaths, done);
    }
}
