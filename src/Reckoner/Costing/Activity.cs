using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Execution;
using Reckoner.Numbers;

namespace Reckoner.Costing;

/// <summary>Bits that change in one operation, from the load's edge to its end, on average.</summary>
/// <param name="Register">Whose bits they are; null for those at the inputs of a unit.</param>
/// <param name="Unit">The unit, where they are at its inputs.</param>
public sealed record Toggles(Register? Register, Unit? Unit, Rational Average);

/// <summary>
/// How much changes in a machine while it works: register bits from edge to edge, and bits at the inputs of units from one time that
/// they are used to the next. It is counted and called activity; what energy a change takes is a matter of wires and cells.
/// </summary>
/// <param name="Operations">How many operations it was counted over.</param>
/// <param name="IsAll">Whether these are all operands inside "given"; else they are drawn, each as likely as any other.</param>
public sealed record Activity(
    int Operations,
    bool IsAll,
    int LeastCycles,
    Rational AverageCycles,
    int MostCycles,
    IReadOnlyList<Toggles> Toggles
)
{
    /// <summary>Of all registers and units together.</summary>
    public Rational Total => Toggles.Aggregate((Rational)0, (sum, t) => sum + t.Average);

    /// <summary>Up to so many bits of operands all of them are tried.</summary>
    internal const int MostBits = 12;

    /// <summary>So many are drawn where nothing else is said.</summary>
    internal const int Usual = 1_000;

    /// <summary>More are not drawn: each is a walk.</summary>
    internal const int MostDrawn = 100_000;

    internal const int UsualSeed = 1;

    /// <summary>Null where none of the operands lies inside "given".</summary>
    /// <param name="drawn">How many operands are drawn; null for all where they are few, else for the usual number.</param>
    internal static Activity? Of(Datapath datapath, int? drawn = null, int seed = UsualSeed)
    {
        var bits = datapath.Operands.Sum(o => o.Width);
        var isAll = drawn is null && bits <= MostBits;
        var operands = isAll
            ? Enumerable.Range(0, 1 << bits).Select(all => Cut(datapath, all))
            : Drawn(datapath, drawn ?? Usual, new Random(seed));
        var meter = new ActivityMeter(datapath);
        var cycles = new List<int>();
        foreach (var some in operands.Where(datapath.IsGiven))
        {
            cycles.Add(meter.Run(some));
        }
        return cycles.Count == 0
            ? null
            : new Activity(
                cycles.Count,
                isAll,
                cycles.Min(),
                Rational.Ratio(cycles.Sum(c => (long)c), cycles.Count),
                cycles.Max(),
                [
                    .. datapath.Registers.Select(r => new Toggles(r, null, Average(meter.OfRegisters[r.Index]))),
                    .. datapath
                        .Units.Where(meter.OfUnits.ContainsKey)
                        .Select(u => new Toggles(null, u, Average(meter.OfUnits[u]))),
                ]
            );

        Rational Average(long toggles) => Rational.Ratio(toggles, cycles.Count);
    }

    private static BigInteger[] Cut(Datapath datapath, BigInteger all)
    {
        var operands = new BigInteger[datapath.Operands.Count];
        foreach (var operand in datapath.Operands)
        {
            operands[operand.Index] = Bits.Wrap(all, operand.Width);
            all >>= operand.Width;
        }
        return operands;
    }

    /// <summary>Inside "given"; where that is hard to meet, fewer.</summary>
    private static IEnumerable<BigInteger[]> Drawn(Datapath datapath, int count, Random random)
    {
        var bits = datapath.Operands.Sum(o => o.Width);
        var bytes = new byte[(bits / 8) + 1];
        for (var (tries, found) = (0, 0); found < count && tries < 100 * count; tries++)
        {
            random.NextBytes(bytes);
            var operands = Cut(datapath, new BigInteger(bytes, isUnsigned: true));
            if (datapath.IsGiven(operands))
            {
                found++;
                yield return operands;
            }
        }
    }
}

/// <summary>Hears executions and counts what changes.</summary>
internal sealed class ActivityMeter : Observer<BigInteger>
{
    private readonly Datapath datapath;
    private readonly Dictionary<Value, Unit> served = new(ReferenceEqualityComparer.Instance);
    private readonly Dictionary<Unit, BigInteger[]> held = [];
    private BigInteger[] before = [];
    private int cycles;

    public ActivityMeter(Datapath datapath)
    {
        this.datapath = datapath;
        OfRegisters = new long[datapath.Registers.Count];
        foreach (var unit in datapath.Units)
        {
            foreach (var use in unit.Uses)
            {
                served[use.Value] = unit;
            }
        }
    }

    /// <summary>Bits that changed in all runs so far, by the registers' index.</summary>
    public long[] OfRegisters { get; }

    /// <summary>Of units that were used at all.</summary>
    public Dictionary<Unit, long> OfUnits { get; } = [];

    /// <summary>One operation.</summary>
    /// <returns>Its cycles.</returns>
    public int Run(IReadOnlyList<BigInteger> operands)
    {
        cycles = 0;
        held.Clear();
        var execution = new Execution<BigInteger>(new NumberWords(operands), this);
        execution.Load(datapath);
        execution.Run(datapath);
        return cycles;
    }

    /// <summary>What a loop asks is heard by nobody, but the units that it asks take their words.</summary>
    public override void AsksToGoOn(Cycle cycle) => Uses(cycle.Segment.While!);

    private void Uses(Value value)
    {
        var inputs = value.IsSecondOutput ? value.Inputs[0].Inputs : value.Inputs;
        foreach (var input in inputs)
        {
            Uses(input);
        }
        if (served.ContainsKey(value))
        {
            Computed(value, inputs.Select(Heard.Word).ToArray(), Heard.Word(value));
        }
    }

    public override void Begins(Cycle cycle, BigInteger active) => before = [.. Heard.Registers];

    public override void Ends(Cycle cycle)
    {
        cycles++;
        for (var i = 0; i < before.Length; i++)
        {
            OfRegisters[i] += Changed(before[i], Heard.Registers[i]);
        }
    }

    public override void Computed(Value value, ReadOnlySpan<BigInteger> inputs, BigInteger word)
    {
        if (!served.TryGetValue(value, out var unit))
        {
            return;
        }
        // What turns a sign or takes a magnitude subtracts its one word from 0.
        BigInteger[] now = inputs.Length == 1 ? [0, inputs[0]] : inputs.ToArray();
        // Comparators tell whether one word is less than another: for these two the words change sides.
        if (value.Operation is Operation.Greater or Operation.LessOrEqual)
        {
            Array.Reverse(now);
        }
        var changed = held.TryGetValue(unit, out var then) ? then.Zip(now, Changed).Sum() : 0;
        OfUnits[unit] = OfUnits.GetValueOrDefault(unit) + changed;
        held[unit] = now;
    }

    private static long Changed(BigInteger a, BigInteger b)
    {
        var ones = 0L;
        for (var left = a ^ b; !left.IsZero; left >>= 64)
        {
            ones += BitOperations.PopCount((ulong)(left & ulong.MaxValue));
        }
        return ones;
    }
}
