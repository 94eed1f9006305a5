using System.Numerics;

namespace Reckoner.Tests;

/// <summary>What a rounded number comes with: TestFloat's letters are these.</summary>
internal readonly record struct Flags(bool Invalid, bool Infinite, bool Overflow, bool Underflow, bool Inexact);

/// <summary>
/// Binary floating-point formats as the standard has them (IEEE 754: 3.3, 4.3, 7), in whole numbers and fractions of them alone.
/// </summary>
/// <param name="E">Bits of the exponent.</param>
/// <param name="M">Bits of the fraction.</param>
/// <param name="IsTinyBefore">Whether what is tiny is found before rounding.</param>
internal sealed record Floating(int E, int M, bool IsTinyBefore = false)
{
    /// <summary>Roundings by number: to even, to zero, down, up, ties away from zero.</summary>
    public const int Roundings = 5;

    private int Bias => (1 << (E - 1)) - 1;

    private int Special => (1 << E) - 1;

    public int Width => 1 + E + M;

    /// <summary>The one NaN that comes out: quiet, without sign, nothing in it.</summary>
    public BigInteger NoNumber => ((BigInteger)Special << M) + (BigInteger.One << (M - 1));

    public bool IsNegative(BigInteger code) => !(code >> (E + M)).IsZero;

    private int Field(BigInteger code) => (int)(code >> M) & Special;

    private BigInteger Rest(BigInteger code) => code & ((BigInteger.One << M) - 1);

    public bool IsNoNumber(BigInteger code) => Field(code) == Special && !Rest(code).IsZero;

    private bool Signals(BigInteger code) => IsNoNumber(code) && (Rest(code) >> (M - 1)).IsZero;

    private bool IsInfinite(BigInteger code) => Field(code) == Special && Rest(code).IsZero;

    private bool IsZero(BigInteger code) => Field(code) == 0 && Rest(code).IsZero;

    /// <summary>Significand and exponent of a finite number's magnitude: s * 2^x.</summary>
    private (BigInteger S, int X) Parts(BigInteger code) =>
        Field(code) == 0 ? (Rest(code), 1 - Bias - M) : (Rest(code) + (BigInteger.One << M), Field(code) - Bias - M);

    private BigInteger Signed(bool isNegative, BigInteger magnitude) =>
        magnitude + (isNegative ? BigInteger.One << (E + M) : 0);

    private BigInteger Infinity(bool isNegative) => Signed(isNegative, (BigInteger)Special << M);

    /// <summary>What a machine of the catalogue gives for its operands, the rounding the last of them.</summary>
    public (BigInteger Code, Flags Flags) Of(string machine, BigInteger[] x) =>
        machine switch
        {
            "multiply-floating" => Product(x[0], x[1], (int)x[2]),
            "divide-floating" => Quotient(x[0], x[1], (int)x[2]),
            "add-floating" => Sum(x[0], x[2].IsZero ? x[1] : Turned(x[1]), (int)x[3]),
            "root-floating" => Root(x[0], (int)x[1]),
            _ => throw new ArgumentException(machine),
        };

    /// <summary>The same number with the other sign.</summary>
    private BigInteger Turned(BigInteger code) => code ^ (BigInteger.One << (E + M));

    private (BigInteger Code, Flags Flags) NoNumberOf(bool isUndefined, params ReadOnlySpan<BigInteger> operands)
    {
        var isInvalid = isUndefined;
        foreach (var operand in operands)
        {
            isInvalid |= Signals(operand);
        }
        return (NoNumber, new Flags(isInvalid, false, false, false, false));
    }

    private (BigInteger Code, Flags Flags) Quotient(BigInteger x, BigInteger y, int rounding)
    {
        var isNegative = IsNegative(x) != IsNegative(y);
        var isUndefined = (IsInfinite(x) && IsInfinite(y)) || (IsZero(x) && IsZero(y));
        if (IsNoNumber(x) || IsNoNumber(y) || isUndefined)
        {
            return NoNumberOf(isUndefined, x, y);
        }
        if (IsInfinite(x) || IsZero(y))
        {
            return (Infinity(isNegative), default(Flags) with { Infinite = !IsInfinite(x) });
        }
        if (IsInfinite(y))
        {
            return (Signed(isNegative, 0), default);
        }
        var ((a, i), (b, j)) = (Parts(x), Parts(y));
        return Rounded(isNegative, a, b, i - j, rounding);
    }

