using System.Numerics;
using Reckoner.Datapaths;

namespace Reckoner.Checking;

/// <summary>A case that fails, with its rank: smaller sum of magnitudes, then fewer negatives, then second operand, then first.</summary>
public sealed record FailingCase(IReadOnlyList<BigInteger> Operands, Rank Rank);

/// <summary>The order in which failing operands count as small.</summary>
public readonly record struct Rank(BigInteger Sum, int Negatives, BigInteger Second, BigInteger First)
    : IComparable<Rank>
{
    public static Rank Of(IReadOnlyList<Operand> operands, IReadOnlyList<BigInteger> bits) =>
        OfNumbers([.. operands.Select(o => Evaluator.Number(o, bits[o.Index]))]);

    public static Rank OfNumbers(IReadOnlyList<BigInteger> numbers)
    {
        return new Rank(
            numbers.Aggregate(BigInteger.Zero, (sum, n) => sum + BigInteger.Abs(n)),
            numbers.Count(n => n.Sign < 0),
            numbers.Count > 1 ? BigInteger.Abs(numbers[1]) : 0,
            numbers.Count > 0 ? BigInteger.Abs(numbers[0]) : 0
        );
    }

    public int CompareTo(Rank other) =>
        (Sum, Negatives, Second, First).CompareTo((other.Sum, other.Negatives, other.Second, other.First));

    public static bool operator <(Rank a, Rank b) => a.CompareTo(b) < 0;

    public static bool operator >(Rank a, Rank b) => a.CompareTo(b) > 0;

    public static bool operator <=(Rank a, Rank b) => a.CompareTo(b) <= 0;

    public static bool operator >=(Rank a, Rank b) => a.CompareTo(b) >= 0;
}

/// <summary>What a stretch of cases gave in one section.</summary>
public sealed record SectionCount(string Name, BigInteger Cases, BigInteger Failures, FailingCase? Smallest)
{
    public static SectionCount operator +(SectionCount a, SectionCount b) =>
        new(a.Name, a.Cases + b.Cases, a.Failures + b.Failures, Smaller(a.Smallest, b.Smallest));

    private static FailingCase? Smaller(FailingCase? a, FailingCase? b) =>
        a is null ? b
        : b is null ? a
        : a.Rank <= b.Rank ? a
        : b;
}

/// <summary>
/// Runs a check program over a stretch of steps with one engine. The memory belongs to it: one run per thread. Needs the program;
/// leaves counts and the smallest failing operands of every section.
/// </summary>
public sealed class CheckRun
{
    private readonly CheckProgram check;
    private readonly IPlaneKernel kernel;
    private readonly ulong[] memory;
    private readonly ulong[] lanes;
    private readonly (int Slot, int Bit)[] stepped;
    private readonly BigInteger[] cases;
    private readonly BigInteger[] failures;
    private readonly FailingCase?[] smallest;

    public CheckRun(CheckProgram check, IPlaneEngine engine)
    {
        this.check = check;
        kernel = engine.Compile(check.Program);
        memory = GC.AllocateArray<ulong>(check.Program.Slots * PlaneMemory.Words, pinned: true);
        var inputs = check.Space.Inputs.ToList();
        stepped =
        [
            .. inputs
                .Select((p, i) => (p, i))
                .Where(x => !x.p.IsLane)
                .Select(x => (PlaneProgram.InputSlot(x.i), x.p.Index)),
        ];
        for (var i = 0; i < inputs.Count; i++)
        {
            if (inputs[i].IsLane)
            {
                CaseSpace.FillLane(inputs[i].Index, Plane(PlaneProgram.InputSlot(i)));
            }
        }
        // Fewer cases than lanes: the lanes left over repeat cases and are not counted.
        lanes = [.. Enumerable.Range(0, PlaneMemory.Words).Select(w => Used(check.Space.Lanes - 64 * w))];
        var sections = check.Sections.Count;
        cases = new BigInteger[sections];
        failures = new BigInteger[sections];
        smallest = new FailingCase?[sections];
    }

    private static ulong Used(int lanes) =>
        lanes >= 64 ? ulong.MaxValue
        : lanes <= 0 ? 0
        : (1UL << lanes) - 1;

    private Span<ulong> Plane(int slot) => memory.AsSpan(slot * PlaneMemory.Words, PlaneMemory.Words);

    public IReadOnlyList<SectionCount> Counts =>
        [.. check.Sections.Select((s, i) => new SectionCount(s.Name, cases[i], failures[i], smallest[i]))];

