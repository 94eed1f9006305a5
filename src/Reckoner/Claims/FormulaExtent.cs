using System.Numerics;
using Reckoner.Numbers;

namespace Reckoner.Claims;

/// <summary>
/// Between which numbers the upper and the lower word of a term's fraction lie, for all operands and results of their widths, as
/// gates compute it: fractions are not reduced. Where the term has no value nothing is said.
/// </summary>
/// <param name="Least">Of the upper word, which has the sign; <paramref name="Most"/> likewise.</param>
/// <param name="Low">Of the lower word, 1 or more; <paramref name="High"/> likewise.</param>
internal readonly record struct FormulaExtent(BigInteger Least, BigInteger Most, BigInteger Low, BigInteger High)
{
    /// <summary>Powers that are chosen among.</summary>
    private const int MostPowers = 128;

    /// <summary>Bits of an exponent by which more is shifted than any word has places.</summary>
    private const int MostShifts = 40;

    private bool IsWhole => Low.IsOne && High.IsOne;

    /// <summary>The number itself is not less.</summary>
    public BigInteger Lowest => Least.Sign < 0 ? -Ceiling(-Least, Low) : Least / High;

    /// <summary>The number itself is not more.</summary>
    public BigInteger Highest => Most.Sign > 0 ? Ceiling(Most, Low) : -(-Most / High);

    /// <summary>Whether it is one of few whole numbers, if it is whole.</summary>
    public bool IsFew => Highest - Lowest < MostPowers;

    private static BigInteger Ceiling(BigInteger upper, BigInteger lower) => (upper + lower - 1) / lower;

    /// <summary>The wider word's bits, without a sign.</summary>
    private long Width => Math.Max(Math.Max(Bits(Least), Bits(Most)), Bits(High));

    private static long Bits(BigInteger number) => (long)BigInteger.Abs(number).GetBitLength();

    /// <summary>Null where a word on the way to the term may have more bits, or a power is none that gates can choose.</summary>
    public static FormulaExtent? Of(Term term, long mostBits) =>
        Made(term, mostBits) is { } made && made.Width <= mostBits ? made : null;

    /// <summary>Whether every word on the way to the formula's value has so many bits at most.</summary>
    public static bool Fits(Formula formula, long mostBits) =>
        formula is Term term ? Of(term, mostBits) is not null : Fits((Truth)formula, mostBits);

    private static bool Fits(Truth truth, long mostBits)
    {
        var sides = truth.Terms.Select(t => Of(t, mostBits)).ToList();
        if (sides.Contains(null) || !truth.Inputs.All(t => Fits(t, mostBits)))
        {
            return false;
        }
        // Sides are multiplied crosswise before they are compared.
        IEnumerable<(FormulaExtent? Left, FormulaExtent? Right)> pairs = truth.Kind switch
        {
            TruthKind.Comparison => sides.Zip(sides.Skip(1)),
            TruthKind.Between => sides.Skip(1).Select(s => (sides[0], s)),
            TruthKind.Bracketed
            or TruthKind.And
            or TruthKind.Or
            or TruthKind.Xor
            or TruthKind.Not
            or TruthKind.Every
            or TruthKind.Applied => [],
        };
        return pairs.All(s => s.Left!.Value.Crosswise(s.Right!.Value) <= mostBits);
    }

    private long Crosswise(FormulaExtent other) => Math.Max(Width + other.Divides, other.Width + Divides);

    /// <summary>The lower word's bits; a whole number is multiplied by none.</summary>
    private long Divides => IsWhole ? 0 : Bits(High);

    private static FormulaExtent Number(Rational number) =>
        new(number.Numerator, number.Numerator, number.Denominator, number.Denominator);

    private static FormulaExtent Whole(BigInteger least, BigInteger most) => new(least, most, 1, 1);

    private static FormulaExtent? Made(Term term, long mostBits)
    {
        if (term.Constant is { } constant)
        {
            return Number(constant);
        }
        if (term.Kind == TermKind.Power)
        {
            return Power(term.Inputs[0], term.Inputs[1], mostBits);
        }
        if (term.Kind == TermKind.Applied)
        {
            return Of(term.Body!, mostBits);
        }
        if (term.Kind == TermKind.Variable)
        {
            var variable = term.Variable!;
            var half = BigInteger.One << (variable.Width - 1);
            return variable.IsSigned ? Whole(-half, half - 1) : Whole(0, 2 * half - 1);
        }
        var inputs = term.Inputs.Select(i => Of(i, mostBits)).ToList();
        if (inputs.Contains(null))
        {
            return null;
        }
        if (term.Kind == TermKind.Total)
        {
            return inputs.Aggregate(Whole(0, 0), (sum, i) => sum.Plus(i!.Value));
        }
        var a = inputs[0]!.Value;
        return term.Kind switch
        {
            TermKind.Literal
            or TermKind.Named
            or TermKind.Variable
            or TermKind.Power
            or TermKind.Total
            or TermKind.Applied
            or TermKind.Bracketed => a,
            TermKind.Negation => a.Negated,
            TermKind.Sum => a.Plus(inputs[1]!.Value),
            TermKind.Difference => a.Plus(inputs[1]!.Value.Negated),
            TermKind.Product or TermKind.Multiple => a.Times(inputs[1]!.Value),
            TermKind.Quotient => a.Over(inputs[1]!.Value),
            TermKind.Call => inputs.Count > 1 ? a.Called(term.Function, inputs[1]!.Value) : a.Called(term.Function),
        };
    }

    private FormulaExtent Negated => this with { Least = -Most, Most = -Least };

    private FormulaExtent Plus(FormulaExtent b)
    {
        var (left, right) = (Times(Whole(b.Low, b.High)), b.Times(Whole(Low, High)));
        return new FormulaExtent(left.Least + right.Least, left.Most + right.Most, Low * b.Low, High * b.High);
    }

    private FormulaExtent Times(FormulaExtent b)
    {
        BigInteger[] corners = [Least * b.Least, Least * b.Most, Most * b.Least, Most * b.Most];
        return new FormulaExtent(corners.Min(), corners.Max(), Low * b.Low, High * b.High);
    }

    /// <summary>The sign of a negative divisor goes to the upper word.</summary>
    private FormulaExtent Over(FormulaExtent b)
    {
        var size = BigInteger.Max(BigInteger.Abs(b.Least), BigInteger.Abs(b.Most));
        var small =
            b.Least.Sign > 0 ? b.Least
            : b.Most.Sign < 0 ? -b.Most
            : BigInteger.One;
        var upper = Times(Whole(b.Low, b.High));
        var most = BigInteger.Max(BigInteger.Abs(upper.Least), BigInteger.Abs(upper.Most));
        return new FormulaExtent(
            b.Least.Sign < 0 ? -most : upper.Least,
            b.Least.Sign < 0 ? most : upper.Most,
            small * Low,
            BigInteger.Max(size, 1) * High
        );
    }

    private static FormulaExtent? Power(Term root, Term exponent, long mostBits)
    {
        if (Of(root, mostBits) is not { } x || Of(exponent, mostBits) is not { } power)
        {
            return null;
        }
        var (lowest, highest) = (power.Lowest, power.Highest);
        if (root.Constant == 2 && power.IsWhole)
        {
            return Shifted(lowest, highest, mostBits);
        }
        if (!power.IsFew)
        {
            return null;
        }
        FormulaExtent? all = null;
        for (var times = lowest; times <= highest; times++)
        {
            if (x.Raised(times, mostBits) is not { } raised)
            {
                return null;
            }
            all = all is not { } before
                ? raised
                : new FormulaExtent(
                    BigInteger.Min(before.Least, raised.Least),
                    BigInteger.Max(before.Most, raised.Most),
                    BigInteger.Min(before.Low, raised.Low),
                    BigInteger.Max(before.High, raised.High)
                );
        }
        return all;
    }

    /// <summary>A power of two is a shift; one that may be negative is counted from the lowest that its exponent has bits for.</summary>
    private static FormulaExtent? Shifted(BigInteger lowest, BigInteger highest, long mostBits)
    {
        var bits = Math.Max(Bits(lowest), Bits(highest));
        var low = lowest.Sign < 0 ? BigInteger.One << (int)Math.Min(bits, MostShifts) : BigInteger.Zero;
        return highest + low >= mostBits || low >= mostBits
            ? null
            : new FormulaExtent(
                BigInteger.One << (int)(lowest + low),
                BigInteger.One << (int)(highest + low),
                BigInteger.One << (int)low,
                BigInteger.One << (int)low
            );
    }

    private FormulaExtent? Raised(BigInteger power, long mostBits)
    {
        var product = Whole(1, 1);
        // More factors would take as many gates as there may be, even of ones.
        for (var i = BigInteger.Abs(power); i.Sign > 0; i--)
        {
            product = product.Times(this);
            if (product.Width > mostBits || BigInteger.Abs(power) > mostBits)
            {
                return null;
            }
        }
        return power.Sign >= 0 ? product : Whole(1, 1).Over(product);
    }

    private FormulaExtent Called(Function function)
    {
        var size = BigInteger.Max(BigInteger.Abs(Least), BigInteger.Abs(Most));
        // A quotient is farthest from 0 where the lower word is least.
        var least = Least.Sign < 0 ? Least / Low - 1 : 0;
        var most = Most.Sign > 0 ? Most / Low + 1 : 0;
        return function switch
        {
            Function.Absolute => this with { Least = 0, Most = size },
            Function.Floor or Function.Ceiling or Function.Truncate or Function.Round => IsWhole
                ? this
                : Whole(least, most),
            Function.FloorOfLogarithm => Whole(0, BigInteger.Max(0, Bits(Most) - 1)),
            Function.CeilingOfLogarithm => Whole(0, Bits(Most)),
            Function.Modulo or Function.Largest or Function.Smallest => throw new InvalidOperationException(
                $"{function} takes two numbers"
            ),
        };
    }

    /// <summary>Of the second of two numbers too; what is left of a division is computed as one and taken away.</summary>
    private FormulaExtent Called(Function function, FormulaExtent other) =>
        function switch
        {
            Function.Modulo => Plus(other.Times(Over(other).Called(Function.Floor)).Negated),
            Function.Largest or Function.Smallest => Either(other),
            Function.Floor
            or Function.Ceiling
            or Function.Truncate
            or Function.Round
            or Function.Absolute
            or Function.FloorOfLogarithm
            or Function.CeilingOfLogarithm => Called(function),
        };

    /// <summary>One of both, over the lower words of both.</summary>
    private FormulaExtent Either(FormulaExtent b)
    {
        var (left, right) = (Times(Whole(b.Low, b.High)), b.Times(Whole(Low, High)));
        return new FormulaExtent(
            BigInteger.Min(left.Least, right.Least),
            BigInteger.Max(left.Most, right.Most),
            Low * b.Low,
            High * b.High
        );
    }
}
