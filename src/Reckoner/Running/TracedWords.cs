using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Execution;

namespace Reckoner.Running;

/// <summary>A number, and for each of its bits from the lowest where it comes from.</summary>
internal readonly record struct TracedWord(BigInteger Bits, BitSource[] Sources)
{
    /// <summary>Of a bit that was turned over: where the bit came from that it was before.</summary>
    public BitSource? Turned { get; init; }
}

/// <summary>
/// Words as numbers beside the places their bits come from: through slices, joins, shifts and the choices as they fall, up to what
/// computes them. Every way of a decision is executed, since a constant was decided only where another way leaves something else.
/// </summary>
/// <param name="operands">The operands' bits, in the order of the text.</param>
internal sealed class TracedWords(Datapath datapath, IReadOnlyList<BigInteger> operands) : IWordDomain<TracedWord>
{
    private readonly NumberWords numbers = new(operands);
    private BigInteger[] plain = new BigInteger[4];

    public bool TakesAllWays => true;

    public TracedWord Word(Value v, ReadOnlySpan<TracedWord> x)
    {
        if (x.Length > plain.Length)
        {
            plain = new BigInteger[2 * x.Length];
        }
        for (var i = 0; i < x.Length; i++)
        {
            plain[i] = x[i].Bits;
        }
        return Traced(v, x, numbers.Word(v, plain.AsSpan(0, x.Length)));
    }

    private TracedWord Traced(Value v, ReadOnlySpan<TracedWord> x, BigInteger bits) =>
        v.Operation switch
        {
            Operation.Unknown => throw new InvalidOperationException("a datapath has no unknown values"),
            Operation.Register or Operation.Wire or Operation.Reread => x[0],
            Operation.Constant => new(bits, Constant(bits, v.Width)),
            Operation.Operand => new(
                bits,
                Each(v.Width, i => new BitSource(SourceKind.Operand, i, Operand: v.Operand))
            ),
            Operation.Slice => new(bits, x[0].Sources[v.Low..(v.Low + v.Width)]),
            Operation.Join => new(bits, Joined(x)),
            Operation.Copies => new(bits, Each(v.Width, x[0].Sources[0])),
            Operation.Extend => new(bits, Extended(v, x[0].Sources)),
            Operation.ShiftLeft => new(bits, [.. x[1].Sources, .. x[0].Sources[..^x[1].Sources.Length]]),
            Operation.ShiftRight => new(bits, [.. x[0].Sources[x[1].Sources.Length..], .. x[1].Sources]),
            Operation.Choose => Chosen(v.Inputs[0], x[0], x[1], x[2]),
            Operation.Select => Selected(v, x),
            Operation.Add
            or Operation.Subtract
            or Operation.Negate
            or Operation.Magnitude
            or Operation.Multiply
            or Operation.CarrySaveSum => new(bits, Out(SourceKind.Unit, v)),
            Operation.CarrySaveCarry => new(bits, Second(v, v.Inputs[0].Width)),
            Operation.Carry or Operation.Borrow => new(bits, Second(v, v.Inputs[0].Width)),
            Operation.Lookup => new(bits, Out(SourceKind.Table, v)),
            Operation.Less when v.IsSignTest => new(bits, [x[0].Sources[^1]]),
            Operation.Not when v.Width == 1 => Turned(v, x[0], bits),
            Operation.Last
            or Operation.Equal
            or Operation.Unequal
            or Operation.Less
            or Operation.LessOrEqual
            or Operation.Greater
            or Operation.GreaterOrEqual => new(bits, Out(SourceKind.Decision, v)),
            Operation.And or Operation.Or or Operation.Xor or Operation.Not => new(
                bits,
                Out(v.Width == 1 ? SourceKind.Decision : SourceKind.Gates, v)
            ),
        };

    private static BitSource[] Each(int width, Func<int, BitSource> source) =>
        [.. Enumerable.Range(0, width).Select(source)];

    private static BitSource[] Each(int width, BitSource source)
    {
        var sources = new BitSource[width];
        Array.Fill(sources, source);
        return sources;
    }

    private static BitSource[] Constant(BigInteger bits, int width) =>
        Each(width, i => (bits >> i).IsEven ? BitSource.Zero : BitSource.One);

    private static BitSource[] Out(SourceKind kind, Value v) => Each(v.Width, i => new BitSource(kind, i, Value: v));

    /// <summary>A second output stands above the places of the first.</summary>
    private static BitSource[] Second(Value v, int above) =>
        Each(v.Width, i => new BitSource(SourceKind.Unit, above + i, Value: v.Inputs[0]));

    private static BitSource[] Joined(ReadOnlySpan<TracedWord> parts)
    {
        var joined = new List<BitSource>();
        for (var i = parts.Length - 1; i >= 0; i--)
        {
            joined.AddRange(parts[i].Sources);
        }
        return [.. joined];
    }

    private static BitSource[] Extended(Value v, BitSource[] inner)
    {
        var above = v.Reading == Reading.Signed ? inner[^1] : BitSource.Zero;
        return [.. inner, .. Each(v.Width - inner.Length, above)];
    }

