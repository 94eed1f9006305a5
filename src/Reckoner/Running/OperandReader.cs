using System.Globalization;
using System.Numerics;

namespace Reckoner.Running;

/// <summary>A word of a request and where it stands there.</summary>
internal sealed record RequestWord(string Text, Span Span);

/// <summary>Reads numbers as people write them: decimal, 0b, 0o, 0x, "_" between digits, a sign.</summary>
internal static class OperandReader
{
    /// <summary>The longest operand in digits; every width that is taken fits in it.</summary>
    private const int LongestNumber = 20_000;

    /// <summary>A whole number as people write it, or null.</summary>
    public static BigInteger? Number(string text)
    {
        var sign = text.StartsWith('-') ? -1 : 1;
        var digits = text.TrimStart('-', '+');
        if (text.Length - digits.Length > 1 || digits.Length is 0 or > LongestNumber)
        {
            return null;
        }
        var (radix, body) =
            digits.Length > 2 && digits[0] == '0'
                ? char.ToLowerInvariant(digits[1]) switch
                {
                    'b' => (2, digits[2..]),
                    'o' => (8, digits[2..]),
                    'x' => (16, digits[2..]),
                    _ => (10, digits),
                }
                : (10, digits);
        var groups = body.Split('_');
        body = string.Concat(groups);
        if (groups.Contains("") || !body.All(c => DigitOf(c) < radix))
        {
            return null;
        }
        return sign * Parse(body, radix);
    }

    private static int DigitOf(char c) =>
        char.IsAsciiHexDigit(c)
            ? int.Parse(c.ToString(), NumberStyles.HexNumber, CultureInfo.InvariantCulture)
            : int.MaxValue;

    private static BigInteger Parse(string digits, int radix) =>
        radix switch
        {
            2 => BigInteger.Parse("0" + digits, NumberStyles.BinaryNumber, CultureInfo.InvariantCulture),
            16 => BigInteger.Parse("0" + digits, NumberStyles.HexNumber, CultureInfo.InvariantCulture),
            10 => BigInteger.Parse(digits, CultureInfo.InvariantCulture),
            _ => digits.Aggregate(BigInteger.Zero, (value, c) => value * radix + DigitOf(c)),
        };
}
