using System.Numerics;
using Reckoner.Numbers;

namespace Reckoner.Claims;

/// <summary>What a formula may be about besides numbers.</summary>
public enum VariableKind
{
    Operand,
    Result,

    /// <summary>An index of a table, in the formulas of its rows.</summary>
    Index,

    /// <summary>What a formula is over, before anybody has named it with numbers.</summary>
    Parameter,
}

/// <summary>A word whose number a formula depends on.</summary>
/// <param name="Index">Its place among those of its kind, in the order of the text.</param>
/// <param name="Width">In bits.</param>
/// <param name="IsSigned">Whether its bits are two's complement.</param>
public sealed record Variable(VariableKind Kind, string Name, int Index, int Width, bool IsSigned)
{
    /// <summary>The number that bits stand for.</summary>
    public BigInteger Number(BigInteger bits) => IsSigned ? Bits.AsSigned(bits, Width) : bits;
}
