using System.Numerics;

namespace Reckoner.Engines.Tests;

/// <summary>
/// The division of 1994 on words of 64 bits, written down without gates: two words of remainder with the operands at their top, so
/// that the ones of a complement reach down to the lowest bit, 13 digits from a table of which five cells are empty.
/// </summary>
internal static class WideSelection
{
    public const int Width = 24;
    private const int Digits = 13;

    /// <summary>Bits behind the point.</summary>
    private const int Fraction = 59;

    /// <summary>The cells by row and column that should hold a 2.</summary>
    private static readonly (int Row, int Column)[] Empty = [(23, 1), (27, 4), (31, 7), (35, 10), (39, 13)];

    private static readonly sbyte[] Table = [.. Enumerable.Range(0, 128 * 16).Select(i => Digit(i / 16, i % 16))];

    private static sbyte Digit(int bits, int column)
    {
        var row = bits < 64 ? bits : bits - 128;
        if (Empty.Contains((row, column)))
        {
            return 0;
        }
        // A sixth of the divisor's column is an eighth of two thirds of a sixteenth.
        int[] bounds = [8, 4, 1];
        sbyte[] digits = [0, 2, 1];
        for (var b = 0; b < bounds.Length; b++)
        {
            var bound = bounds[b] * (17 + column);
            if (6 * row >= bound)
            {
                return digits[b];
            }
        }
        for (var b = 0; b < bounds.Length; b++)
        {
            var bound = bounds[b] * (17 + column);
            if (6 * (-row - 2) >= bound)
            {
                return (sbyte)-digits[b];
            }
        }
        return 0;
    }

    /// <summary>Whether quotient and remainder of two mantissas of 24 bits are not those of the division.</summary>
    public static bool Fails(uint dividend, uint divisor)
    {
        const int Up = Fraction - (Width - 1);
        var (sum, carry) = ((ulong)dividend << Up, 0UL);
        var (quotient, less) = (0L, 0L);
        var multiple = (ulong)divisor << Up;
        var column = (int)(divisor >> (Width - 5)) & 15;
        for (var i = 0; i < Digits; i++)
        {
            var estimate = (int)((sum >> (Fraction - 3)) + (carry >> (Fraction - 3))) & 127;
            var digit = Table[16 * estimate + column];
            var taken = digit switch
            {
                -2 => multiple << 1,
                -1 => multiple,
                1 => ~multiple,
                2 => ~(multiple << 1),
                _ => 0UL,
            };
            var majority = (sum & carry) | (sum & taken) | (carry & taken);
            sum = (sum ^ carry ^ taken) << 2;
            carry = ((majority << 1) | (digit > 0 ? 1UL : 0)) << 2;
            (quotient, less) = (
                ((digit < 0 ? less : quotient) << 2) + (digit & 3),
                ((digit > 0 ? quotient : less) << 2) + ((digit - 1) & 3)
            );
        }
        var rest = unchecked(sum + carry);
        if (rest >> 63 != 0)
        {
            rest = unchecked(rest + (multiple << 2));
            quotient = less;
        }
        var whole = (ulong)dividend << (2 * (Digits - 1));
        quotient &= (1L << (2 * Digits)) - 1;
        return (ulong)quotient != whole / divisor || (UInt128)rest != (UInt128)(whole % divisor) << (Up + 2);
    }

    /// <summary>How many dividends fail with a divisor, and the first that does.</summary>
    public static (int Count, BigInteger? First) Failing(uint divisor)
    {
        const uint Least = 1U << (Width - 1);
        var (count, first) = (0, (BigInteger?)null);
        for (var dividend = Least; dividend < 2 * Least; dividend++)
        {
            if (Fails(dividend, divisor))
            {
                count++;
                first ??= dividend;
            }
        }
        return (count, first);
    }
}
