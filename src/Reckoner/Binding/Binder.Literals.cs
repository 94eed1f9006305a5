using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Binding;

internal sealed partial class Binder
{
    private Value Literal(Expression e, BigInteger number, Size? wanted, Reading sibling)
    {
        if (wanted is null)
        {
            return isPlaceUnknown ? Value.Unknown : Refuse(Id.WidthUnknown, e);
        }
        var isSigned = number.Sign < 0 || sibling == Reading.Signed;
        if (!Numbers.Bits.Fits(number, wanted.Count, isSigned))
        {
            return Refuse(Id.DoesNotFit, e, ("number", Spoken(e, number)), ("size", wanted));
        }
        var reading = number.Sign < 0 ? Reading.Signed : Reading.Bare;
        return new Value(Operation.Constant, wanted, reading)
        {
            Bits = Numbers.Bits.Wrap(number, wanted.Count),
            Written = e,
            Source = source,
        };
    }

    /// <summary>2n, n / 2, 2^n: a number when all its names are, else an operation the hardware does not have.</summary>
    private Value NumberOrNothing(Expression e, Size? wanted, Reading sibling)
    {
        if (IsNumber(e))
        {
            return Whole(e) is { } number ? Literal(e, number, wanted, sibling) : Value.Unknown;
        }
        if (Names(e).FirstOrDefault(name => Find(name.Name) is null) is { } unknown)
        {
            ReportUnknown(unknown, numbers.Keys);
            return Value.Unknown;
        }
        return Refuse(
            Id.NotHardware,
            e,
            (
                "operator",
                e is Binary { Operator: BinaryOperator.Power } ? "^"
                : e is Scaled ? "*"
                : "/"
            )
        );
    }

    private static IEnumerable<NameReference> Names(Expression e) =>
        e is NameReference name ? [name] : e.Children.SelectMany(Names);

    private bool IsNumber(Expression e) =>
        e is NumberLiteral
        || (e is NameReference name && IsPlainNumber(name.Name))
        || (e is Bracketed or Scaled or Binary or Unary { Operator: UnaryOperator.Negate } && e.Children.All(IsNumber));

    private bool IsPlainNumber(string name) => Find(name) is NumberSymbol;

    private Value Bare(BitsLiteral e)
    {
        if (e.Digits.Length == 0)
        {
            return Refuse(Id.ValueExpected, e, ("found", e.Text));
        }
        if (e.Digits.Contains('x', StringComparison.Ordinal))
        {
            return Refuse(Id.XOutsideLabel, e);
        }
        return new Value(Operation.Constant, Size.Of(e.Digits.Length), Reading.Bare)
        {
            Bits = e.Number,
            Written = e,
            Source = source,
        };
    }
}
