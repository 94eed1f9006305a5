using System.Diagnostics;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Reporting;

namespace Reckoner.Cli;

internal static class CheckVerb
{
    /// <summary>Averages of so many operand bits are always told; they cost as much as the check.</summary>
    private const int AverageBits = 20;

    private static readonly IPlaneEngine Engine = InterpretedEngine.Widest;

    public static int Run(Session session, Request request)
    {
        if (request.Has(Option.AddUp))
        {
            return AddUpVerb.Run(session, request);
        }
        if (Ask(session, request) is not { } asked)
        {
            return Exit.Wrong;
        }
        var text =
            !request.IsJson
                ? DocumentText.Of(CheckDocument.Of(asked.Checks, asked.Left, session.Words), session.Columns)
            : asked.IsRange ? CheckJson.Of(asked.Checks)
            : CheckJson.Of(asked.Checks[0]);
        return session.Write(request, text, asked.Status);
    }

    /// <param name="Checks">One for each width.</param>
    /// <param name="Left">Those that were not begun, as the run was stopped.</param>
    public sealed record Asked(
        IReadOnlyList<CheckReport> Checks,
        IReadOnlyList<Datapath> Left,
        bool IsRange,
        int Status
    );

    /// <summary>Null when something is wrong; it has been said.</summary>
    public static Asked? Ask(Session session, Request request)
    {
        if (
            MachineFiles.Read(request) is not { } machine
            || CheckedWidths.Read(request, machine) is not { } widths
            || Plan.Read(request) is not { } plan
        )
        {
            session.Refuse(request);
            return null;
        }
        // All of them before any is run: what would be refused in the end is refused at once.
        var datapaths = new List<Datapath>();
        foreach (var chosen in widths.Choices)
        {
            var (datapath, found) = machine.At(chosen);
            if (datapath is null)
            {
                session.Refuse([
                    .. found
                        .Where(d => d.Severity == Severity.Error)
                        .Select(d => MachineFiles.AsAsked(d, request, chosen)),
                ]);
                return null;
            }
            if (!MachineFiles.IsListed(request, request.Machine!.Value, datapath))
            {
                session.Refuse(request);
                return null;
            }
            datapaths.Add(datapath);
        }
        if (
            plan.Sample is null
            && datapaths.Find(d => Coverage.Exceeds(d, plan)) is { } wide
            && Check(session, request, wide, plan) is null
        )
        {
            session.Refuse(request);
            return null;
        }
        var checks = new List<CheckReport>();
        foreach (var datapath in datapaths)
        {
            if (Check(session, request, datapath, plan) is not { } check)
            {
                session.Refuse(request);
                return null;
            }
            checks.Add(check);
            if (!check.IsComplete)
            {
                break;
            }
        }
        return new Asked(checks, datapaths[checks.Count..], widths.IsRange, Status(checks));
    }

    private static int Status(List<CheckReport> checks) =>
        !checks[^1].IsComplete ? Exit.Interrupted
        : checks.TrueForAll(c => c.Result.Holds) ? Exit.Done
        : Exit.DoesNotHold;

    private static CheckReport? Check(Session session, Request request, Datapath datapath, Plan plan)
    {
        var clock = Stopwatch.StartNew();
        var followed = CheckProgram.Followed(datapath);
        var isWritten = request.Has(Option.Written) || plan.Sample is not null;
        var program = isWritten
            ? CheckProgram.IfGates(datapath, followed, OracleUse.Written)
            : CheckProgram.OfFewestGates(datapath, followed);
        var words = program is null ? new WordCheck(datapath, followed) : null;
        var coverage = new Coverage(session, request, plan);
        var result = plan.Sample is var (seed, count)
            ? new OperandSample(datapath, count, seed) is var sample && words is null
                ? coverage.Of(program!, sample)
                : coverage.Of(words!, sample)
            : words is null
                ? coverage.Of(program!)
                : coverage.Of(words);
        if (result is null)
        {
            return null;
        }
        var seconds = clock.Elapsed.TotalSeconds;
        var strength =
            result.Sections[0].Count.Failures.IsZero && result.Complete ? LawStrength.Of(datapath, Engine) : null;
        var check = new CheckReport(result, strength, null, seconds, plan.Sample);
        return
            result.IsExhaustive
            && words is null
            && (datapath.Operands.Sum(o => o.Width) <= AverageBits || request.Has(Option.Averages))
            ? WithAverages(session, check)
            : check;
    }

    /// <summary>They may take longer than the check, so that a stop must not lose what the check found.</summary>
    private static CheckReport WithAverages(Session session, CheckReport check)
    {
        var (datapath, space) = (check.Result.Datapath, check.Result.Space);
        try
        {
            var averages = session.Covered(
                space.Lanes,
                0,
                space.Steps,
                (covered, stop) => Averages.Of(datapath, Engine, covered, stop)
            );
            return check with { Averages = averages };
        }
        catch (OperationCanceledException)
        {
            return check with { AreAveragesStopped = true };
        }
    }
}
