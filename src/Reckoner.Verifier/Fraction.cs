using System.Globalization;
using System.Numerics;

namespace Reckoner.Verifier;

/// <summary>An exact fraction in lowest terms, the denominator above 0.</summary>
internal sealed record Fraction
{
    /// <summary>Longer numbers stand in no certificate that anyone has made.</summary>
    private const int MostDigits = 400;

    /// <summary>Bits that sums and products of such numbers may grow to, and the highest power of 2.</summary>
    private const int MostBits = 100_000;

    private Fraction(BigInteger numerator, BigInteger denominator) =>
        (Numerator, Denominator) = (numerator, denominator);

    public BigInteger Numerator { get; }

    public BigInteger Denominator { get; }

    public int Sign => Numerator.Sign;

    public static Fraction Of(BigInteger numerator, BigInteger denominator)
    {
        if (numerator.GetBitLength() > MostBits || denominator.GetBitLength() > MostBits)
        {
            throw new RefusedException(Refusal.TooLong, "number");
        }
        var common = BigInteger.GreatestCommonDivisor(numerator, denominator) * denominator.Sign;
        return new(numerator / common, denominator / common);
    }

    public static implicit operator Fraction(BigInteger whole) => new(whole, 1);

    public static implicit operator Fraction(int whole) => new(whole, 1);

    public static Fraction operator +(Fraction a, Fraction b) =>
        Of(a.Numerator * b.Denominator + b.Numerator * a.Denominator, a.Denominator * b.Denominator);

    public static Fraction operator *(Fraction a, Fraction b) =>
        Of(a.Numerator * b.Numerator, a.Denominator * b.Denominator);

    public static Fraction PowerOfTwo(int power) =>
        power is < -MostBits or > MostBits ? throw new RefusedException(Refusal.TooLong, "power")
        : power >= 0 ? BigInteger.One << power
        : Of(1, BigInteger.One << -power);

    /// <summary>The power of 2 in it, where no other denominator is left; else null.</summary>
    public int? PowersOfTwo =>
        !Denominator.IsPowerOfTwo ? null
        : Denominator.IsOne ? (int)BigInteger.TrailingZeroCount(Numerator)
        : 1 - (int)Denominator.GetBitLength();

    public static Fraction Read(string text)
    {
        if (
            text.Length <= MostDigits
            && text.Split('/') is { Length: <= 2 } parts
            && TryRead(parts[0], out var numerator)
            && TryRead(parts.Length == 2 ? parts[1] : "1", out var denominator)
            && denominator.Sign > 0
        )
        {
            return Of(numerator, denominator);
        }
        throw new RefusedException(Refusal.Unreadable, text.Length > 40 ? text[..40] : text);
    }

    private static bool TryRead(string text, out BigInteger number) =>
        BigInteger.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out number);
}