    /// <summary>Runs steps from..to (to not included); stops early when asked and tells how far it came.</summary>
    public long Run(long from, long to, CancellationToken stop = default)
    {
        for (var step = from; step < to; step++)
        {
            if ((step & 255) == 0 && stop.IsCancellationRequested)
            {
                return step;
            }
            SetStep(step, step == from ? -1 : step ^ (step - 1));
            if (check.Oracle is not null && (step == from || Restarts(step)))
            {
                SetState(step);
            }
            kernel.Run(memory);
            var here = step;
            for (var s = 0; s < cases.Length; s++)
            {
                Count(s, lanes, lane => check.Space.At(here, lane), section => MayBeSmaller(section, here));
            }
            if (check.Oracle is not null)
            {
                Advance();
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
            var some = operands.Skip(from).Take(PlaneMemory.Lanes).ToList();
            SetCases(some);
            kernel.Run(memory);
            ulong[] used = [.. Enumerable.Range(0, PlaneMemory.Words).Select(w => Used(some.Count - 64 * w))];
            for (var s = 0; s < cases.Length; s++)
            {
                Count(s, used, lane => some[lane], _ => true);
            }
        }
    }

    private void SetCases(List<BigInteger[]> operands)
    {
        var slot = PlaneProgram.InputSlot(0);
        foreach (var operand in check.Space.Operands)
        {
            for (var bit = 0; bit < operand.Width; bit++)
            {
                var plane = Plane(slot++);
                plane.Clear();
                for (var lane = 0; lane < operands.Count; lane++)
                {
                    if (!(operands[lane][operand.Index] >> bit).IsEven)
                    {
                        plane[lane / 64] |= 1UL << (lane % 64);
                    }
                }
            }
        }
    }

    private void SetStep(long step, long changed)
    {
        foreach (var (slot, bit) in stepped)
        {
            if (((changed >> bit) & 1) != 0)
            {
                Plane(slot).Fill(((step >> bit) & 1) != 0 ? ulong.MaxValue : 0);
            }
        }
    }

    /// <summary>The first operand counts up by one only while its low bits last, its sign bit left out.</summary>
    private bool Restarts(long step)
    {
        var first = check.Space.Operands[0];
        var bits = Math.Min(check.Space.FirstStepBits, first.IsSigned ? first.Width - 1 : first.Width);
        return (step & ((1L << bits) - 1)) == 0;
    }

    private void SetState(long step)
    {
        var bits = check.Oracle!.StateBits;
        var slot = PlaneProgram.InputSlot(check.Space.Bits);
        memory.AsSpan(slot * PlaneMemory.Words, bits * PlaneMemory.Words).Clear();
        for (var lane = 0; lane < check.Space.Lanes; lane++)
        {
            var state = check.Oracle.StateAt(check.Space.At(step, lane));
            for (var bit = 0; !state.IsZero; bit++, state >>= 1)
            {
                if (!state.IsEven)
                {
                    memory[(slot + bit) * PlaneMemory.Words + lane / 64] |= 1UL << (lane % 64);
                }
            }
        }
    }

    /// <summary>The outputs behind the sections' are the state for the next step.</summary>
    private void Advance()
    {
        var outputs = check.Program.Outputs;
        for (var i = 2 * cases.Length; i < outputs.Count; i++)
        {
            var to = Plane(PlaneProgram.InputSlot(check.Space.Bits + i - 2 * cases.Length));
            var from = Plane(outputs[i].Slot);
            if (!outputs[i].Turned)
            {
                from.CopyTo(to);
                continue;
            }
            for (var w = 0; w < to.Length; w++)
            {
                to[w] = ~from[w];
            }
        }
    }

    /// <summary>Counts one section's cases and failures in the lanes used, and looks for smaller failing operands.</summary>
    private void Count(int section, ReadOnlySpan<ulong> used, Func<int, BigInteger[]> at, Func<int, bool> mayBeSmaller)
    {
        var outputs = check.Program.Outputs;
        cases[section] += Ones(outputs[2 * section], used);
        var fails = outputs[2 * section + 1];
        if (!fails.Turned && !Plane(fails.Slot).ContainsAnyExcept(0UL))
        {
            return;
        }
        var count = Ones(fails, used);
        failures[section] += count;
        if (count > 0 && mayBeSmaller(section))
        {
            Search(section, fails, used, at);
        }
    }

    private int Ones(PlaneProgram.Output output, ReadOnlySpan<ulong> used)
    {
        var plane = Plane(output.Slot);
        var turn = output.Turned ? ulong.MaxValue : 0;
        var ones = 0;
        for (var w = 0; w < plane.Length; w++)
        {
            ones += BitOperations.PopCount((plane[w] ^ turn) & used[w]);
        }
        return ones;
    }

    /// <summary>
    /// Whether any case of a step can rank before the smallest known: the bits that run over steps set a floor under the sum
    /// of magnitudes. A signed operand's floor is taken over both signs.
    /// </summary>
    private bool MayBeSmaller(int section, long step)
    {
        if (smallest[section] is not { } known)
        {
            return true;
        }
        var floor = BigInteger.Zero;
        var bits = check.Space.At(step, 0);
        foreach (var operand in check.Space.Operands)
        {
            var stepsOnly = bits[operand.Index];
            floor += operand.IsSigned ? 0 : stepsOnly;
        }
        return floor <= known.Rank.Sum;
    }

    private void Search(int section, PlaneProgram.Output fails, ReadOnlySpan<ulong> used, Func<int, BigInteger[]> at)
    {
        var plane = Plane(fails.Slot);
        var turn = fails.Turned ? ulong.MaxValue : 0;
        for (var w = 0; w < plane.Length; w++)
        {
            for (var left = (plane[w] ^ turn) & used[w]; left != 0; left &= left - 1)
            {
                var operands = at(64 * w + BitOperations.TrailingZeroCount(left));
                var rank = Rank.Of(check.Space.Operands, operands);
                if (smallest[section] is not { } known || rank < known.Rank)
                {
                    smallest[section] = new FailingCase(operands, rank);
                }
            }
        }
    }
}
