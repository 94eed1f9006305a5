using System.Diagnostics;
using System.Globalization;
using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Engines;
using Reckoner.Numbers;

namespace Reckoner.Cli;

/// <summary>Covers all operands of a check, or the part that is asked for, where the budget allows it; null and a report where not.</summary>
internal sealed class Coverage(Session session, Request request, Plan plan)
{
    /// <summary>More cases than this are refused with an estimate; word by word the lower number counts.</summary>
    private const int MostCaseBits = 34;
    private const int MostWordCaseBits = 26;

    /// <summary>Whether not even gates would cover it within the budget.</summary>
    public static bool Exceeds(Datapath datapath, Plan plan) =>
        new CaseSpace(datapath.Operands) is var space
        && space.AllSteps * space.Lanes > plan.Part.Of * (BigInteger.One << MostCaseBits);

    public CheckResult? Of(CheckProgram program)
    {
        if (
            Engine(program, (long)BigInteger.Min(program.Space.AllSteps / plan.Part.Of, 1L << 40)) is not { } engine
            || Stretch(program.Datapath, program.Space, MostCaseBits, () => StepsASecond(program, engine))
                is not var (from, to)
        )
        {
            return null;
        }
        return Checker.Exhaust(
            program,
            engine.Name,
            from,
            to,
            () =>
                session.Covered(
                    program.Space.Lanes,
                    from,
                    to,
                    (covered, stop) =>
                        ParallelChecker.Run(program, engine, from, to, Environment.ProcessorCount, covered, stop)
                )
        );
    }

    public CheckResult? Of(WordCheck check) =>
        Stretch(check.Datapath, check.Space, MostWordCaseBits, () => StepsASecond(check)) is var (from, to)
            ? session.Covered(
                check.Space.Lanes,
                from,
                to,
                (covered, stop) => Checker.Exhaust(check, from, to, covered, stop)
            )
            : null;

    /// <summary>A sample, whose size is bounded when it is asked for.</summary>
    public CheckResult? Of(CheckProgram program, OperandSample sample) =>
        Engine(program, sample.Size / PlaneMemory.Lanes) is { } engine
            ? session.Covered(
                1,
                0,
                sample.Size,
                (tried, stop) => Checker.Sample(program, engine, sample.Operands(), tried, stop)
            )
            : null;

    public CheckResult Of(WordCheck check, OperandSample sample) =>
        session.Covered(1, 0, sample.Size, (tried, stop) => Checker.Sample(check, sample.Operands(), tried, stop));

    private IPlaneEngine? Engine(CheckProgram program, long steps)
    {
        var choice = EngineChoice.Widest;
        if (choice.For(program.Program, steps) is { } engine)
        {
            return engine;
        }
        var here = EngineChoice.Widths.Where(EngineChoice.IsHere).Select(w => w.ToString(CultureInfo.InvariantCulture));
        request.Report.Add(
            Id.OptionValue,
            request.Whole,
            ("option", EngineChoice.Variable),
            ("value", choice.Asked!),
            ("known", here.ToList())
        );
        return null;
    }

    /// <summary>The steps that the plan asks for, unless they are more than the budget has.</summary>
    private (long From, long To)? Stretch(Datapath datapath, CaseSpace space, int mostBits, Func<double> stepsASecond)
    {
        var widths = WidthText.Of(datapath.Widths);
        var steps = space.AllSteps;
        if (plan.Part.Of > steps)
        {
            request.Report.Add(
                Id.PartsTooMany,
                request[Option.Part]!.Value.Span,
                ("of", plan.Part.Of),
                ("widths", widths),
                ("most", steps)
            );
            return null;
        }
        var from = steps * (plan.Part.K - 1) / plan.Part.Of;
        var to = steps * plan.Part.K / plan.Part.Of;
        var cases = (to - from) * space.Lanes;
        if (cases <= BigInteger.One << mostBits)
        {
            return ((long)from, (long)to);
        }
        request.Report.Add(
            Id.TooManyCases,
            request[Option.Width]?.Span ?? request.Whole,
            ("cases", cases),
            ("widths", widths),
            ("most", BigInteger.One << mostBits),
            ("time", Duration((double)(to - from) / stepsASecond()))
        );
        return null;
    }

    /// <summary>Measured on the first steps, for all processors.</summary>
    private static double StepsASecond(CheckProgram program, IPlaneEngine engine)
    {
        const int Stretch = 64;
        var run = new CheckRun(program, engine);
        var done = run.Run(0, Stretch);
        var clock = Stopwatch.StartNew();
        while (clock.ElapsedMilliseconds < 100)
        {
            done = run.Run(done, done + Stretch);
        }
        return (done - Stretch) / clock.Elapsed.TotalSeconds * Environment.ProcessorCount;
    }

    private static double StepsASecond(WordCheck check)
    {
        var clock = Stopwatch.StartNew();
        check.Run(0, 1);
        return 1 / clock.Elapsed.TotalSeconds;
    }

    private string Duration(double seconds) =>
        seconds < 120 ? About($"{seconds:0} s")
        : seconds < 7200 ? About($"{seconds / 60:0} min")
        : seconds < 172_800 ? About($"{seconds / 3600:0} h")
        : seconds < 6e8 ? About(session.Words.Say("check.days", ("count", $"{seconds / 86_400:#,0}")))
        : seconds < 3e13 ? About(session.Words.Say("check.years", ("count", $"{seconds / 31_557_600:#,0}")))
        : session.Words.Say("check.million-years");

    private string About(string time) => session.Words.Say("check.about", ("time", time));
}
