using System.Numerics;
using Reckoner.Claims;
using Reckoner.Datapaths;

namespace Reckoner.Checking;

/// <summary>A section's verdict with the smallest failing operands, what the machine gives for them and what was expected.</summary>
/// <param name="Expected">Null where nothing single is expected or it cannot be found.</param>
public sealed record SectionResult(
    SectionCount Count,
    IReadOnlyList<BigInteger>? Given,
    IReadOnlyList<BigInteger>? Expected
)
{
    public string Name => Count.Name;
}

/// <summary>What a check found.</summary>
/// <param name="Method">How it was found: an engine's name, or <see cref="WordCheck.Method"/>.</param>
/// <param name="Gates">How many gates decide a case, and what of the laws it is whose expectation is stepped along; null word by word.</param>
/// <param name="Steps">The stretch of steps covered, to not included; null for chosen operands.</param>
/// <param name="Complete">Whether all of what was asked is covered.</param>
public sealed record CheckResult(
    Datapath Datapath,
    CaseSpace Space,
    IReadOnlyList<SectionResult> Sections,
    string Method,
    (int Count, IReadOnlyList<Assertion> Stepped)? Gates,
    (long From, long To)? Steps,
    bool Complete
)
{
    /// <summary>What the operands satisfy that were asked about; null for all.</summary>
    public Truth? Only { get; init; }

    /// <summary>How many chosen operands were tried; null for steps.</summary>
    public long? Tried { get; init; }

    /// <summary>Whether none of the operands that were covered fails; where <see cref="Complete"/> is false there are others.</summary>
    public bool NothingFailed => Sections.All(s => s.Count.Failures.IsZero);

    /// <summary>Whether every operand that was asked about was covered, so that "for all" of these may be said.</summary>
    public bool IsExhaustive => Complete && Steps is { From: 0 } steps && steps.To == Space.Steps;
}

/// <summary>Checks a machine over stretches of all operands or over chosen ones.</summary>
internal static class Checker
{
    /// <summary>Runs chosen operands; the program's laws must be written out.</summary>
    /// <param name="tried">Told how many were tried so far.</param>
    public static CheckResult Sample(
        CheckProgram program,
        IPlaneEngine engine,
        IEnumerable<BigInteger[]> operands,
        Action<long>? tried = null,
        CancellationToken stop = default
    )
    {
        var run = new CheckRun(program, engine);
        var (count, isComplete) = InTurns(operands, PlaneMemory.Lanes, run.Run, tried, stop);
        return Result(program, run.Counts, engine.Name, null, isComplete) with { Tried = count };
    }

    /// <summary>The same word by word.</summary>
    public static CheckResult Sample(
        WordCheck check,
        IEnumerable<BigInteger[]> operands,
        Action<long>? tried = null,
        CancellationToken stop = default
    )
    {
        const int AtOnce = 64;
        var counts = check.Nothing;
        var (count, isComplete) = InTurns(operands, AtOnce, some => counts = check.Run(some, counts), tried, stop);
        return Result(check, counts, null, isComplete) with { Tried = count };
    }

    /// <summary>Some operands after the others, as long as nobody stops it; how many were run, and whether all.</summary>
    private static (long Count, bool IsComplete) InTurns(
        IEnumerable<BigInteger[]> operands,
        int atOnce,
        Action<IReadOnlyList<BigInteger[]>> run,
        Action<long>? tried,
        CancellationToken stop
    )
    {
        var count = 0L;
        foreach (var some in operands.Chunk(atOnce))
        {
            if (stop.IsCancellationRequested)
            {
                return (count, false);
            }
            run(some);
            count += some.Length;
            tried?.Invoke(count);
        }
        return (count, true);
    }

    /// <param name="asksExpected">Whether what the smallest failing operands give and should give is found out.</param>
    internal static CheckResult Result(
        CheckProgram program,
        IReadOnlyList<SectionCount> counts,
        string method,
        (long, long)? steps,
        bool isComplete,
        bool asksExpected = true
    ) =>
        new(
            program.Datapath,
            program.Space,
            [.. counts.Select(c => asksExpected ? Judged(program.Datapath, c) : new SectionResult(c, null, null))],
            method,
            (program.Program.Instructions.Count, program.Oracle?.Stepped ?? []),
            steps,
            isComplete
        );

    internal static CheckResult Result(
        WordCheck check,
        IReadOnlyList<SectionCount> counts,
        (long, long)? steps,
        bool isComplete
    ) =>
        new(
            check.Datapath,
            check.Space,
            [.. counts.Select(c => Judged(check.Datapath, c))],
            WordCheck.Method,
            null,
            steps,
            isComplete
        );

    private static SectionResult Judged(Datapath datapath, SectionCount count)
    {
        if (count.Smallest is not { } failing)
        {
            return new SectionResult(count, null, null);
        }
        var given = Running.Walk.Of(datapath, failing.Operands).Results;
        var expected = count.Section switch
        {
            CheckSection.Laws => Expectation.Of(datapath, failing.Operands),
            CheckSection.Outside or CheckSection.Follows => null,
        };
        return new SectionResult(count, given, expected);
    }
}
