using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Numbers;
using Reckoner.Proving;
using Term = Reckoner.Diagnostics.Term;

namespace Reckoner.Questions;

/// <summary>
/// A check at one width from the gates to the report: needs the question and the hardware; leaves what was found, or in the
/// findings why it is not begun.
/// </summary>
internal sealed class CheckCourse(CheckQuestion question, Datapath datapath, Means means, AskedCases about)
{
    /// <summary>With so many operand bits averages cost next to nothing.</summary>
    private const int AverageBits = 20;

    /// <summary>A refusal advises a sample of so many instead.</summary>
    private const int AdvisedSample = 100_000;

    /// <summary>An estimate is measured on so many runs of gates at least.</summary>
    private const long MeasuredAtOnce = 1 << 20;
    private const long MostMeasured = 1 << 26;

    /// <summary>The gates; null where a claim cannot become any.</summary>
    private readonly Lazy<CheckProgram?> program = new(() => Built(question, datapath, about));

    private readonly Lazy<WordCheck> words = new(() => new WordCheck(datapath, CheckProgram.Followed(datapath), about));

    private WidthNotes? notes;

    private CaseSpace Space => about.Space;

    private static CheckProgram? Built(CheckQuestion question, Datapath datapath, AskedCases about)
    {
        var followed = CheckProgram.Followed(datapath);
        // Chosen operands do not follow each other, and an expectation that is stepped along needs that.
        var use = question.Sample is null ? question.Expected : OracleUse.Written;
        return use is { } known
            ? CheckProgram.IfGates(datapath, followed, known, about)
            : CheckProgram.OfFewestGates(datapath, followed, about);
    }

    /// <summary>Builds the gates, if there can be any.</summary>
    public bool HasGates => program.Value is not null;

    /// <summary>Whether not even gates would cover it within the budget; a sample always is.</summary>
    public bool ExceedsBudget => Exceeds(question.Budget.Cases);

    /// <summary>Whether it goes word by word and is not covered so. Gates are built only where it depends on them.</summary>
    public bool ExceedsBudgetOfWords =>
        question.Sample is null
        && Space.AllSteps * Space.Lanes > question.Part.Of * question.Budget.WordCases
        && !HasGates;

    private bool Exceeds(BigInteger cases)
    {
        var all = question.Sample is null ? Space.AllSteps * Space.Lanes : 0;
        if (all <= question.Part.Of * cases)
        {
            return false;
        }
        // Whether more is in reach may take its time, in which the gates are made: refused or not, they are needed.
        means.Runner.Prepare();
        _ = program.Value;
        return all > question.Part.Of * (cases << means.Runner.ReachBits);
    }

    /// <summary>Else the findings say what it would take.</summary>
    public bool IsWithinBudget(Findings found) => !Refuses(found) && Stretch(found) is not null;

    /// <summary>Null with the reason in the findings.</summary>
    /// <param name="kept">Where an earlier run is gone on from, and what is covered is noted; null for nowhere.</param>
    public async Task<CheckReport?> Run(Findings found, WidthNotes? kept = null)
    {
        notes = kept;
        var began = means.Clock();
        if (await Covered(found, began) is not var (result, trouble))
        {
            return null;
        }
        result = result with { Only = about.Only };
        var seconds = Seconds(began);
        var strength =
            question.AsksStrength && about.Only is null && result.Sections[0].Count.Failures.IsZero && result.Complete
                ? LawStrength.Of(datapath, means.Engine)
                : null;
        var sample = question.Sample is var (seed, count) ? (seed, count) : ((int, int)?)null;
        var report = new CheckReport(result, strength, null, seconds, sample) { Trouble = trouble };
        return WantsAverages(result) ? WithAverages(report) : report;
    }

