using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Numbers;

namespace Reckoner.Running;

/// <summary>
/// What the cycles of a walk added to a result or took from it, in the result's own units: what stood there at the load and all
/// gains make up the result exactly.
/// </summary>
/// <param name="Loaded">What of the result was there from the load.</param>
/// <param name="Gains">For each cycle, 0 being the load, what it added; less than 0 where it took something away.</param>
internal sealed record Tally(BigInteger Loaded, IReadOnlyList<BigInteger> Gains)
{
    /// <summary>
    /// Goes back from the result and asks what each bit counts in it: a bit that moves counts what its new place counts, the
    /// inputs of an adder count what its output does. Null where a result comes about otherwise than by moving, adding and
    /// subtracting, or where an adder's output counts no longer as the number it is.
    /// </summary>
    /// <param name="result">By its place in the text.</param>
    public static Tally? Of(Walk walk, IReadOnlyList<ProvenanceRow> provenance, int result)
    {
        var sources = Provenance.OfResults(walk)[result];
        var isSigned = walk.Datapath.Results[result].Value.Reading == Reading.Signed;
        var counts = new Counts();
        var registers = walk.Rows[^1].Registers;
        for (var bit = 0; bit < sources.Count; bit++)
        {
            counts.Add(sources[bit], CountOf(bit, sources.Count, isSigned), registers);
        }
        var gains = new BigInteger[walk.Rows.Count];
        for (var cycle = walk.Cycles; cycle > 0 && counts.IsWhole; cycle--)
        {
            var row = walk.Rows[cycle];
            var before = new Counts { Constant = counts.Constant };
            foreach (var ((register, bit), count) in counts.Registers)
            {
                var isOne = !(row.Registers[register.Index] >> bit).IsEven;
                before.Add(provenance[cycle].Sources[register.Index][bit], count, isOne);
            }
            gains[cycle] = new TallyOfEdge(row, provenance, before).Gain();
            counts = before;
        }
        return counts.IsWhole ? new Tally(counts.Constant + counts.Held(walk.Rows[0].Registers), gains) : null;
    }

    /// <summary>Whether an output counts what its inputs do, together.</summary>
    internal static bool Adds(Value value) =>
        value.Operation is Operation.Add or Operation.Subtract or Operation.CarrySaveSum;

    internal static BigInteger CountOf(int bit, int width, bool isSigned) =>
        isSigned && bit == width - 1 ? -(BigInteger.One << bit) : BigInteger.One << bit;
}

/// <summary>What bits count in a result, at one moment of a walk.</summary>
internal sealed class Counts
{
    public Dictionary<(Register Register, int Bit), BigInteger> Registers { get; } = [];

    /// <summary>Of what units compute in the edge, by the bit of their output.</summary>
    public Dictionary<Value, Dictionary<int, BigInteger>> Units { get; } = [];

    public BigInteger Constant { get; set; }

    /// <summary>False once a bit that is 1 came out of what neither moves nor adds.</summary>
    public bool IsWhole { get; set; } = true;

    public BigInteger Held(IReadOnlyList<BigInteger> registers) =>
        Registers.Aggregate(
            BigInteger.Zero,
            (sum, r) => (registers[r.Key.Register.Index] >> r.Key.Bit).IsEven ? sum : sum + r.Value
        );

    public void Add(BitSource source, BigInteger count, IReadOnlyList<BigInteger> registers) =>
        Add(source, count, source.Register is { } r && !(registers[r.Index] >> source.Bit).IsEven);

    /// <param name="isOne">What the bit is.</param>
    public void Add(BitSource source, BigInteger count, bool isOne)
    {
        if (source.Kind == SourceKind.Register)
        {
            var key = (source.Register!, source.Bit);
            Registers[key] = Registers.GetValueOrDefault(key) + count;
        }
        else if (source.Kind == SourceKind.Unit && Tally.Adds(source.Value!))
        {
            Units.TryAdd(source.Value!, []);
            var bits = Units[source.Value!];
            bits[source.Bit] = bits.GetValueOrDefault(source.Bit) + count;
        }
        else if (isOne)
        {
            Constant += count;
            IsWhole &= source.Kind == SourceKind.Constant;
        }
    }
}

/// <summary>What the adders of one edge gained, from the last back to the first.</summary>
internal sealed class TallyOfEdge(Row row, IReadOnlyList<ProvenanceRow> provenance, Counts counts)
{
    private BigInteger gain;

