using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Numbers;

namespace Reckoner.Execution;

/// <summary>
/// Words as whole numbers, from 0 to 2^width - 1: the slow, obvious meaning of every operation, against which the fast ones are
/// checked.
/// </summary>
/// <param name="operands">The operands' bits, in the order of the text; none where only registers are read.</param>
internal sealed class NumberWords(IReadOnlyList<BigInteger> operands) : IWordDomain<BigInteger>
{
    /// <summary>Reads values over registers alone, by their index.</summary>
    public static Func<Value, BigInteger> Over(IReadOnlyList<BigInteger> registers)
    {
        var execution = new Execution<BigInteger>(new NumberWords([]));
        execution.Begin(registers);
        return execution.Word;
    }

    public bool TakesAllWays => false;

    public BigInteger Word(Value value, ReadOnlySpan<BigInteger> inputs) =>
        value.Operation switch
        {
            Operation.Unknown => throw new InvalidOperationException("a datapath has no unknown values"),
            Operation.Constant => value.Bits,
            Operation.Operand => operands[value.Operand!.Index],
            Operation.Register or Operation.Wire or Operation.Last or Operation.Reread => inputs[0],
            Operation.Slice => Bits.Wrap(inputs[0] >> value.Low, value.Width),
            Operation.Join => Joined(value, inputs),
            Operation.Copies => inputs[0].IsOne ? Bits.Mask(value.Width) : 0,
            Operation.Extend => value.Reading == Reading.Signed
                ? Bits.Wrap(value.Inputs[0].Number(inputs[0]), value.Width)
                : inputs[0],
            Operation.ShiftLeft => Bits.Wrap((inputs[0] << value.Inputs[1].Width) | inputs[1], value.Width),
            Operation.ShiftRight => (inputs[0] >> value.Inputs[1].Width)
                | (inputs[1] << (value.Width - value.Inputs[1].Width)),
            Operation.Add => Bits.Wrap(inputs[0] + inputs[1], value.Width),
            Operation.Subtract => Bits.Wrap(inputs[0] - inputs[1], value.Width),
            Operation.Negate => Bits.Wrap(-inputs[0], value.Width),
            Operation.Magnitude => BigInteger.Abs(value.Inputs[0].Number(inputs[0])),
            Operation.Multiply => Bits.Wrap(
                value.Inputs[0].Number(inputs[0]) * value.Inputs[1].Number(inputs[1]),
                value.Width
            ),
            Operation.CarrySaveSum => inputs[0] ^ inputs[1] ^ inputs[2],
            Operation.CarrySaveCarry => (inputs[0] & inputs[1]) | (inputs[0] & inputs[2]) | (inputs[1] & inputs[2]),
            Operation.Carry => (inputs[0] + inputs[1]) >> value.Inputs[0].Width,
            Operation.Borrow => Bit(inputs[0] < inputs[1]),
            Operation.And => inputs[0] & inputs[1],
            Operation.Or => inputs[0] | inputs[1],
            Operation.Xor => inputs[0] ^ inputs[1],
            Operation.Not => Bits.Mask(value.Width) ^ inputs[0],
            Operation.Equal => Bit(Order(value, inputs) == 0),
            Operation.Unequal => Bit(Order(value, inputs) != 0),
            Operation.Less => Bit(Order(value, inputs) < 0),
            Operation.LessOrEqual => Bit(Order(value, inputs) <= 0),
            Operation.Greater => Bit(Order(value, inputs) > 0),
            Operation.GreaterOrEqual => Bit(Order(value, inputs) >= 0),
            Operation.Choose => inputs[0].IsOne ? inputs[1] : inputs[2],
            Operation.Select => inputs[1 + ArmPatterns.Acting(value.Arms, inputs[0])],
            Operation.Lookup => value.Table!.Cells[(int)Joined(value, inputs)],
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