    private async Task<(CheckResult Result, Diagnostic? Trouble)?> Covered(Findings found, TimeSpan began)
    {
        if (Refuses(found))
        {
            return null;
        }
        if (question.Sample is var (seed, count))
        {
            return (Sampled(new OperandSample(datapath, count, seed)), null);
        }
        if (Stretch(found) is not var (from, to))
        {
            return null;
        }
        var check = Stepped(from, to);
        if ((notes is null ? check.AtBegin : notes.Left(check, Space, found)) is not { } left)
        {
            return null;
        }
        var covered = await means.Watched(
            Space.Lanes,
            left.To,
            to,
            tell => check.GoOn(left, notes?.AreKept == true ? Note : null, means.Clock, tell, means.Stop)
        );
        var (steps, isComplete) = ((from, covered.To), covered.To == to);
        var result = program.Value is { } gates
            ? Checker.Result(gates, covered.Counts, covered.Method, steps, isComplete, question.AsksExpected)
            : Checker.Result(words.Value, covered.Counts, steps, isComplete);
        return (result, covered.Trouble);

        void Note(CoveredSteps now) => notes!.Note(now, Space, Seconds(began));
    }

    /// <summary>With what earlier runs took.</summary>
    private double Seconds(TimeSpan began) => (notes?.Seconds ?? 0) + (means.Clock() - began).TotalSeconds;

    private SteppedCheck Stepped(long from, long to) =>
        program.Value is { } gates
            ? new(
                from,
                to,
                CheckRun.Nothing(gates),
                (at, end, tell, stop) => means.Runner.Run(gates, at, end, tell, stop)
            )
            : new(from, to, words.Value.Nothing, (at, end, tell, stop) => Task.FromResult(ByWord(at, end, tell, stop)));

    private CoveredSteps ByWord(long from, long to, Action<long>? tell, CancellationToken stop)
    {
        var (reached, counts) = words.Value.Run(from, to, tell, stop);
        return new CoveredSteps(reached, counts, WordCheck.Method);
    }

    private CheckResult Sampled(OperandSample sample) =>
        means.Watched(
            1,
            0,
            sample.Size,
            tell =>
                program.Value is { } gates
                    ? Checker.Sample(
                        gates,
                        means.Runner.Engine(gates.Program, sample.Size / PlaneMemory.Lanes),
                        sample.Operands(),
                        tell,
                        means.Stop
                    )
                    : Checker.Sample(words.Value, sample.Operands(), tell, means.Stop)
        );

    /// <summary>Gates need the runner; word by word nothing is asked of it, where that may be.</summary>
    private bool Refuses(Findings found)
    {
        if ((HasGates ? means.Runner.Refusal : means.Runner.RefusalOfWords) is not { } refusal)
        {
            return false;
        }
        found.AddRange([new Finding(refusal, AskedPart.Whole)]);
        return true;
    }

    /// <summary>The steps that are asked for; null and an estimate in the findings where they are more than the budget has.</summary>
    private (long From, long To)? Stretch(Findings found)
    {
        var widths = WidthText.Of(datapath.Widths);
        var steps = Space.AllSteps;
        var (k, of) = question.Part;
        var from = steps * (k - 1) / of;
        var to = steps * k / of;
        var cases = (to - from) * Space.Lanes;
        var most = HasGates ? question.Budget.Cases : question.Budget.WordCases;
        if (HasGates && cases > most)
        {
            most <<= means.Runner.ReachBits;
        }
        if (cases <= most)
        {
            return IsTooLong(from, to, found) ? null : ((long)from, (long)to);
        }
        found.Add(
            Id.TooManyCases,
            AskedPart.Widths,
            0,
            ("cases", cases),
            ("widths", widths),
            ("most", most),
            ("time", Estimate(to - from)),
            ("advice", Instead(most))
        );
        return null;
    }

