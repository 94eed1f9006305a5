using Reckoner.Datapaths;

namespace Reckoner.Running;

/// <summary>What a bit came out of, when a walk's choices are taken as they fell.</summary>
internal enum SourceKind
{
    /// <summary>A register's bit, as it was before the edge.</summary>
    Register,

    /// <summary>An operand's bit, at the load.</summary>
    Operand,

    /// <summary>An arithmetic unit.</summary>
    Unit,

    /// <summary>A table.</summary>
    Table,

    /// <summary>A comparison, a decoding or a gate of one bit: something decided.</summary>
    Decision,

    /// <summary>Gates beside each bit of a word.</summary>
    Gates,

    /// <summary>Always the same.</summary>
    Constant,
}

/// <summary>Where a bit comes from.</summary>
/// <param name="Bit">Its place there; a carry or borrow stands one place above the sum.</param>
/// <param name="Value">What computes it; null for registers, operands and constants.</param>
internal readonly record struct BitSource(
    SourceKind Kind,
    int Bit,
    Register? Register = null,
    Operand? Operand = null,
    Value? Value = null
)
{
    public static readonly BitSource Zero = new(SourceKind.Constant, 0);
    public static readonly BitSource One = new(SourceKind.Constant, 1);

    /// <summary>Whether another comes out of the same thing, bit beside bit.</summary>
    public bool IsOfSame(BitSource other) =>
        Kind == other.Kind
        && ReferenceEquals(Register, other.Register)
        && ReferenceEquals(Operand, other.Operand)
        && ReferenceEquals(Value, other.Value);
}