    private (BigInteger Code, Flags Flags) Sum(BigInteger x, BigInteger y, int rounding)
    {
        var isUndefined = IsInfinite(x) && IsInfinite(y) && IsNegative(x) != IsNegative(y);
        if (IsNoNumber(x) || IsNoNumber(y) || isUndefined)
        {
            return NoNumberOf(isUndefined, x, y);
        }
        if (IsInfinite(x) || IsInfinite(y))
        {
            return (IsInfinite(x) ? x : y, default);
        }
        var ((a, i), (b, j)) = (Parts(x), Parts(y));
        var least = Math.Min(i, j);
        var first = (a << (i - least)) * (IsNegative(x) ? -1 : 1);
        var second = (b << (j - least)) * (IsNegative(y) ? -1 : 1);
        var sum = first + second;
        // Nothing that is left of two numbers has the sign of both, or of none when it is rounded down.
        var isNegative = sum.IsZero ? (IsNegative(x) == IsNegative(y) ? IsNegative(x) : rounding == 2) : sum.Sign < 0;
        return Rounded(isNegative, BigInteger.Abs(sum), 1, least, rounding);
    }

    private (BigInteger Code, Flags Flags) Root(BigInteger x, int rounding)
    {
        if (IsNoNumber(x) || (IsNegative(x) && !IsZero(x)))
        {
            return NoNumberOf(!IsNoNumber(x), x);
        }
        if (IsInfinite(x) || IsZero(x))
        {
            return (x, default);
        }
        var (a, i) = Parts(x);
        // Many places more than are wanted, an even number in all, and one that says whether something is left.
        var places = 2 * M + 8 + (i & 1);
        var wide = a << (2 * places + (i & 1));
        var root = wide;
        for (var next = BigInteger.One << (int)(wide.GetBitLength() / 2 + 1); next < root; )
        {
            root = next;
            next = (root + wide / root) / 2;
        }
        var exponent = (i - (i & 1)) / 2 - places;
        return Rounded(false, 2 * root + (root * root == wide ? 0 : 1), 1, exponent - 1, rounding);
    }

    public (BigInteger Code, Flags Flags) Product(BigInteger x, BigInteger y, int rounding)
    {
        var isNegative = IsNegative(x) != IsNegative(y);
        var isUndefined = (IsInfinite(x) && IsZero(y)) || (IsZero(x) && IsInfinite(y));
        if (IsNoNumber(x) || IsNoNumber(y) || isUndefined)
        {
            return NoNumberOf(isUndefined, x, y);
        }
        if (IsInfinite(x) || IsInfinite(y))
        {
            return (Infinity(isNegative), default);
        }
        var ((a, i), (b, j)) = (Parts(x), Parts(y));
        return Rounded(isNegative, a * b, 1, i + j, rounding);
    }

    /// <summary>The code of upper / lower * 2^exponent with a sign, rounded.</summary>
    private (BigInteger Code, Flags Flags) Rounded(
        bool isNegative,
        BigInteger upper,
        BigInteger lower,
        int exponent,
        int rounding
    )
    {
        if (upper.IsZero)
        {
            return (Signed(isNegative, 0), default);
        }
        // 2^top <= upper / lower < 2^(top + 1), before the exponent.
        var top = (int)(upper.GetBitLength() - lower.GetBitLength());
        top -= (top >= 0 ? upper < lower << top : upper << -top < lower) ? 1 : 0;
        var first = top + exponent;
        var quantum = Math.Max(first, 1 - Bias) - M;
        var (whole, isExact) = OnGrid(isNegative, upper, lower, exponent - quantum, rounding);
        if (whole.GetBitLength() > M + 1)
        {
            whole >>= 1;
            quantum++;
        }
        var code = (whole >> M).IsZero ? whole : ((BigInteger)(quantum + M + Bias - 1) << M) + whole;
        if (code >> M >= Special)
        {
            var goesOut = rounding is 0 or 4 || rounding == (isNegative ? 2 : 3);
            var largest = ((BigInteger)Special << M) - (goesOut ? 0 : 1);
            return (Signed(isNegative, largest), new Flags(false, false, true, false, true));
        }
        var unbounded = OnGrid(isNegative, upper, lower, exponent - (first - M), rounding).Whole;
        var reached = IsTinyBefore || unbounded.GetBitLength() == M + 1 ? first : first + 1;
        return (Signed(isNegative, code), new Flags(false, false, false, reached < 1 - Bias && !isExact, !isExact));
    }

    /// <summary>upper / lower * 2^exponent as a whole number, rounded.</summary>
    private static (BigInteger Whole, bool IsExact) OnGrid(
        bool isNegative,
        BigInteger upper,
        BigInteger lower,
        int exponent,
        int rounding
    )
    {
        (upper, lower) = exponent >= 0 ? (upper << exponent, lower) : (upper, lower << -exponent);
        var whole = BigInteger.DivRem(upper, lower, out var left);
        var half = (2 * left).CompareTo(lower);
        var isUp = rounding switch
        {
            0 => half > 0 || (half == 0 && !whole.IsEven),
            1 => false,
            2 => isNegative && !left.IsZero,
            3 => !isNegative && !left.IsZero,
            4 => half >= 0,
            _ => throw new ArgumentOutOfRangeException(nameof(rounding)),
        };
        return (isUp ? whole + 1 : whole, left.IsZero);
    }
}
