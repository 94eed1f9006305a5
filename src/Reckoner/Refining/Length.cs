using System.Numerics;
using Reckoner.Notation;

namespace Reckoner.Refining;

/// <summary>
/// A number of bits, or a place, as a sum of formulas with whole factors: 2n - 1. What is not linear counts as one formula. Immutable;
/// equal where the sums are.
/// </summary>
internal sealed class Length : IEquatable<Length>
{
    private readonly SortedDictionary<string, (Expression Formula, int Factor)> terms;

    private Length(SortedDictionary<string, (Expression, int)> terms, int number)
    {
        this.terms = terms;
        Number = number;
        Key = string.Concat(terms.Select(t => $"{t.Value.Item2}*{t.Key}+")) + number;
    }

    /// <summary>What is added to the formulas.</summary>
    public int Number { get; }

    public bool IsNumber => terms.Count == 0;

    /// <summary>The same for equal lengths.</summary>
    public string Key { get; }

    public static implicit operator Length(int number) => new(new(StringComparer.Ordinal), number);

    /// <summary>A formula's length; numbers must fit in 32 bits.</summary>
    public static Length Of(Expression formula) =>
        formula switch
        {
            NumberLiteral v when v.Number < int.MaxValue => (int)v.Number,
            Scaled v when v.Factor.Number < int.MaxValue => Of(v.Name) * (int)v.Factor.Number,
            Bracketed v => Of(v.Inner),
            Unary { Operator: UnaryOperator.Negate } v => Of(v.Operand) * -1,
            Binary { Operator: BinaryOperator.Add } v => Of(v.Left) + Of(v.Right),
            Binary { Operator: BinaryOperator.Subtract } v => Of(v.Left) - Of(v.Right),
            Binary { Operator: BinaryOperator.Multiply } v when Of(v.Left) is { IsNumber: true } by => Of(v.Right)
                * by.Number,
            Binary { Operator: BinaryOperator.Multiply } v when Of(v.Right) is { IsNumber: true } by => Of(v.Left)
                * by.Number,
            _ => Alone(formula),
        };

    private static Length Alone(Expression formula) =>
        new(new(StringComparer.Ordinal) { [Printer.Text(formula)] = (formula, 1) }, 0);

    public static Length operator +(Length a, Length b)
    {
        var sum = new SortedDictionary<string, (Expression Formula, int Factor)>(a.terms, StringComparer.Ordinal);
        foreach (var (name, (formula, factor)) in b.terms)
        {
            var both = factor + (sum.TryGetValue(name, out var own) ? own.Factor : 0);
            if (both == 0)
            {
                sum.Remove(name);
            }
            else
            {
                sum[name] = (formula, both);
            }
        }
        return new Length(sum, a.Number + b.Number);
    }

    public static Length operator -(Length a, Length b) => a + (b * -1);

    public static Length operator *(Length a, int factor)
    {
        if (factor == 0)
        {
            return 0;
        }
        var product = new SortedDictionary<string, (Expression, int)>(StringComparer.Ordinal);
        foreach (var (name, (formula, own)) in a.terms)
        {
            product[name] = (formula, own * factor);
        }
        return new Length(product, a.Number * factor);
    }

    public static bool operator ==(Length a, Length b) => a.Equals(b);

    public static bool operator !=(Length a, Length b) => !a.Equals(b);

    /// <summary>Its value where the formulas have these.</summary>
    public BigInteger At(Func<Expression, BigInteger> value) =>
        terms.Values.Aggregate((BigInteger)Number, (sum, t) => sum + (t.Factor * value(t.Formula)));

    /// <summary>As it is written: names first, what is taken away behind them, the number last.</summary>
    public Expression Written()
    {
        Expression? sum = null;
        foreach (var (formula, factor) in terms.Values.OrderBy(t => t.Factor < 0))
        {
            sum = Joined(sum, Times(formula, Math.Abs(factor)), factor < 0);
        }
        return Number == 0 && sum is not null ? sum : Joined(sum, Make.Number(Math.Abs(Number)), Number < 0);
    }

    private static Expression Joined(Expression? before, Expression term, bool isNegative) =>
        before is null
            ? (isNegative ? new Unary(default, UnaryOperator.Negate, term) : term)
            : Make.Binary(isNegative ? BinaryOperator.Subtract : BinaryOperator.Add, before, term);

    private static Expression Times(Expression formula, int factor) =>
        factor == 1 ? formula
        : formula is NameReference name ? new Scaled(default, Make.Number(factor), name)
        : Make.Binary(BinaryOperator.Multiply, Make.Number(factor), formula);

    public bool Equals(Length? other) => other is not null && Key == other.Key;

    public override bool Equals(object? obj) => Equals(obj as Length);

    public override int GetHashCode() => Key.GetHashCode(StringComparison.Ordinal);

    public override string ToString() => Printer.Text(Written());
}
