using System.Globalization;
using System.Numerics;

namespace Reckoner.Numbers;

/// <summary>Bits of a stated width kept as a non-negative whole number below 2^width.</summary>
internal static class Bits
{
    /// <summary>2^width - 1.</summary>
    public static BigInteger Mask(int width) => (BigInteger.One << width) - 1;

    /// <summary>The low bits of any whole number, a negative one in two's complement.</summary>
    public static BigInteger Wrap(BigInteger value, int width) => value & Mask(width);

    /// <summary>The number that bits of this width stand for in two's complement.</summary>
    public static BigInteger AsSigned(BigInteger bits, int width) =>
        (bits >> (width - 1)).IsZero ? bits : bits - (BigInteger.One << width);

    /// <summary>Whether a number can be kept: unsigned 0 to 2^width - 1, signed -2^(width-1) to 2^(width-1) - 1.</summary>
    public static bool Fits(BigInteger number, int width, bool isSigned) =>
        width > 0
        && (
            isSigned
                ? number >= -(BigInteger.One << (width - 1)) && number < BigInteger.One << (width - 1)
                : number.Sign >= 0 && number < BigInteger.One << width
        );

    /// <summary>How many bits a number needs at least, the sign bit included when signed; 1 for zero.</summary>
    public static int Needed(BigInteger number, bool isSigned)
    {
        var magnitude = number.Sign < 0 ? -number - 1 : number;
        return Math.Max(1, (int)magnitude.GetBitLength() + (isSigned && !magnitude.IsZero ? 1 : 0));
    }

    /// <summary>All digits, most significant first.</summary>
    public static string Text(BigInteger bits, int width) =>
        string.Create(
            width,
            bits,
            static (digits, value) =>
            {
                for (var i = 0; i < digits.Length; i++)
                {
                    digits[i] = (value >> (digits.Length - 1 - i)).IsEven ? '0' : '1';
                }
            }
        );

    public static string Text(BigInteger number) => number.ToString(CultureInfo.InvariantCulture);
}
