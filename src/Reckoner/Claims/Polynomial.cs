using System.Numerics;
using Reckoner.Numbers;

namespace Reckoner.Claims;

/// <summary>
/// A number multiplied out: a sum of products of variables with rational factors, none of them zero. Two terms that are sums,
/// differences, products and powers of the same numbers, written in whatever way, give the same.
/// </summary>
public sealed class Polynomial
{
    /// <summary>What is longer or of a higher degree is none of the shapes that anybody looks for.</summary>
    private const int Most = 64;

    private readonly Dictionary<Monomial, Rational> factors;

    private Polynomial(Dictionary<Monomial, Rational> factors) => this.factors = factors;

    public Rational Constant => this[Monomial.One];

    /// <summary>The factor of a product; 0 for one that is not there.</summary>
    public Rational this[Monomial product] => factors.GetValueOrDefault(product);

    /// <summary>The products of variables; the constant is not among them.</summary>
    public IEnumerable<Monomial> Products => factors.Keys.Where(m => m.Degree > 0);

    public int Count => Products.Count();

    /// <summary>The product of variables of these kinds; null where there is none, or more than one.</summary>
    public Monomial? Find(params IReadOnlyList<VariableKind> kinds) =>
        Products.Where(m => m.Is(kinds)).ToList() is [var only] ? only : null;

    /// <summary>Null for what is no polynomial: a rounding, a quotient by a variable, a power that depends on one.</summary>
    public static Polynomial? Of(Term t) =>
        t.Constant is { } constant
            ? Of(Monomial.One, constant)
            : t.Kind switch
            {
                TermKind.Literal or TermKind.Named => null,
                TermKind.Variable => Of(new Monomial([t.Variable!]), 1),
                TermKind.Bracketed => Of(t.Inputs[0]),
                TermKind.Negation => Of(t.Inputs[0])?.Times(-1),
                TermKind.Sum => Sum(Of(t.Inputs[0]), Of(t.Inputs[1])),
                TermKind.Difference => Sum(Of(t.Inputs[0]), Of(t.Inputs[1])?.Times(-1)),
                TermKind.Product or TermKind.Multiple => Product(Of(t.Inputs[0]), Of(t.Inputs[1])),
                TermKind.Quotient => t.Inputs[1].Constant is { Sign: not 0 } by ? Of(t.Inputs[0])?.Times(1 / by) : null,
                TermKind.Power => Power(Of(t.Inputs[0]), t.Inputs[1].Constant),
                TermKind.Call => null,
                TermKind.Total => t.Inputs.Select(Of).Aggregate<Polynomial?, Polynomial?>(Of(Monomial.One, 0), Sum),
                TermKind.Applied => Of(t.Body!),
            };

    public static Polynomial? Difference(Term left, Term right) => Sum(Of(left), Of(right)?.Times(-1));

    /// <summary>Every factor and the constant multiplied by a number other than zero.</summary>
    public Polynomial Times(Rational number) => new(factors.ToDictionary(f => f.Key, f => f.Value * number));

    /// <summary>
    /// The largest number that divides the factors of the products to whole numbers without a common divisor; above zero, or 1
    /// where there are no products.
    /// </summary>
    public Rational Content()
    {
        var (numerator, denominator) = (BigInteger.Zero, BigInteger.One);
        foreach (var product in Products)
        {
            denominator *= (this[product] * denominator).Denominator;
        }
        foreach (var product in Products)
        {
            numerator = BigInteger.GreatestCommonDivisor(numerator, (this[product] * denominator).Numerator);
        }
        return numerator.IsZero ? 1 : Rational.Ratio(numerator, denominator);
    }

    private static Polynomial Of(Monomial monomial, Rational factor) =>
        new(factor.Sign == 0 ? [] : new() { [monomial] = factor });

    private static Polynomial? Sum(Polynomial? a, Polynomial? b) =>
        a is null || b is null ? null : Sum(a.factors.Concat(b.factors));

    private static Polynomial? Sum(IEnumerable<KeyValuePair<Monomial, Rational>> parts)
    {
        var sum = new Dictionary<Monomial, Rational>();
        foreach (var (monomial, factor) in parts)
        {
            sum[monomial] = sum.GetValueOrDefault(monomial) + factor;
        }
        return sum.Count > Most ? null : new(sum.Where(f => f.Value.Sign != 0).ToDictionary(f => f.Key, f => f.Value));
    }

    private static Polynomial? Product(Polynomial? a, Polynomial? b) =>
        a is null || b is null || a.Degree + b.Degree > Most
            ? null
            : Sum(from x in a.factors from y in b.factors select KeyValuePair.Create(x.Key * y.Key, x.Value * y.Value));

    private int Degree => factors.Keys.Select(m => m.Degree).DefaultIfEmpty(0).Max();

    private static Polynomial? Power(Polynomial? root, Rational? exponent)
    {
        if (root is null || exponent is not { IsWhole: true, Sign: >= 0 } power || power > Most)
        {
            return null;
        }
        Polynomial? product = Of(Monomial.One, 1);
        for (var i = 0; i < (int)power.Numerator; i++)
        {
            product = Product(product, root);
        }
        return product;
    }
}
