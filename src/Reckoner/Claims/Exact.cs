using System.Numerics;
using Reckoner.Diagnostics;
using Reckoner.Numbers;

namespace Reckoner.Claims;

/// <summary>
/// Exact evaluation of formulas. Null: there is no value (a division by zero, a number beyond <see cref="LargestBits"/>, a
/// variable of unknown number), reported where there is somewhere to report to.
/// </summary>
internal class Exact(Func<Variable, Rational?> values, Report? report = null)
{
    /// <summary>Numbers of more bits than this are refused; 2^n is meant for widths, not for n = 2^40.</summary>
    public const int LargestBits = 1 << 18;

    /// <summary>For formulas without variables.</summary>
    public static readonly Exact OfNumbers = new(_ => null);

    public virtual Rational? Number(Term term) => term.Constant ?? Evaluated(term);

    private Rational? Evaluated(Term t) =>
        t.Kind switch
        {
            TermKind.Literal or TermKind.Named => t.Constant,
            TermKind.Variable => values(t.Variable!),
            TermKind.Bracketed => Number(t.Inputs[0]),
            TermKind.Negation => -Number(t.Inputs[0]),
            TermKind.Sum => Pair(t, static (e, t, a, b) => e.IsSumSmall(t, a, b) ? a + b : null),
            TermKind.Difference => Pair(t, static (e, t, a, b) => e.IsSumSmall(t, a, b) ? a - b : null),
            TermKind.Product => Pair(t, static (e, t, a, b) => e.IsSmall(t, Bits(a) + Bits(b)) ? a * b : null),
            TermKind.Multiple => Number(t.Inputs[0]) * Number(t.Inputs[1]),
            TermKind.Quotient => Pair(t, static (e, t, a, b) => b.Sign == 0 ? e.Fail(Id.DivisionByZero, t) : a / b),
            TermKind.Power => Pair(t, static (e, t, a, b) => e.Power(t, a, b)),
            TermKind.Call => Number(t.Inputs[0]) is not { } x ? null
            : t.Inputs.Count == 1 ? Called(t, x, 0)
            : Number(t.Inputs[1]) is { } y ? Called(t, x, y)
            : null,
            TermKind.Total => Total(t),
            TermKind.Applied => Number(t.Body!),
        };

    /// <summary>Whether a truth holds; null where it has no value.</summary>
    public bool? Truth(Truth t) =>
        t.Kind switch
        {
            TruthKind.Comparison => Compared(t),
            TruthKind.Between => Between(Number(t.Terms[1]), Number(t.Terms[0]), Number(t.Terms[2])),
            TruthKind.Bracketed or TruthKind.Applied => Truth(t.Inputs[0]),
            TruthKind.And => Joined(t, decides: false),
            TruthKind.Or => Joined(t, decides: true),
            TruthKind.Xor => Truth(t.Inputs[0]) ^ Truth(t.Inputs[1]),
            TruthKind.Not => !Truth(t.Inputs[0]),
            TruthKind.Every => Every(t),
        };

    /// <summary>A whole number; anything else is reported, with what it is here.</summary>
    public BigInteger? Whole(Term term)
    {
        if (Number(term) is not { } value)
        {
            return null;
        }
        if (!value.IsWhole)
        {
            ReportNotWhole(term, value);
            return null;
        }
        return value.Numerator;
    }

    private static bool? Between(Rational? low, Rational? value, Rational? high) =>
        low is null || value is null || high is null ? null : low <= value && value <= high;

    private bool? Joined(Truth t, bool decides) =>
        Truth(t.Inputs[0]) is not { } first ? null
        : first == decides ? first
        : Truth(t.Inputs[1]);

    private bool? Every(Truth t)
    {
        foreach (var part in t.Inputs)
        {
            if (Truth(part) is not true and var decided)
            {
                return decided;
            }
        }
        return true;
    }

    private Rational? Total(Term t)
    {
        Rational sum = 0;
        foreach (var part in t.Inputs)
        {
            if (Number(part) is not { } number || !IsSumSmall(t, sum, number))
            {
                return null;
            }
            sum += number;
        }
        return sum;
    }

    private bool? Compared(Truth t)
    {
        var left = Number(t.Terms[0]);
        for (var i = 0; i < t.Relations.Count; i++)
        {
            var right = Number(t.Terms[i + 1]);
            if (left is null || right is null)
            {
                return null;
            }
            if (!t.Relations[i].Holds(left.Value.CompareTo(right.Value)))
            {
                return false;
            }
            left = right;
        }
        return true;
    }