    /// <summary>So few cases may still be too many, where each of them goes through very many gates.</summary>
    private bool IsTooLong(BigInteger from, BigInteger to, Findings found)
    {
        if (!HasGates)
        {
            return false;
        }
        var gates = Math.Max(1, program.Value!.Program.Instructions.Count);
        var most = question.Budget.GateRuns / gates;
        if (to - from <= most)
        {
            return false;
        }
        most = (question.Budget.GateRuns << means.Runner.ReachBits) / gates;
        if (to - from <= most)
        {
            return false;
        }
        found.Add(
            Id.CheckTooLong,
            AskedPart.Widths,
            0,
            ("cases", (to - from) * Space.Lanes),
            ("widths", WidthText.Of(datapath.Widths)),
            ("gates", gates),
            ("time", Estimate(to - from)),
            ("advice", Instead(most * Space.Lanes))
        );
        return true;
    }

    /// <summary>As many parts as it takes for each to be within what may be tried at once; where those are too many, none.</summary>
    private List<Advice> Instead(BigInteger most)
    {
        var advice = new List<Advice> { new(AdviceKind.Narrower) };
        // A sample is drawn from all operands, and not from those of a formula.
        if (about.Only is null)
        {
            advice.Add(Advice.Sample(AdvisedSample));
        }
        if (LiftedMachine.IsReached(datapath))
        {
            advice.Add(new(AdviceKind.Prove));
        }
        var stepsAtOnce = most / Space.Lanes;
        var parts = stepsAtOnce.IsZero ? Space.AllSteps : (Space.AllSteps + stepsAtOnce - 1) / stepsAtOnce;
        if (parts <= CheckQuestion.MostParts)
        {
            advice.Add(Advice.Parts((int)parts));
        }
        return advice;
    }

    /// <summary>How long steps would take, and with what, where that is not what runs everything.</summary>
    private Term Estimate(BigInteger steps)
    {
        var time = TimeTaken.Of((double)steps / StepsASecond());
        var graphics = HasGates ? means.Runner.GraphicsProcessors : 0;
        return graphics > 0 ? new Term("check.on-graphics", ("time", time), ("count", graphics)) : time;
    }

    /// <summary>Measured on the first steps.</summary>
    private double StepsASecond()
    {
        if (HasGates && means.Runner.StepsASecond(program.Value!, means.Clock, means.Stop) is { } measured)
        {
            return measured;
        }
        if (program.Value is not { } gates)
        {
            var check = words.Value;
            var asked = means.Clock();
            check.Run(0, 1);
            return 1 / Math.Max((means.Clock() - asked).TotalSeconds, 1e-9);
        }
        var runs = Math.Max(1, gates.Program.Instructions.Count);
        var stretch = (int)Math.Clamp(MeasuredAtOnce / runs, 1, 64);
        var mostMeasured = Math.Max(2 * stretch, MostMeasured / runs);
        var steps = (long)BigInteger.Min(Space.AllSteps / question.Part.Of, 1L << 40);
        var run = new CheckRun(gates, means.Runner.Engine(gates.Program, steps));
        var done = run.Run(0, stretch);
        var began = means.Clock();
        // Also by their number: a clock that stands still must not keep it going.
        while (done < mostMeasured && (means.Clock() - began).TotalMilliseconds < 100)
        {
            done = run.Run(done, done + stretch);
        }
        return (done - stretch) / Math.Max((means.Clock() - began).TotalSeconds, 1e-9) * means.Runner.Threads;
    }

    private bool WantsAverages(CheckResult result) =>
        result.IsExhaustive
        && about.Only is null
        && HasGates
        && question.Averages switch
        {
            AveragesWish.Never => false,
            AveragesWish.WhereCheap => Space.Bits <= AverageBits,
            AveragesWish.Always => true,
        };

    /// <summary>They may take longer than the check, so that a stop must not lose what the check found.</summary>
    private CheckReport WithAverages(CheckReport report)
    {
        try
        {
            var averages = means.Watched(
                Space.Lanes,
                0,
                Space.Steps,
                tell => Averages.Of(datapath, means.Engine, tell, means.Stop)
            );
            return report with { Averages = averages };
        }
        catch (OperationCanceledException)
        {
            return report with { AreAveragesStopped = true };
        }
    }
}
