using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Measuring;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Tables;

namespace Reckoner.Cli;

internal static class CompareVerb
{
    private const int Fewest = 2;
    private const int Most = 5;

    public static int Run(Session session, Request request)
    {
        if (StyleFile.Of(session, request) is not { } style || Ask(session, request) is not { } asked)
        {
            return Exit.Wrong;
        }
        var done = asked.Walks.All(w => w.Holds) ? Exit.Done : Exit.DoesNotHold;
        return request.IsJson
            ? session.Write(request, CompareJson.Of(Comparison.Of(asked.Datapaths), asked.Walks), done)
            : session.Write(request, asked.Document(session, style), done);
    }

    /// <param name="Walks">One for each machine, or none.</param>
    public sealed record Asked(IReadOnlyList<Datapath> Datapaths, IReadOnlyList<Walk> Walks)
    {
        public Document Document(Session session, HouseStyle style) =>
            CompareDocument.Of(Comparison.Of(Datapaths), Walks, style, session.Words);
    }

    /// <summary>Null when something is wrong; it has been said.</summary>
    public static Asked? Ask(Session session, Request request)
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
            session.Refuse(request);
            return null;
        }
        var datapaths = new List<Datapath>();
        foreach (var machine in request.Machines)
        {
            if (MachineFiles.Bind(session, request, remarks: true, machine).Datapath is not { } datapath)
            {
                return null;
            }
            datapaths.Add(datapath);
        }
        var walks = new List<Walk>();
        foreach (var datapath in request.Operands.Count > 0 ? datapaths : [])
        {
            if (RequestedWalk.Of(session, request, datapath).Walk is not { } walk)
            {
                return null;
            }
            walks.Add(walk);
        }
        return new Asked(datapaths, walks);
    }
}
