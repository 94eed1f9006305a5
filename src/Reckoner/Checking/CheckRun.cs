using System.Numerics;

namespace Reckoner.Checking;

/// <summary>What a stretch of cases gave in one section.</summary>
public sealed record SectionCount(CheckSection Section, BigInteger Cases, BigInteger Failures, FailingCase? Smallest)
{
    /// <summary>What JSON calls its section.</summary>
    public string Name => Section.Name();

    public static SectionCount operator +(SectionCount a, SectionCount b) =>
        new(a.Section, a.Cases + b.Cases, a.Failures + b.Failures, FailingCase.Smaller(a.Smallest, b.Smallest));
}

/// <summary>
/// Runs a check program over a stretch of steps with one engine. The memory belongs to it: one run per thread. Needs the program;
/// leaves counts and the smallest failing operands of every section.
/// </summary>
internal sealed class CheckRun
{
    private readonly CheckProgram check;
    private readonly PlaneSweep sweep;
    private readonly IPlaneKernel? start;
    private readonly ulong[] lanes;
    private readonly long[] cases;
    private readonly long[] failures;
    private readonly FailingCase?[] smallest;
    private readonly ulong[] failing = new ulong[PlaneMemory.Words];
    private SmallestOfStep? smallestOfStep;

    public CheckRun(CheckProgram check, IPlaneEngine engine)
    {
        this.check = check;
        sweep = new PlaneSweep(check.Program, check.Space, engine, check.Start?.Slots ?? 0);
        // Runs too seldom for an engine that has to make code first.
        start = check.Start is null ? null : InterpretedEngine.Widest.Compile(check.Start);
        // Fewer cases than lanes: the lanes left over repeat cases and are not counted.
        lanes = [.. Enumerable.Range(0, PlaneMemory.Words).Select(w => Used(check.Space.Lanes - 64 * w))];
        var sections = check.Sections.Count;
        cases = new long[sections];
        failures = new long[sections];
        smallest = new FailingCase?[sections];
    }

    private static ulong Used(int lanes) =>
        lanes >= 64 ? ulong.MaxValue
        : lanes <= 0 ? 0
        : (1UL << lanes) - 1;

    private Span<ulong> Plane(int slot) => sweep.Plane(slot);

    public IReadOnlyList<SectionCount> Counts =>
        [.. check.Sections.Select((s, i) => new SectionCount(s.Section, cases[i], failures[i], smallest[i]))];

    /// <summary>The sections of a program before any step.</summary>
    public static IReadOnlyList<SectionCount> Nothing(CheckProgram check) =>
        [.. check.Sections.Select(s => new SectionCount(s.Section, 0, 0, null))];

    /// <summary>Runs steps from..to (to not included); stops early when asked and tells how far it came.</summary>
    public long Run(long from, long to, CancellationToken stop = default)
    {
        var inARow = check.Space.StepsInARow;
        sweep.Begin();
        for (var step = from; step < to; step++)
        {
            if ((step & 255) == 0 && stop.IsCancellationRequested)
            {
                return step;
            }
            sweep.Set(step);
            if (start is not null && (step == from || step % inARow == 0))
            {
                start.Run(sweep.Memory.Span);
            }
            sweep.Run();
            for (var s = 0; s < cases.Length; s++)
            {
                if (Count(s, lanes) && MayBeSmaller(s, step))
                {
                    smallestOfStep ??= new SmallestOfStep(check.Space);
                    smallest[s] = smallestOfStep.Of(step, Failing(s, lanes), smallest[s]);
                }
            }
        }
        return to;
    }

    /// <summary>Runs cases of one's own choice; the program must have no oracle, whose state goes with steps.</summary>
    public void Run(IReadOnlyList<BigInteger[]> operands)
    {
        if (check.Oracle is not null)
        {
            throw new InvalidOperationException("chosen cases need a program whose laws are written out");
        }
        for (var from = 0; from < operands.Count; from += PlaneMemory.Lanes)
        {
            BigInteger[][] some = [.. operands.Skip(from).Take(PlaneMemory.Lanes)];
            SetCases(some);
            sweep.Run();
            ulong[] used = [.. Enumerable.Range(0, PlaneMemory.Words).Select(w => Used(some.Length - 64 * w))];
            for (var s = 0; s < cases.Length; s++)
            {
                if (Count(s, used))
                {
                    foreach (var lane in PlaneMemory.Ones(Failing(s, used)))
                    {
                        smallest[s] = FailingCase.Smaller(smallest[s], FailingCase.Of(check.Space, some[lane]));
                    }
                }
            }
        }
    }

    private void SetCases(BigInteger[][] operands)
    {
        var slot = PlaneProgram.InputSlot(0);
        foreach (var operand in check.Space.Operands)
        {
            // Bytes, since shifting a wide number once for each of its bits would take longer than the gates.
            var size = (operand.Width + 7) / 8;
            var bytes = new byte[size * operands.Length];
            for (var lane = 0; lane < operands.Length; lane++)
            {
                operands[lane][operand.Index].TryWriteBytes(bytes.AsSpan(lane * size, size), out _, isUnsigned: true);
            }
            for (var bit = 0; bit < operand.Width; bit++)
            {
                var plane = Plane(slot++);
                plane.Clear();
                for (var lane = 0; lane < operands.Length; lane++)
                {
                    var one = (ulong)(bytes[lane * size + bit / 8] >> (bit % 8)) & 1;
                    plane[lane / 64] |= one << (lane % 64);
                }
            }
        }
    }

    /// <summary>Counts one section's cases and failures in the lanes used, and tells whether there are failures.</summary>
    private bool Count(int section, ReadOnlySpan<ulong> used)
    {
        var outputs = check.Program.Outputs;
        cases[section] += Ones(outputs[2 * section], used);
        var fails = outputs[2 * section + 1];
        if (!fails.Turned && !Plane(fails.Slot).ContainsAnyExcept(0UL))
        {
            return false;
        }
        var count = Ones(fails, used);
        failures[section] += count;
        return count > 0;
    }

    private int Ones(PlaneProgram.Output output, ReadOnlySpan<ulong> used)
    {
        var plane = Plane(output.Slot);
        var turn = output.Turned ? ulong.MaxValue : 0;
        var ones = 0;
        for (var w = 0; w < plane.Length && w < used.Length; w++)
        {
            ones += BitOperations.PopCount((plane[w] ^ turn) & used[w]);
        }
        return ones;
    }

    /// <summary>Whether any case of a step can rank before the smallest known.</summary>
    private bool MayBeSmaller(int section, long step) =>
        smallest[section] is not { } known || check.Space.LeastSum(step) <= known.Rank.Sum;

    /// <summary>The lanes used in which a section fails.</summary>
    private ReadOnlySpan<ulong> Failing(int section, ReadOnlySpan<ulong> used)
    {
        var fails = check.Program.Outputs[2 * section + 1];
        var plane = Plane(fails.Slot);
        var turn = fails.Turned ? ulong.MaxValue : 0;
        for (var w = 0; w < failing.Length; w++)
        {
            failing[w] = (plane[w] ^ turn) & used[w];
        }
        return failing;
    }
}