    public BigInteger Gain()
    {
        foreach (var happening in row.Moments.SelectMany(m => m.Happenings).Reverse())
        {
            if (happening is Summed { Value: var sum } summed && counts.Units.Remove(sum, out var own))
            {
                var output = summed.Bits | (summed.GivesCarry ? BigInteger.One << sum.Width : 0);
                Spread(sum, own, output, [summed.Left, summed.Right], i => i);
            }
            else if (happening is CarrySaved { Value: var pair } saved && counts.Units.Remove(pair, out own))
            {
                // The word of carries counts twice what the word of sums does.
                var output = saved.Sum | (saved.Carry << pair.Width);
                Spread(pair, own, output, saved.Words, i => i < pair.Width ? i : i - pair.Width + 1);
            }
        }
        counts.IsWhole &= counts.Units.Count == 0;
        return gain;
    }

    /// <param name="own">What the output's bits count.</param>
    /// <param name="place">At which place of a number a bit of the output stands.</param>
    private void Spread(
        Value value,
        Dictionary<int, BigInteger> own,
        BigInteger output,
        IReadOnlyList<BigInteger> words,
        Func<int, int> place
    )
    {
        var first = own.MinBy(o => place(o.Key));
        var scale = first.Value >> place(first.Key);
        var counted = own.Aggregate(BigInteger.Zero, (sum, o) => (output >> o.Key).IsEven ? sum : sum + o.Value);
        foreach (var isSigned in Readings(value))
        {
            var numbers = words.Select(w => isSigned ? Bits.AsSigned(w, value.Width) : w).ToList();
            if (scale.Sign > 0 && scale << place(first.Key) == first.Value && counted == scale * Exact(value, numbers))
            {
                Spread(value, scale, words, numbers, isSigned);
                return;
            }
        }
        counts.IsWhole = false;
    }

    private static bool[] Readings(Value value) => value.Reading == Reading.Signed ? [true, false] : [false, true];

    private static BigInteger Exact(Value value, List<BigInteger> numbers) =>
        value.Operation == Operation.Subtract
            ? numbers[0] - numbers[1]
            : numbers.Aggregate(BigInteger.Zero, (sum, n) => sum + n);

    private void Spread(
        Value value,
        BigInteger scale,
        IReadOnlyList<BigInteger> words,
        List<BigInteger> numbers,
        bool isSigned
    )
    {
        var fed = provenance[row.Cycle].Fed[value];
        var goesOn = GoOn(value, fed, numbers);
        for (var i = 0; i < words.Count; i++)
        {
            var sign = value.Operation == Operation.Subtract && i == 1 ? -scale : scale;
            if (!goesOn[i])
            {
                gain += sign * numbers[i];
                continue;
            }
            for (var bit = 0; bit < value.Width; bit++)
            {
                counts.Add(fed[i][bit], sign * Tally.CountOf(bit, value.Width, isSigned), !(words[i] >> bit).IsEven);
            }
        }
    }

    /// <summary>Which inputs are what has been gathered so far. The others are what is added to it or taken from it.</summary>
    private bool[] GoOn(Value value, IReadOnlyList<IReadOnlyList<BitSource>> fed, List<BigInteger> numbers)
    {
        if (value.Operation == Operation.Subtract)
        {
            return [true, false];
        }
        bool[] gathered = [.. fed.Select(sources => sources.Any(IsSum))];
        if (gathered.Contains(value: true))
        {
            return gathered;
        }
        var start = numbers.FindIndex(n => n.IsZero);
        return [.. numbers.Select((_, i) => i == Math.Max(start, 0))];
    }

    /// <summary>Whether a bit is one of a sum that an earlier cycle, and not the load, has made or that goes on from one.</summary>
    private bool IsSum(BitSource source)
    {
        var cycle = row.Cycle;
        while (source.Kind == SourceKind.Register && cycle > 0)
        {
            cycle--;
            source = provenance[cycle].Sources[source.Register!.Index][source.Bit];
        }
        return cycle > 0
            && source is { Kind: SourceKind.Unit, Value: { } sum }
            && Tally.Adds(sum)
            && (source.Bit < sum.Width || sum.Operation == Operation.CarrySaveSum)
            && (cycle < row.Cycle || provenance[cycle].Fed[sum].Any(fed => fed.Any(IsSum)));
    }
}
