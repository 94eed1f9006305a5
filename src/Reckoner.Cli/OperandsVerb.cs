using Reckoner.Checking;
using Reckoner.Choosing;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Reporting;

namespace Reckoner.Cli;

internal static class OperandsVerb
{
    private const int DefaultSample = 20_000;
    private const int DefaultBest = 5;

    public static int Run(Session session, Request request)
    {
        var choice = OperandsChoice.Read(request);
        if (choice is null)
        {
            return session.Refuse(request);
        }
        var (datapath, status) = MachineFiles.Bind(session, request, remarks: true);
        if (datapath is null)
        {
            return status;
        }
        var isWide = datapath.Operands.Sum(o => o.Width) > Candidates.MostBits;
        var sample =
            isWide || choice.Sample is not null
                ? Checker.SampleOf(datapath, choice.Sample ?? DefaultSample, choice.Seed)
                : null;
        var all = Candidates.Of(datapath, InterpretedEngine.Widest, sample);
        if (Wanted(all, request) is not { } candidates)
        {
            return session.Refuse(request);
        }
        var report = new OperandsReport(candidates, request[Option.Showing]?.Text, choice.Seed);
        var best = BestFew.Of(candidates, choice.Best ?? DefaultBest);
        var text = request.IsJson ? report.BestJson(best) : report.Best(best, session.Words, session.Columns);
        return session.Write(request, text, best.Count > 0 ? Exit.Done : Exit.DoesNotHold);
    }

    /// <summary>Those that show what is asked for; all where nothing is. What is wrong is marked in the command line.</summary>
    private static Candidates? Wanted(Candidates all, Request request)
    {
        if (request[Option.Showing] is not { } asked)
        {
            return all;
        }
        var found = new Report(null);
        var candidates = all.Showing(asked.Text.ReplaceLineEndings(" "), found);
        foreach (var d in found.InOrder())
        {
            var span = new Span(asked.Span.Start + d.Span.Start, asked.Span.Start + d.Span.End);
            request.Report.Add(d.Id, span, [.. d.Facts]);
        }
        return candidates;
    }
}
