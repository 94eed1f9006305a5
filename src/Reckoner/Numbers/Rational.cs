using System.Globalization;
using System.Numerics;

namespace Reckoner.Numbers;

/// <summary>An exact rational number in lowest terms, the denominator positive.</summary>
public readonly struct Rational : IEquatable<Rational>, IComparable<Rational>
{
    private readonly BigInteger lessOne;

    private Rational(BigInteger numerator, BigInteger denominator)
    {
        Numerator = numerator;
        lessOne = denominator - 1;
    }

    public BigInteger Numerator { get; }

    public BigInteger Denominator => lessOne + 1;

    public bool IsWhole => lessOne.IsZero;

    public int Sign => Numerator.Sign;

    public static implicit operator Rational(BigInteger whole) => new(whole, BigInteger.One);

    public static implicit operator Rational(int whole) => new(whole, BigInteger.One);

    /// <summary>The quotient in lowest terms; the divisor is not zero.</summary>
    public static Rational Ratio(BigInteger numerator, BigInteger denominator)
    {
        if (denominator.Sign < 0)
        {
            (numerator, denominator) = (-numerator, -denominator);
        }
        var common = BigInteger.GreatestCommonDivisor(numerator, denominator);
        return new Rational(numerator / common, denominator / common);
    }

    public static Rational operator +(Rational a, Rational b) =>
        a.IsWhole && b.IsWhole
            ? a.Numerator + b.Numerator
            : Ratio(a.Numerator * b.Denominator + b.Numerator * a.Denominator, a.Denominator * b.Denominator);

    public static Rational operator -(Rational a) => new(-a.Numerator, a.Denominator);

    public static Rational operator -(Rational a, Rational b) => a + -b;

    public static Rational operator *(Rational a, Rational b) =>
        a.IsWhole && b.IsWhole
            ? a.Numerator * b.Numerator
            : Ratio(a.Numerator * b.Numerator, a.Denominator * b.Denominator);

    /// <summary>The divisor is not zero.</summary>
    public static Rational operator /(Rational a, Rational b) =>
        Ratio(a.Numerator * b.Denominator, a.Denominator * b.Numerator);

    public static bool operator <(Rational a, Rational b) => a.CompareTo(b) < 0;

    public static bool operator >(Rational a, Rational b) => a.CompareTo(b) > 0;

    public static bool operator <=(Rational a, Rational b) => a.CompareTo(b) <= 0;

    public static bool operator >=(Rational a, Rational b) => a.CompareTo(b) >= 0;

    public static bool operator ==(Rational a, Rational b) => a.Equals(b);

    public static bool operator !=(Rational a, Rational b) => !a.Equals(b);

    /// <summary>The base to a whole power; a negative power needs a base that is not zero.</summary>
    public static Rational Power(Rational root, int power) =>
        power >= 0
            ? new Rational(BigInteger.Pow(root.Numerator, power), BigInteger.Pow(root.Denominator, power))
            : Ratio(BigInteger.Pow(root.Denominator, -power), BigInteger.Pow(root.Numerator, -power));

    public static BigInteger Floor(Rational value)
    {
        var quotient = BigInteger.DivRem(value.Numerator, value.Denominator, out var remainder);
        return remainder.Sign < 0 ? quotient - 1 : quotient;
    }

    public static BigInteger Ceiling(Rational value) => -Floor(-value);

    public static BigInteger Truncate(Rational value) => BigInteger.Divide(value.Numerator, value.Denominator);

    /// <summary>The nearest whole number, halves upward.</summary>
    public static BigInteger Round(Rational value) => Floor(value + Ratio(1, 2));

    public static Rational Abs(Rational value) => value.Sign < 0 ? -value : value;

    public bool Equals(Rational other) => Numerator == other.Numerator && lessOne == other.lessOne;

    public override bool Equals(object? obj) => obj is Rational other && Equals(other);

    public override int GetHashCode() => HashCode.Combine(Numerator, lessOne);

    public int CompareTo(Rational other) =>
        IsWhole && other.IsWhole
            ? Numerator.CompareTo(other.Numerator)
            : (Numerator * other.Denominator).CompareTo(other.Numerator * Denominator);

    public override string ToString() =>
        IsWhole
            ? Numerator.ToString(CultureInfo.InvariantCulture)
            : string.Create(CultureInfo.InvariantCulture, $"{Numerator}/{Denominator}");
}
