using System.Numerics;

namespace Reckoner.Classroom;

/// <summary>What somebody wrote into the cells of a register, be it right or wrong, whole or in part.</summary>
/// <param name="Bits">From 0 to 2^width - 1; 0 where nothing was written.</param>
/// <param name="Written">A 1 for every cell that holds something.</param>
internal readonly record struct HandWord(BigInteger Bits, BigInteger Written)
{
    public static readonly HandWord Blank;

    public static HandWord Whole(BigInteger bits, int width) => new(bits, Numbers.Bits.Mask(width));

    /// <summary>The bit of a cell; null where it is empty.</summary>
    public bool? this[int place] => Has(Written, place) ? Has(Bits, place) : null;

    /// <summary>With other contents of a cell; null empties it.</summary>
    public HandWord With(int place, bool? bit)
    {
        var cell = BigInteger.One << place;
        return new(bit == true ? Bits | cell : Bits & ~cell, bit is null ? Written & ~cell : Written | cell);
    }

    private static bool Has(BigInteger word, int place) => !(word & (BigInteger.One << place)).IsZero;
}
