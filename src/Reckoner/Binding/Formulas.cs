using System.Numerics;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Binding;

/// <summary>
/// Exact evaluation of checked formulas. A truth is 1 or 0. Null: the formula has no value there (a division by zero, a
/// number beyond <see cref="LargestBits"/>), reported where there is somewhere to report to.
/// </summary>
public class Formulas(IReadOnlyDictionary<string, Rational> names, Report? report = null)
{
    /// <summary>Numbers of more bits than this are refused; 2^n is meant for widths, not for n = 2^40.</summary>
    public const int LargestBits = 1 << 18;

    public virtual Rational? Number(Expression formula) =>
        formula switch
        {
            NumberLiteral f => f.Number,
            BitsLiteral f => BigInteger.Parse("0" + f.Digits, System.Globalization.NumberStyles.BinaryNumber, null),
            NameReference f => names.TryGetValue(f.Name, out var value) ? value : null,
            Scaled f => Number(f.Factor) * Number(f.Name),
            Bracketed f => Number(f.Inner),
            Unary { Operator: UnaryOperator.Negate } f => -Number(f.Operand),
            Unary f => Truth(f.Operand) is { } truth ? Of(!truth) : null,
            Binary f => Number(f),
            Comparison f => Number(f),
            Within f => Between(Number(f.Low), Number(f.Value), Number(f.High)),
            Call f => Number(f),
            _ => null,
        };

    /// <summary>Whether a checked truth holds; null where it has no value.</summary>
    public bool? Truth(Expression formula) => Number(formula) is { } value ? value.Sign != 0 : null;

    /// <summary>A whole number; anything else is reported, with what it is here.</summary>
    public BigInteger? Whole(Expression formula)
    {
        if (Number(formula) is not { } value)
        {
            return null;
        }
        if (!value.IsWhole)
        {
            report?.Add(
                Id.NotWhole,
                formula.Span,
                ("formula", Printer.Text(formula)),
                ("value", value.ToString()),
                ("at", At(formula))
            );
            return null;
        }
        return value.Numerator;
    }

    /// <summary>The names that a formula mentions with their numbers: " (n = 5)"; nothing when it mentions none.</summary>
    private string At(Expression formula)
    {
        var mentioned = Mentioned(formula)
            .Distinct()
            .Where(names.ContainsKey)
            .Select(name => $"{name} = {names[name]}")
            .ToList();
        return mentioned.Count == 0 ? "" : $" ({string.Join(", ", mentioned)})";
    }

    internal static IEnumerable<string> Mentioned(Expression formula) =>
        formula is NameReference name ? [name.Name] : formula.Children.SelectMany(Mentioned);

    private static Rational Of(bool truth) => truth ? 1 : 0;

    private static Rational? Between(Rational? low, Rational? value, Rational? high) =>
        low is null || value is null || high is null ? null : Of(low <= value && value <= high);

    private Rational? Number(Binary f)
    {
        // "and" and "or" stop at the first side that decides, so that "divisor <> 0 and ..." guards what follows.
        if (f.Operator is BinaryOperator.And or BinaryOperator.Or)
        {
            var decides = f.Operator == BinaryOperator.Or;
            return Truth(f.Left) is not { } first ? null
                : first == decides ? Of(first)
                : Number(f.Right);
        }
        if (Number(f.Left) is not { } left || Number(f.Right) is not { } right)
        {
            return null;
        }
        return f.Operator switch
        {
            BinaryOperator.Add => IsSumSmall(f, left, right) ? left + right : null,
            BinaryOperator.Subtract => IsSumSmall(f, left, right) ? left - right : null,
            BinaryOperator.Multiply => Limited(f, Bits(left) + Bits(right)) ? left * right : null,
            BinaryOperator.Divide => right.Sign == 0 ? Fail(Id.DivisionByZero, f) : left / right,
            BinaryOperator.Power => Power(f, left, right),
            _ => Of(left.Sign != 0 ^ right.Sign != 0),
        };
    }

    private static long Bits(Rational value) => value.Numerator.GetBitLength() + value.Denominator.GetBitLength();

