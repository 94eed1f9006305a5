namespace Reckoner.Checking;

/// <summary>What a processor without lookups does with whole vectors.</summary>
internal enum BitOperation
{
    And,
    Or,
    Xor,

    /// <summary>The left one and not the right one.</summary>
    AndNot,
}

/// <summary>A function of three inputs spelt with two-input operations.</summary>
internal abstract record BitExpression
{
    /// <summary>Bit 4a + 2b + c is the value for inputs a, b, c.</summary>
    public abstract byte Function { get; }
}

/// <param name="Index">0, 1, 2 for a, b, c.</param>
internal sealed record BitInput(int Index) : BitExpression
{
    public override byte Function =>
        Index switch
        {
            0 => 0xF0,
            1 => 0xCC,
            _ => 0xAA,
        };
}

/// <summary>All zeros, or all ones.</summary>
internal sealed record BitConstant(bool IsOne) : BitExpression
{
    public override byte Function => IsOne ? (byte)0xFF : (byte)0;
}

internal sealed record BitPair(BitOperation Operation, BitExpression Left, BitExpression Right) : BitExpression
{
    public override byte Function => Applied(Operation, Left.Function, Right.Function);

    public static byte Applied(BitOperation operation, byte left, byte right) =>
        operation switch
        {
            BitOperation.And => (byte)(left & right),
            BitOperation.Or => (byte)(left | right),
            BitOperation.Xor => (byte)(left ^ right),
            BitOperation.AndNot => (byte)(left & ~right),
        };
}
