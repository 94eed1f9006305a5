using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Numbers;

namespace Reckoner.Execution;

/// <summary>
/// Words as whole numbers, from 0 to 2^width - 1: the slow, obvious meaning of every operation, against which the fast ones are
/// checked.
/// </summary>
/// <param name="operands">The operands' bits, in the order of the text; none where only registers are read.</param>
public sealed class NumberWords(IReadOnlyList<BigInteger> operands) : IWordDomain<BigInteger>
{
    /// <summary>Reads values over registers alone, by their index.</summary>
    public static Func<Value, BigInteger> Over(IReadOnlyList<BigInteger> registers)
    {
        var execution = new Execution<BigInteger>(new NumberWords([]));
        execution.Begin(registers);
        return execution.Word;
    }

    public bool TakesAllWays => false;

    public BigInteger Word(Value v, ReadOnlySpan<BigInteger> x) =>
        v.Operation switch
        {
            Operation.Unknown => throw new InvalidOperationException("a datapath has no unknown values"),
            Operation.Constant => v.Bits,
            Operation.Operand => operands[v.Operand!.Index],
            Operation.Register or Operation.Wire or Operation.Last or Operation.Reread => x[0],
            Operation.Slice => Bits.Wrap(x[0] >> v.Low, v.Width),
            Operation.Join => Joined(v, x),
            Operation.Copies => x[0].IsOne ? Bits.Mask(v.Width) : 0,
            Operation.Extend => v.Reading == Reading.Signed ? Bits.Wrap(v.Inputs[0].Number(x[0]), v.Width) : x[0],
            Operation.ShiftLeft => Bits.Wrap((x[0] << v.Inputs[1].Width) | x[1], v.Width),
            Operation.ShiftRight => (x[0] >> v.Inputs[1].Width) | (x[1] << (v.Width - v.Inputs[1].Width)),
            Operation.Add => Bits.Wrap(x[0] + x[1], v.Width),
            Operation.Subtract => Bits.Wrap(x[0] - x[1], v.Width),
            Operation.Negate => Bits.Wrap(-x[0], v.Width),
            Operation.Magnitude => BigInteger.Abs(v.Inputs[0].Number(x[0])),
            Operation.Multiply => Bits.Wrap(v.Inputs[0].Number(x[0]) * v.Inputs[1].Number(x[1]), v.Width),
            Operation.CarrySaveSum => x[0] ^ x[1] ^ x[2],
            Operation.CarrySaveCarry => (x[0] & x[1]) | (x[0] & x[2]) | (x[1] & x[2]),
            Operation.Carry => (x[0] + x[1]) >> v.Inputs[0].Width,
            Operation.Borrow => Bit(x[0] < x[1]),
            Operation.And => x[0] & x[1],
            Operation.Or => x[0] | x[1],
            Operation.Xor => x[0] ^ x[1],
            Operation.Not => Bits.Mask(v.Width) ^ x[0],
            Operation.Equal => Bit(Order(v, x) == 0),
            Operation.Unequal => Bit(Order(v, x) != 0),
            Operation.Less => Bit(Order(v, x) < 0),
            Operation.LessOrEqual => Bit(Order(v, x) <= 0),
            Operation.Greater => Bit(Order(v, x) > 0),
            Operation.GreaterOrEqual => Bit(Order(v, x) >= 0),
            Operation.Choose => x[0].IsOne ? x[1] : x[2],
            Operation.Select => x[1 + ArmPatterns.Acting(v.Arms, x[0])],
            Operation.Lookup => v.Table!.Cells[(int)Joined(v, x)],
        };

    /// <summary>The inputs side by side, the first on top.</summary>
    private static BigInteger Joined(Value v, ReadOnlySpan<BigInteger> x)
    {
        var joined = BigInteger.Zero;
        for (var i = 0; i < x.Length; i++)
        {
            joined = (joined << v.Inputs[i].Width) | x[i];
        }
        return joined;
    }

    /// <summary>A bare side takes the other's reading: literals beside a signed word are signed.</summary>
    private static int Order(Value v, ReadOnlySpan<BigInteger> x) =>
        v.Inputs[0].Reading == Reading.Signed || v.Inputs[1].Reading == Reading.Signed
            ? Bits.AsSigned(x[0], v.Inputs[0].Width).CompareTo(Bits.AsSigned(x[1], v.Inputs[1].Width))
            : x[0].CompareTo(x[1]);

    public BigInteger Bit(bool isOne) => isOne ? BigInteger.One : BigInteger.Zero;

    public BigInteger Both(BigInteger a, BigInteger b) => a & b;

    public BigInteger Not(BigInteger bit) => BigInteger.One - bit;

    public BigInteger Matches(Value subject, BigInteger word, ArmPatterns arm) => Bit(arm.Matches(word));

    public bool? IsOne(BigInteger bit) => bit.IsOne;

    public BigInteger Chosen(Value? question, BigInteger bit, BigInteger then, BigInteger otherwise) =>
        bit.IsOne ? then : otherwise;

    public BigInteger Stored(BigInteger register, Place place, BigInteger word, int low) =>
        (register & (Bits.Mask(place.Register.Width) ^ place.Mask))
        | (Bits.Wrap(word >> low, place.Width) << place.Low);

    public BigInteger Latched(int register, BigInteger word) => word;
}