    /// <summary>A sum of whole numbers grows by a bit; one of fractions has the product of their denominators.</summary>
    private bool IsSumSmall(Expression f, Rational left, Rational right) =>
        Limited(f, left.IsWhole && right.IsWhole ? 0 : Bits(left) + Bits(right));

    private bool Limited(Expression f, BigInteger bits)
    {
        if (bits <= LargestBits)
        {
            return true;
        }
        Fail(Id.NumberTooLarge, f);
        return false;
    }

    private Rational? Fail(Id id, Expression formula)
    {
        report?.Add(id, formula.Span, ("formula", Printer.Text(formula)), ("limit", LargestBits), ("at", At(formula)));
        return null;
    }

    private Rational? Power(Binary f, Rational root, Rational power)
    {
        if (!power.IsWhole)
        {
            report?.Add(
                Id.NotWhole,
                f.Right.Span,
                ("formula", Printer.Text(f.Right)),
                ("value", power.ToString()),
                ("at", At(f.Right))
            );
            return null;
        }
        if (root.Sign == 0 && power.Sign < 0)
        {
            return Fail(Id.DivisionByZero, f);
        }
        return Limited(f, BigInteger.Abs(power.Numerator) * Bits(root))
            ? Rational.Power(root, (int)power.Numerator)
            : null;
    }

    private Rational? Number(Comparison f)
    {
        var left = Number(f.Terms[0]);
        for (var i = 0; i < f.Relations.Count; i++)
        {
            var right = Number(f.Terms[i + 1]);
            if (left is null || right is null)
            {
                return null;
            }
            if (!Holds(f.Relations[i], left.Value.CompareTo(right.Value)))
            {
                return 0;
            }
            left = right;
        }
        return 1;
    }

    /// <summary>Whether a relation holds, from the sign of left minus right.</summary>
    public static bool Holds(Relation relation, int order) =>
        relation switch
        {
            Relation.Equal => order == 0,
            Relation.Unequal => order != 0,
            Relation.Less => order < 0,
            Relation.LessOrEqual => order <= 0,
            Relation.Greater => order > 0,
            Relation.GreaterOrEqual => order >= 0,
        };

    private Rational? Number(Call f)
    {
        if (f.Arguments.Count != 1)
        {
            return null;
        }
        if (Logarithm(f) is { } argument)
        {
            return Number(argument) is { } power ? Logarithm(f, power) : null;
        }
        if (Number(f.Arguments[0]) is not { } value)
        {
            return null;
        }
        return f.Function switch
        {
            "floor" => Rational.Floor(value),
            "ceil" => Rational.Ceiling(value),
            "trunc" => Rational.Truncate(value),
            "round" => Rational.Round(value),
            "abs" => Rational.Abs(value),
            _ => null,
        };
    }

    /// <summary>x of floor(log2(x)) or ceil(log2(x)); only so is a logarithm exact.</summary>
    internal static Expression? Logarithm(Call f)
    {
        if (f.Function is not ("floor" or "ceil") || f.Arguments.Count != 1)
        {
            return null;
        }
        var inner = f.Arguments[0];
        while (inner is Bracketed bracketed)
        {
            inner = bracketed.Inner;
        }
        return inner is Call { Function: "log2", Arguments: [var argument] } ? argument : null;
    }

    private Rational? Logarithm(Call f, Rational value)
    {
        if (value.Sign <= 0)
        {
            return Fail(Id.NoLogarithm, f);
        }
        // floor(log2(a/b)) is bits(a) - bits(b), or one less.
        var floor = value.Numerator.GetBitLength() - value.Denominator.GetBitLength();
        while (PowerOfTwo(floor) > value)
        {
            floor--;
        }
        while (PowerOfTwo(floor + 1) <= value)
        {
            floor++;
        }
        return f.Function == "floor" || PowerOfTwo(floor) == value ? new BigInteger(floor) : new BigInteger(floor + 1);
    }

    private static Rational PowerOfTwo(long power) => Rational.Power(2, (int)power);
}
