using System.Numerics;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Reporting;

/// <summary>Claims with numbers in the place of their names.</summary>
public static class ClaimText
{
    /// <summary>
    /// 29 = 4 * 6 + 5 for dividend = quotient * divisor + remainder. A condition that applies is left out, but not that of
    /// "exactly when": without it a formula that is rightly false would stand there as if it were true.
    /// </summary>
    public static string WithNumbers(ClaimLine claim, IReadOnlyDictionary<string, BigInteger> numbers)
    {
        var formula = Printer.Text(Replaced(claim.Formula, numbers));
        return claim.Kind == ClaimCondition.ExactlyWhen
            ? $"{formula} exactly when {Printer.Text(Replaced(claim.Condition!, numbers))}"
            : formula;
    }

    private static Expression Replaced(Expression e, IReadOnlyDictionary<string, BigInteger> numbers)
    {
        Expression In(int i) => Replaced(e.Children[i], numbers);
        return e switch
        {
            NameReference v => numbers.TryGetValue(v.Name, out var number) ? Literal(number) : e,
            Scaled v => numbers.TryGetValue(v.Name.Name, out var number)
                ? new Binary(e.Span, BinaryOperator.Multiply, v.Factor, Literal(number))
                : e,
            Bracketed => new Bracketed(e.Span, In(0)),
            Unary v => new Unary(e.Span, v.Operator, In(0)),
            Binary v => new Binary(e.Span, v.Operator, In(0), In(1)),
            Comparison v => new Comparison(e.Span, [.. v.Terms.Select(t => Replaced(t, numbers))], v.Relations),
            Within => new Within(e.Span, In(0), In(1), In(2)),
            Call v => new Call(e.Span, v.NameSpan, v.Function, [.. v.Arguments.Select(a => Replaced(a, numbers))]),
            _ => e,
        };
    }

    private static Expression Literal(BigInteger number)
    {
        var none = new Span(0, 0);
        var literal = new NumberLiteral(none, Bits.Text(BigInteger.Abs(number)));
        return number.Sign < 0 ? new Unary(none, UnaryOperator.Negate, literal) : literal;
    }
}
