using System.Diagnostics;
using System.Globalization;
using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Engines;
using Reckoner.Reporting;

namespace Reckoner.Cli;

internal static class CheckVerb
{
    /// <summary>More cases than this are refused with an estimate.</summary>
    private const int MostCaseBits = 34;

    /// <summary>Averages of so many operand bits are always told; they cost as much as the check.</summary>
    private const int AverageBits = 20;

    private static readonly IPlaneEngine Engine = InterpretedEngine.Widest;

    public static int Run(Session session, Request request)
    {
        if (request.Has(Option.AddUp))
        {
            return AddUpVerb.Run(session, request);
        }
        if (
            MachineFiles.Read(request) is not { } machine
            || CheckedWidths.Read(request, machine) is not { } widths
            || Plan.Read(request) is not { } plan
        )
        {
            return session.Refuse(request);
        }
        var text = "";
        var status = Exit.Done;
        foreach (var chosen in widths)
        {
            var (datapath, found) = machine.At(chosen);
            if (datapath is null)
            {
                return session.Refuse([
                    .. found
                        .Where(d => d.Severity == Severity.Error)
                        .Select(d => MachineFiles.AsAsked(d, request, chosen)),
                ]);
            }
            var (said, exit) = ("", Exit.Wrong);
            try
            {
                (said, exit) = Check(session, request, datapath, plan);
            }
            catch (LawBeyondPlanesException e)
            {
                request.Report.Add(
                    Id.LawBeyondPlanes,
                    request.Machine!.Value.Span,
                    ("formula", Notation.Printer.Text(e.Formula))
                );
            }
            if (exit == Exit.Wrong)
            {
                return session.Refuse(request);
            }
            text += text.Length > 0 && !request.IsJson ? "\n" + said : said;
            status = Math.Max(status, exit);
            if (status == Exit.Interrupted)
            {
                break;
            }
        }
        return session.Write(request, text, status);
    }

    private static (string Text, int Exit) Check(Session session, Request request, Datapath datapath, Plan plan)
    {
        var clock = Stopwatch.StartNew();
        var followed = Followed(datapath);
        var result = plan.Sample is { } sample
            ? Checker.Sample(
                CheckProgram.Of(datapath, followed, OracleUse.Written),
                Engine,
                Checker.SampleOf(datapath, sample.Count, sample.Seed)
            )
            : Exhaust(session, request, CheckProgram.Of(datapath, followed, OracleUse.Stepped), plan);
        if (result is null)
        {
            return ("", Exit.Wrong);
        }
        var whole = result.IsExhaustive;
        var strength =
            result.Sections[0].Count.Failures.IsZero && result.Complete ? LawStrength.Of(datapath, Engine) : null;
        var averages =
            whole && (datapath.Operands.Sum(o => o.Width) <= AverageBits || request.Has(Option.Averages))
                ? Averages.Of(datapath, Engine)
                : null;
        var text = request.IsJson
            ? CheckJson.Of(result, strength, averages, clock.Elapsed.TotalSeconds, plan.Sample)
            : CheckText.Of(result, strength, averages, session.Words, session.Columns);
        return (
            text,
            !result.Complete ? Exit.Interrupted
            : result.Holds ? Exit.Done
            : Exit.DoesNotHold
        );
    }

    /// <summary>The machine that this one follows, at the same widths, where it can be built.</summary>
    private static Datapath? Followed(Datapath datapath)
    {
        if (datapath.Machine.Followed is not { } followed)
        {
            return null;
        }
        var shared = followed
            .Widths.Select(w => w.Name.Text)
            .Where(datapath.Numbers.ContainsKey)
            .ToDictionary(n => n, n => datapath.Numbers[n].Numerator);
        return followed.At(shared).Datapath;
    }

    private static CheckResult? Exhaust(Session session, Request request, CheckProgram program, Plan plan)
    {
        var (steps, space) = (program.Space.Steps, program.Space);
        if (plan.Part.Of > steps)
        {
            request.Report.Add(
                Id.PartsTooMany,
                request[Option.Part]!.Value.Span,
                ("of", plan.Part.Of),
                ("widths", Widths(program.Datapath)),
                ("most", steps)
            );
            return null;
        }
        var from = (long)((BigInteger)steps * (plan.Part.K - 1) / plan.Part.Of);
        var to = (long)((BigInteger)steps * plan.Part.K / plan.Part.Of);
        if ((BigInteger)(to - from) * space.Lanes > BigInteger.One << MostCaseBits)
        {
            var seconds = (double)(to - from) / StepsASecond(program);
            request.Report.Add(
                Id.TooManyCases,
                request[Option.Width]?.Span ?? request.Whole,
                ("cases", (BigInteger)(to - from) * space.Lanes),
                ("widths", Widths(program.Datapath)),
                ("time", Duration(seconds))
            );
            return null;
        }
        var choice = EngineChoice.Widest;
        if (choice.For(program.Program, to - from) is not { } engine)
        {
            var here = EngineChoice
                .Widths.Where(EngineChoice.IsHere)
                .Select(w => w.ToString(CultureInfo.InvariantCulture));
            request.Report.Add(
                Id.OptionValue,
                request.Whole,
                ("option", EngineChoice.Variable),
                ("value", choice.Asked!),
                ("known", here.ToList())
            );
            return null;
        }
        return Checker.Exhaust(program, engine.Name, from, to, () => session.Covered(program, engine, from, to));
    }

    private static string Widths(Datapath datapath) =>
        string.Join(", ", datapath.Widths.Select(w => $"{w.Name} = {w.Value}"));

    /// <summary>Measured on the first steps.</summary>
    private static double StepsASecond(CheckProgram program)
    {
        var run = new CheckRun(program, Engine);
        run.Run(0, 16);
        var clock = Stopwatch.StartNew();
        var done = 16L;
        while (clock.ElapsedMilliseconds < 100)
        {
            done = run.Run(done, done + 64);
        }
        return (done - 16) / clock.Elapsed.TotalSeconds;
    }

    private static string Duration(double seconds) =>
        seconds < 120 ? $"{seconds:0} s"
        : seconds < 7200 ? $"{seconds / 60:0} min"
        : seconds < 172_800 ? $"{seconds / 3600:0} h"
        : seconds < 6e8 ? $"{seconds / 86_400:#,0} days"
        : $"{seconds / 31_557_600:#,0} years";
}