    private Rational? Pair(Term t, Func<Exact, Term, Rational, Rational, Rational?> of) =>
        Number(t.Inputs[0]) is { } left && Number(t.Inputs[1]) is { } right ? of(this, t, left, right) : null;

    private static long Bits(Rational value) => value.Numerator.GetBitLength() + value.Denominator.GetBitLength();

    /// <summary>A sum of whole numbers grows by a bit; one of fractions has the product of their denominators.</summary>
    private bool IsSumSmall(Term t, Rational left, Rational right) =>
        IsSmall(t, left.IsWhole && right.IsWhole ? 0 : Bits(left) + Bits(right));

    private bool IsSmall(Term t, BigInteger bits)
    {
        if (bits <= LargestBits)
        {
            return true;
        }
        Fail(Id.NumberTooLarge, t);
        return false;
    }

    private Rational? Power(Term t, Rational root, Rational power)
    {
        if (!power.IsWhole)
        {
            ReportNotWhole(t.Inputs[1], power);
            return null;
        }
        if (root.Sign == 0 && power.Sign < 0)
        {
            return Fail(Id.DivisionByZero, t);
        }
        if (root.IsWhole && BigInteger.Abs(root.Numerator) <= BigInteger.One)
        {
            // 0, 1 and -1 stay as small as they are, however high their power: only its sign and whether it is even count.
            return Rational.Power(
                root,
                power.Sign == 0 ? 0
                    : power.Numerator.IsEven ? 2
                    : 1
            );
        }
        return IsSmall(t, BigInteger.Abs(power.Numerator) * Bits(root))
            ? Rational.Power(root, (int)power.Numerator)
            : null;
    }

    private Rational? Called(Term t, Rational x, Rational y) =>
        t.Function switch
        {
            Function.Floor => Rational.Floor(x),
            Function.Ceiling => Rational.Ceiling(x),
            Function.Truncate => Rational.Truncate(x),
            Function.Round => Rational.Round(x),
            Function.Absolute => Rational.Abs(x),
            Function.FloorOfLogarithm => x.Sign > 0 ? FloorOfLogarithm(x) : Fail(Id.NoLogarithm, t),
            // -log2(x) is the logarithm of the inverse.
            Function.CeilingOfLogarithm => x.Sign > 0 ? -FloorOfLogarithm(1 / x) : Fail(Id.NoLogarithm, t),
            Function.Modulo => y.Sign == 0 ? Fail(Id.DivisionByZero, t)
            : IsSmall(t, Bits(x) + Bits(y)) ? x - y * Rational.Floor(x / y)
            : null,
            Function.Largest => x > y ? x : y,
            Function.Smallest => x < y ? x : y,
        };

    /// <summary>Of a number above zero. floor(log2(a/b)) is bits(a) - bits(b), or one less.</summary>
    private static Rational FloorOfLogarithm(Rational x)
    {
        var most = x.Numerator.GetBitLength() - x.Denominator.GetBitLength();
        return new BigInteger(Rational.Power(2, (int)most) > x ? most - 1 : most);
    }

    private Rational? Fail(Id id, Term t)
    {
        Tell(id, t);
        report?.Add(id, t.Place, ("formula", t.ToString()), ("limit", LargestBits), ("at", At(t)));
        return null;
    }

    private void ReportNotWhole(Term t, Rational value)
    {
        Tell(Id.NotWhole, t);
        report?.Add(Id.NotWhole, t.Place, ("formula", t.ToString()), ("value", value.ToString()), ("at", At(t)));
    }

    /// <summary>Hears of each part that has no value, and why, as it is found.</summary>
    protected virtual void Tell(Id why, Term part) { }

    /// <summary>The names that a formula mentions with their numbers: " (n = 5)"; nothing when it mentions none.</summary>
    private string At(Term formula)
    {
        var mentioned = formula
            .Leaves.Where(l => l.Kind is TermKind.Named or TermKind.Variable)
            .Select(l => (Name: l.Variable?.Name ?? l.Text, Number: Number(l)))
            .Where(m => m.Number is not null)
            .Select(m => $"{m.Name} = {m.Number}")
            .Distinct()
            .ToList();
        return mentioned.Count == 0 ? "" : $" ({string.Join(", ", mentioned)})";
    }
}
