using System.Numerics;
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
/// <param name="Gates">How many gates decide a case, and the laws whose expectation is stepped along; null word by word.</param>
/// <param name="Steps">The stretch of steps covered, to not included; null for chosen operands.</param>
/// <param name="Complete">Whether all of what was asked is covered.</param>
public sealed record CheckResult(
    Datapath Datapath,
    CaseSpace Space,
    IReadOnlyList<SectionResult> Sections,
    string Method,
    (int Count, IReadOnlyList<Claim> Stepped)? Gates,
    (long From, long To)? Steps,
    bool Complete
)
{
    public bool Holds => Sections.All(s => s.Count.Failures.IsZero);

    /// <summary>Whether every operand was covered, so that "for all" may be said.</summary>
    public bool IsExhaustive => Complete && Steps is { From: 0 } steps && steps.To == Space.Steps;
}

/// <summary>Checks a machine over stretches of all operands or over chosen ones.</summary>
public static class Checker
{
    /// <summary>
    /// What steps from..to of a program gave. <paramref name="run"/> does it, on as many threads as it likes, and tells how
    /// far it came.
    /// </summary>
    public static CheckResult Exhaust(
        CheckProgram program,
        string method,
        long from,
        long to,
        Func<(long To, IReadOnlyList<SectionCount> Counts)> run
    )
    {
        var (reached, counts) = run();
        return Result(program, counts, method, (from, reached), reached == to);
    }

    /// <summary>The same word by word.</summary>
    public static CheckResult Exhaust(
        WordCheck check,
        long from,
        long to,
        Action<long>? covered = null,
        CancellationToken stop = default
    )
    {
        var (reached, counts) = check.Run(from, to, covered, stop);
        return Result(check, counts, (from, reached), reached == to);
    }

    /// <summary>Runs chosen operands; the program's laws must be written out.</summary>
    public static CheckResult Sample(CheckProgram program, IPlaneEngine engine, IReadOnlyList<BigInteger[]> operands)
    {
        var run = new CheckRun(program, engine);
        run.Run(operands);
        return Result(program, run.Counts, engine.Name, null, isComplete: true);
    }

    /// <summary>The same word by word.</summary>
    public static CheckResult Sample(WordCheck check, IReadOnlyList<BigInteger[]> operands) =>
        Result(check, check.Run(operands, check.Nothing), null, isComplete: true);

    private static CheckResult Result(
        CheckProgram program,
        IReadOnlyList<SectionCount> counts,
        string method,
        (long, long)? steps,
        bool isComplete
    ) =>
        new(
            program.Datapath,
            program.Space,
            [.. counts.Select(c => Judged(program.Datapath, c))],
            method,
            (program.Program.Instructions.Count, program.Oracle?.Laws ?? []),
            steps,
            isComplete
        );

    private static CheckResult Result(
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
        var expected = count.Name switch
        {
            "laws" => Expectation.Of(datapath, failing.Operands),
            _ => null,
        };
        return new SectionResult(count, given, expected);
    }

    /// <summary>
    /// Operands for widths that cannot be exhausted: corners crossed, equal ones, neighbours, then random ones of random
    /// lengths, until there are <paramref name="count"/>; the corners are always all there.
    /// </summary>
    public static IReadOnlyList<BigInteger[]> SampleOf(Datapath datapath, int count, int seed)
    {
        var random = new Random(seed);
        var sample = new List<BigInteger[]>(Binding.OperandCorners.Crossed(datapath));
        while (sample.Count < count)
        {
            sample.Add([.. datapath.Operands.Select(o => RandomBits(random, o.Width))]);
        }
        return sample;
    }

    /// <summary>Half of them over the whole width, half of a random length, so that small numbers occur.</summary>
    private static BigInteger RandomBits(Random random, int width)
    {
        var length = random.Next(2) == 0 ? width : random.Next(1, width + 1);
        var bytes = new byte[length / 8 + 2];
        random.NextBytes(bytes);
        bytes[^1] = 0;
        return Numbers.Bits.Wrap(new BigInteger(bytes), length);
    }
}
