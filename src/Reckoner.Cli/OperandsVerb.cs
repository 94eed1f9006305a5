using System.Numerics;
using Reckoner.Binding;
using Reckoner.Checking;
using Reckoner.Choosing;
using Reckoner.Datapaths;
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
        if (MachineFiles.IsGivenBeyondGates(request, datapath))
        {
            return session.Refuse(request);
        }
        var all = Candidates.Of(datapath, InterpretedEngine.Widest, Sample(datapath, request, choice));
        return (request[Option.Exposing]?.Text, request.Has(Option.TellingApart)) switch
        {
            (OperandsChoice.All, _) => Fewest(session, request, choice, all, apart: false),
            (_, true) => Fewest(session, request, choice, all, apart: true),
            _ => Shown(session, request, choice, all),
        };
    }

    /// <summary>Null to try all operands.</summary>
    private static IReadOnlyList<BigInteger[]>? Sample(Datapath datapath, Request request, OperandsChoice choice)
    {
        var most = request.Has(Option.TellingApart) ? SlipSets.MostBitsToTellApart : Candidates.MostBits;
        if (choice.Sample is null && datapath.Operands.Sum(o => o.Width) <= most)
        {
            return null;
        }
        // Of corners few make an example for the board.
        var few = OperandCorners.Crossed(datapath);
        return [.. new OperandSample(datapath, choice.Sample ?? DefaultSample, choice.Seed, few).Operands()];
    }

    private static int Fewest(
        Session session,
        Request request,
        OperandsChoice choice,
        Candidates candidates,
        bool apart
    )
    {
        var slips = new SlipSets(candidates);
        var shown = apart ? slips.TellingApart() : slips.ExposingAll();
        var subject = new OperandsSubject(candidates, null, choice.Seed);
        var text = request.IsJson
            ? OperandsJson.Fewest(subject, shown, session.Words)
            : DocumentText.Of(FewestDocument.Of(subject, shown, apart, session.Words), session.Columns);
        return session.Write(request, text, shown.Chosen.Count > 0 ? Exit.Done : Exit.DoesNotHold);
    }

    /// <summary>The best few that show something, or some of equal difficulty among them.</summary>
    private static int Shown(Session session, Request request, OperandsChoice choice, Candidates all)
    {
        var slips = request.Has(Option.Exposing) ? new SlipSets(all) : null;
        var condition = slips is null ? request[Option.Showing]?.Text : Exposing(request, slips);
        if (request.Report.HasErrors || Wanted(all, request, condition) is not { } candidates)
        {
            return session.Refuse(request);
        }
        var subject = new OperandsSubject(candidates, condition, choice.Seed);
        return choice.Count is { } count
            ? Equal(session, request, choice, candidates, subject, count)
            : Best(session, request, choice, candidates, subject, slips);
    }

    private static int Best(
        Session session,
        Request request,
        OperandsChoice choice,
        Candidates candidates,
        OperandsSubject subject,
        SlipSets? slips
    )
    {
        var best = BestFew.Of(candidates, choice.Best ?? DefaultBest);
        var shown = slips?.Beside(request[Option.Exposing]!.Value.Text, best);
        var text = request.IsJson
            ? OperandsJson.Best(subject, best, shown, session.Words)
            : DocumentText.Of(BestDocument.Of(subject, best, shown, session.Words), session.Columns);
        return session.Write(request, text, best.Count > 0 ? Exit.Done : Exit.DoesNotHold);
    }

    private static int Equal(
        Session session,
        Request request,
        OperandsChoice choice,
        Candidates candidates,
        OperandsSubject subject,
        int count
    )
    {
        var classes = new EqualDifficulty(candidates);
        var draw = classes.Draw(count, (ulong)choice.Seed, request.Has(Option.Repeats));
        EqualWays Ways() => classes.Ways(count);
        var text = request.IsJson
            ? OperandsJson.Equal(subject, draw, Ways, count)
            : DocumentText.Of(EqualDocument.Of(subject, draw, Ways, count, session.Words), session.Columns);
        return session.Write(request, text, draw is { Drawn.Count: > 0 } ? Exit.Done : Exit.DoesNotHold);
    }

    /// <summary>The condition that a slip is exposed; null with the reason in the report when there is none of that name.</summary>
    private static string? Exposing(Request request, SlipSets slips)
    {
        var asked = request[Option.Exposing]!.Value;
        if (slips.Names.Contains(asked.Text))
        {
            return $"slip {asked.Text} is exposed";
        }
        MachineFiles.ReportSlip(request, asked, slips.MachineName, slips.Names.Append(OperandsChoice.All));
        return null;
    }

    /// <summary>Those that show what is asked for; all where nothing is. What is wrong is marked in the command line.</summary>
    private static Candidates? Wanted(Candidates all, Request request, string? condition)
    {
        if (condition is null)
        {
            return all;
        }
        var found = new Report(null);
        var candidates = all.Showing(condition.ReplaceLineEndings(" "), found);
        foreach (var d in found.InOrder())
        {
            var start = (request[Option.Showing] ?? request[Option.Exposing])!.Value.Span.Start;
            request.Report.Add(d.Id, new Span(start + d.Span.Start, start + d.Span.End), [.. d.Facts]);
        }
        return candidates;
    }
}
