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
/// <param name="Steps">The stretch of steps covered, to not included; null for chosen operands.</param>
/// <param name="Complete">Whether all of what was asked is covered.</param>
public sealed record CheckResult(
    CheckProgram Program,
    IReadOnlyList<SectionResult> Sections,
    string Method,
    (long From, long To)? Steps,
    bool Complete
)
{
    public bool Holds => Sections.All(s => s.Count.Failures.IsZero);

    /// <summary>Whether every operand was covered, so that "for all" may be said.</summary>
    public bool IsExhaustive => Complete && Steps is { From: 0 } steps && steps.To == Program.Space.Steps;
}

/// <summary>Checks a machine over stretches of all operands or over chosen ones.</summary>
public static class Checker
{
    /// <summary>
    /// Runs steps from..to of a program. <paramref name="run"/> does it, on as many threads as it likes, and tells how far it
    /// came.
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
        return new CheckResult(
            program,
            [.. counts.Select(c => Judged(program, c))],
            method,
            (from, reached),
            reached == to
        );
    }

    /// <summary>Runs chosen operands; the program's laws must be written out.</summary>
    public static CheckResult Sample(CheckProgram program, IPlaneEngine engine, IReadOnlyList<BigInteger[]> operands)
    {
        var run = new CheckRun(program, engine);
        run.Run(operands);
        return new CheckResult(program, [.. run.Counts.Select(c => Judged(program, c))], engine.Name, null, true);
    }

    private static SectionResult Judged(CheckProgram program, SectionCount count)
    {
        if (count.Smallest is not { } failing)
        {
            return new SectionResult(count, null, null);
        }
        var given = Running.Walk.Of(program.Datapath, failing.Operands).Results;
        var expected = count.Name switch
        {
            "laws" => Expectation.Of(program.Datapath, failing.Operands),
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
