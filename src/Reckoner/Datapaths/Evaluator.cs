using System.Numerics;

namespace Reckoner.Datapaths;

/// <summary>
/// Computes values one at a time with whole numbers: the slow, obvious meaning of every operation, against which the fast ones
/// are checked. Holds the registers and wires of one walk.
/// </summary>
public sealed class Evaluator(Datapath datapath, IReadOnlyList<BigInteger> operands)
{
    /// <summary>What the registers hold, as bits, by their index.</summary>
    public BigInteger[] Registers { get; } = new BigInteger[datapath.Registers.Count];

    /// <summary>The wires named so far in this cycle.</summary>
    public Dictionary<Wire, BigInteger> Wires { get; } = [];

    /// <summary>Whether this is the last round of a loop of fixed count.</summary>
    public bool IsLast { get; set; }

    /// <summary>The number that bits stand for by a value's reading; bare bits count as unsigned.</summary>
    public static BigInteger Number(Value value, BigInteger bits) =>
        value.Reading == Reading.Signed ? Numbers.Bits.AsSigned(bits, value.Width) : bits;

    public static BigInteger Number(Operand operand, BigInteger bits) =>
        operand.IsSigned ? Numbers.Bits.AsSigned(bits, operand.Width) : bits;

    /// <summary>Whether a value of one bit is 1.</summary>
    public bool IsOne(Value value) => Bits(value).IsOne;

    /// <summary>The bits of a value, from 0 to 2^width - 1.</summary>
    public BigInteger Bits(Value v)
    {
        return v.Operation switch
        {
            Operation.Unknown => throw new InvalidOperationException("a datapath has no unknown values"),
            Operation.Constant => v.Bits,
            Operation.Operand => operands[v.Operand!.Index],
            Operation.Register => Registers[v.Register!.Index],
            Operation.Wire => Wires[v.Wire!],
            Operation.Last => IsLast ? 1 : 0,
            Operation.Slice => Wrap(In(0) >> v.Low),
            Operation.Join => v.Inputs.Aggregate(BigInteger.Zero, (high, part) => (high << part.Width) | Bits(part)),
            Operation.Copies => IsOne(v.Inputs[0]) ? Numbers.Bits.Mask(v.Width) : 0,
            Operation.Reread => In(0),
            Operation.Extend => v.Reading == Reading.Signed ? Wrap(Number(v.Inputs[0], In(0))) : In(0),
            Operation.ShiftLeft => Wrap((In(0) << v.Inputs[1].Width) | In(1)),
            Operation.ShiftRight => (In(0) >> v.Inputs[1].Width) | (In(1) << (v.Width - v.Inputs[1].Width)),
            Operation.Add => Wrap(In(0) + In(1)),
            Operation.Subtract => Wrap(In(0) - In(1)),
            Operation.Negate => Wrap(-In(0)),
            Operation.Magnitude => BigInteger.Abs(Number(v.Inputs[0], In(0))),
            Operation.Multiply => Wrap(Number(v.Inputs[0], In(0)) * Number(v.Inputs[1], In(1))),
            Operation.CarrySaveSum => In(0) ^ In(1) ^ In(2),
            Operation.CarrySaveCarry => Majority(v.Inputs[0]),
            Operation.Carry => (Bits(v.Inputs[0].Inputs[0]) + Bits(v.Inputs[0].Inputs[1])) >> v.Inputs[0].Width,
            Operation.Borrow => Bits(v.Inputs[0].Inputs[0]) < Bits(v.Inputs[0].Inputs[1]) ? 1 : 0,
            Operation.And => In(0) & In(1),
            Operation.Or => In(0) | In(1),
            Operation.Xor => In(0) ^ In(1),
            Operation.Not => Numbers.Bits.Mask(v.Width) ^ In(0),
            Operation.Equal => One(Order() == 0),
            Operation.Unequal => One(Order() != 0),
            Operation.Less => One(Order() < 0),
            Operation.LessOrEqual => One(Order() <= 0),
            Operation.Greater => One(Order() > 0),
            Operation.GreaterOrEqual => One(Order() >= 0),
            Operation.Choose => IsOne(v.Inputs[0]) ? In(1) : In(2),
            Operation.Select => In(1 + Arm(v.Arms, In(0))),
            Operation.Lookup => v.Table!.Cells[Cell(v)],
        };

        BigInteger In(int i) => Bits(v.Inputs[i]);

        BigInteger Wrap(BigInteger number) => Numbers.Bits.Wrap(number, v.Width);

        // A bare side takes the other's reading: literals beside a signed word are signed.
        int Order()
        {
            var isSigned = v.Inputs.Any(i => i.Reading == Reading.Signed);
            var (a, b) = (In(0), In(1));
            return isSigned
                ? Numbers.Bits.AsSigned(a, v.Inputs[0].Width).CompareTo(Numbers.Bits.AsSigned(b, v.Inputs[1].Width))
                : a.CompareTo(b);
        }
    }

    /// <summary>Which arm acts for a word.</summary>
    public static int Arm(IReadOnlyList<ArmPatterns> arms, BigInteger word)
    {
        for (var i = 0; i < arms.Count; i++)
        {
            if (arms[i].Matches(word))
            {
                return i;
            }
        }
        throw new InvalidOperationException("the binder checks that the arms of a case cover every value");
    }

    private static BigInteger One(bool holds) => holds ? BigInteger.One : BigInteger.Zero;

    private BigInteger Majority(Value sum)
    {
        var (a, b, c) = (Bits(sum.Inputs[0]), Bits(sum.Inputs[1]), Bits(sum.Inputs[2]));
        return (a & b) | (a & c) | (b & c);
    }

    private int Cell(Value lookup)
    {
        var cell = BigInteger.Zero;
        foreach (var index in lookup.Inputs)
        {
            cell = (cell << index.Width) | Bits(index);
        }
        return (int)cell;
    }
}
