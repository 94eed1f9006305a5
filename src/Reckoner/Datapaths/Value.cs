using System.Numerics;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Datapaths;

/// <summary>How bits are read as a number.</summary>
public enum Reading
{
    /// <summary>Just bits: a slice, a join, a literal.</summary>
    Bare,
    Unsigned,

    /// <summary>Two's complement.</summary>
    Signed,
}

/// <summary>A value of known width inside one cycle: an operation on other values. Where it was written is kept.</summary>
public sealed class Value(Operation operation, Size size, Reading reading, params IReadOnlyList<Value> inputs)
{
    /// <summary>Stands where something is wrong and reported; everything computed from it is unknown too.</summary>
    public static readonly Value Unknown = new(Operation.Unknown, Size.Of(1), Reading.Bare);

    public Operation Operation { get; } = operation;
    public Size Size { get; } = size;
    public int Width => Size.Count;
    public Reading Reading { get; } = reading;
    public IReadOnlyList<Value> Inputs { get; } = inputs;

    /// <summary>The bits of a constant.</summary>
    public BigInteger Bits { get; init; }

    /// <summary>The lowest place of a slice.</summary>
    public int Low { get; init; }

    public Operand? Operand { get; init; }
    public Register? Register { get; init; }
    public Wire? Wire { get; init; }
    public Table? Table { get; init; }

    /// <summary>The patterns of a selection; arm i chooses input i + 1 for the subject in input 0.</summary>
    public IReadOnlyList<ArmPatterns> Arms { get; init; } = [];

    /// <summary>What was written, and in which text.</summary>
    public Expression? Written { get; init; }
    public Source? Source { get; init; }

    /// <summary>The unit that computes it, where it needs one.</summary>
    public Unit? Unit { get; internal set; }

    public bool IsUnknown => Operation == Operation.Unknown;

    /// <summary>Whether it is another output of the unit that computes its only input.</summary>
    public bool IsSecondOutput => Operations.Row(Operation).Cost == Cost.SecondOutput;

    /// <summary>The choices between words that are made for it, an outer one before those it stands upon.</summary>
    public IEnumerable<Value> Choices =>
        Operation is Operation.Choose or Operation.Select
            ? Inputs.SelectMany(i => i.Choices).Prepend(this)
            : Inputs.SelectMany(i => i.Choices);

    /// <summary>The number that bits of its width stand for by its reading; bare bits count as unsigned.</summary>
    public BigInteger Number(BigInteger bits) => Reading == Reading.Signed ? Numbers.Bits.AsSigned(bits, Width) : bits;

    public bool IsConstant(int number) => Operation == Operation.Constant && Bits == number;

    /// <summary>A signed word against zero asks for its top bit only and costs nothing.</summary>
    public bool IsSignTest =>
        Operation is Operation.Less or Operation.GreaterOrEqual
        && Inputs[0].Reading == Reading.Signed
        && Inputs[1].IsConstant(0);

    /// <summary>An equality with a constant is a decoding of bits, a matter of control.</summary>
    public bool IsDecode =>
        Operation is Operation.Equal or Operation.Unequal && Inputs.Any(i => i.Operation == Operation.Constant);
}

/// <summary>Bits of which some may be free: a word matches when it agrees with <see cref="Bits"/> under <see cref="Mask"/>.</summary>
public readonly record struct Pattern(BigInteger Mask, BigInteger Bits)
{
    public bool Matches(BigInteger word) => (word & Mask) == Bits;

    public bool Overlaps(Pattern other) => ((Bits ^ other.Bits) & Mask & other.Mask).IsZero;
}

/// <summary>The patterns of one arm; an arm without any is "else".</summary>
/// <param name="Written">The labels as they are written.</param>
/// <param name="Says">What the description says where it acts.</param>
public sealed record ArmPatterns(IReadOnlyList<Pattern> Patterns, string Written, Phrase? Says)
{
    public bool IsElse => Patterns.Count == 0;

    public bool Matches(BigInteger word) => IsElse || Patterns.Any(p => p.Matches(word));

    /// <summary>Which arm acts for a word: the first that matches. The binder checks that one does.</summary>
    public static int Acting(IReadOnlyList<ArmPatterns> arms, BigInteger word)
    {
        var arm = 0;
        while (!arms[arm].Matches(word))
        {
            arm++;
        }
        return arm;
    }
}