    /// <summary>A bit turned over twice is the bit it was.</summary>
    private static TracedWord Turned(Value v, TracedWord bit, BigInteger bits) =>
        new(bits, [bit.Turned ?? new BitSource(SourceKind.Decision, 0, Value: v)]) { Turned = bit.Sources[0] };

    private TracedWord Selected(Value v, ReadOnlySpan<TracedWord> x)
    {
        var chosen = x[^1];
        for (var i = v.Arms.Count - 2; i >= 0; i--)
        {
            chosen = Chosen(v.Inputs[0], Matches(v.Inputs[0], x[0], v.Arms[i]), x[i + 1], chosen);
        }
        return chosen;
    }

    // ---- decisions

    public TracedWord Bit(bool isOne) =>
        isOne ? new(BigInteger.One, [BitSource.One]) : new(BigInteger.Zero, [BitSource.Zero]);

    public TracedWord Both(TracedWord a, TracedWord b) =>
        a.Sources[0] == BitSource.One ? b
        : b.Sources[0] == BitSource.One ? a
        : new(a.Bits & b.Bits, [new BitSource(SourceKind.Decision, 0, Value: a.Sources[0].Value)]);

    public TracedWord Not(TracedWord bit) =>
        new(
            BigInteger.One - bit.Bits,
            [bit.Turned ?? new BitSource(SourceKind.Decision, 0, Value: bit.Sources[0].Value)]
        )
        {
            Turned = bit.Sources[0],
        };

    public TracedWord Matches(Value subject, TracedWord word, ArmPatterns arm)
    {
        if (arm.IsElse)
        {
            return Bit(isOne: true);
        }
        var isOne = arm.Matches(word.Bits);
        if (subject.Width > 1 || arm.Matches(BigInteger.Zero) == arm.Matches(BigInteger.One))
        {
            var bits = isOne ? BigInteger.One : BigInteger.Zero;
            return new(bits, [new BitSource(SourceKind.Decision, 0, Value: subject)]);
        }
        return arm.Matches(BigInteger.One) ? word : Not(word);
    }

    public bool? IsOne(TracedWord bit) => bit.Bits.IsOne;

    public TracedWord Chosen(Value? question, TracedWord bit, TracedWord then, TracedWord otherwise)
    {
        var (taken, other) = bit.Bits.IsOne ? (then, otherwise) : (otherwise, then);
        if (question is not null && IsOfCounter(question))
        {
            return taken;
        }
        BitSource[]? decided = null;
        for (var i = 0; i < taken.Sources.Length && !ReferenceEquals(taken.Sources, other.Sources); i++)
        {
            if (taken.Sources[i].Kind == SourceKind.Constant && taken.Sources[i] != other.Sources[i])
            {
                decided ??= [.. taken.Sources];
                decided[i] =
                    other.Sources[i].Kind != SourceKind.Constant ? Decided(question, bit)
                    : then.Sources[i] == BitSource.One ? bit.Sources[0]
                    : bit.Turned ?? Decided(question, bit);
            }
        }
        return decided is null ? taken : new(taken.Bits, decided);
    }

    /// <summary>
    /// Whether only the round counter is asked, as in "if not last": that is the same for all operands, and what is written then
    /// was decided by nobody.
    /// </summary>
    private static bool IsOfCounter(Value question) =>
        question.Operation switch
        {
            Operation.Last => true,
            Operation.Wire => IsOfCounter(question.Wire!.Value),
            Operation.Not => IsOfCounter(question.Inputs[0]),
            Operation.Unknown
            or Operation.Constant
            or Operation.Operand
            or Operation.Register
            or Operation.Slice
            or Operation.Join
            or Operation.Copies
            or Operation.Reread
            or Operation.Extend
            or Operation.ShiftLeft
            or Operation.ShiftRight
            or Operation.Add
            or Operation.Subtract
            or Operation.Negate
            or Operation.Magnitude
            or Operation.Multiply
            or Operation.CarrySaveSum
            or Operation.CarrySaveCarry
            or Operation.Carry
            or Operation.Borrow
            or Operation.And
            or Operation.Or
            or Operation.Xor
            or Operation.Equal
            or Operation.Unequal
            or Operation.Less
            or Operation.LessOrEqual
            or Operation.Greater
            or Operation.GreaterOrEqual
            or Operation.Choose
            or Operation.Select
            or Operation.Lookup => false,
        };

    private static BitSource Decided(Value? question, TracedWord bit) =>
        bit.Sources[0].Kind == SourceKind.Decision
            ? bit.Sources[0]
            : new BitSource(SourceKind.Decision, 0, Value: question);

    // ---- registers

    public TracedWord Stored(TracedWord register, Place place, TracedWord word, int low)
    {
        BitSource[] sources = [.. register.Sources];
        word.Sources.AsSpan(low, place.Width).CopyTo(sources.AsSpan(place.Low));
        return new(numbers.Stored(register.Bits, place, word.Bits, low), sources);
    }

    /// <summary>In a new cycle, bits come out of registers as they were before it.</summary>
    public TracedWord Latched(int register, TracedWord word)
    {
        var held = datapath.Registers[register];
        return new(word.Bits, Each(held.Width, i => new BitSource(SourceKind.Register, i, held)));
    }
}
