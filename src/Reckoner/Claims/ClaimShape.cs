using System.Numerics;
using Reckoner.Numbers;

namespace Reckoner.Claims;

/// <summary>What laws may say about the numbers of a machine.</summary>
internal enum ShapeKind
{
    /// <summary>dividend = quotient * divisor + remainder.</summary>
    Division,

    /// <summary>dividend * 2^(k + low) = quotient * divisor * 2^low + remainder.</summary>
    ScaledDivision,

    /// <summary>product = multiplicand * multiplier.</summary>
    Product,

    /// <summary>radicand = root^2 + remainder, or root^2 &lt;= radicand.</summary>
    Root,
}

/// <summary>
/// What laws say, however they are written: terms, factors and sides may be exchanged, brackets set, terms moved to the other
/// side, relations turned, laws joined by "and" or in a chain. A law with "when" says none of it.
/// </summary>
/// <param name="First">The operand that is divided, multiplied or of which the root is taken; of two factors the first declared.</param>
/// <param name="Second">The divisor or the other factor; a root has none.</param>
/// <param name="Result">The quotient, the product or the root.</param>
/// <param name="Remainder">What is left of a division, or of a root if its law tells.</param>
/// <param name="Equation">The assertion that says so.</param>
/// <param name="Below">Of a division, the assertion that the remainder is smaller than the divisor; null where none is.</param>
internal sealed record ClaimShape(
    ShapeKind Kind,
    Variable First,
    Variable? Second,
    Variable Result,
    Variable? Remainder,
    Assertion Equation,
    Assertion? Below
)
{
    /// <summary>Of a scaled division, by how many places the dividend and the remainder stand further up: k and low.</summary>
    public (int K, int Low) Places { get; private init; }

    private const VariableKind Operand = VariableKind.Operand;
    private const VariableKind Outcome = VariableKind.Result;

    /// <summary>All that laws say, in the order of the text.</summary>
    public static IReadOnlyList<ClaimShape> Of(IEnumerable<Claim> laws) => Of(Assertion.Of(laws));

    public static IReadOnlyList<ClaimShape> Of(IReadOnlyList<Assertion> assertions) =>
        [.. assertions.Select(s => Of(s, assertions)).OfType<ClaimShape>()];

    private static ClaimShape? Of(Assertion assertion, IReadOnlyList<Assertion> all) =>
        assertion.Equation is { Constant.Sign: 0 } zero
            ? Division(assertion, zero, all)
                ?? ScaledDivision(assertion, zero, all)
                ?? Product(assertion, zero)
                ?? Root(assertion, zero)
            : RootBelow(assertion);

    private static ClaimShape? Division(Assertion assertion, Polynomial zero, IReadOnlyList<Assertion> all) =>
        Variables(zero, [Operand], [Operand, Outcome], [Outcome])
            is [var dividend, var divisor, var quotient, var remainder]
        && dividend != divisor
        && quotient != remainder
            ? new(
                ShapeKind.Division,
                dividend,
                divisor,
                quotient,
                remainder,
                assertion,
                all.FirstOrDefault(s => IsBelow(s, remainder, divisor))
            )
            : null;

    private static ClaimShape? ScaledDivision(Assertion assertion, Polynomial zero, IReadOnlyList<Assertion> all)
    {
        if (
            zero.Count != 3
            || zero.Find(Operand) is not { } whole
            || zero.Find(Operand, Outcome) is not { } product
            || zero.Find(Outcome) is not { } rest
        )
        {
            return null;
        }
        var scale = -1 / zero[rest];
        if (
            Logarithm(scale * zero[whole]) is not { } up
            || Logarithm(-scale * zero[product]) is not { } low
            || up < low
        )
        {
            return null;
        }
        var (dividend, divisor, remainder) = (whole.Factors[0], product.Factors[0], rest.Factors[0]);
        return dividend == divisor || product.Factors[1] == remainder
            ? null
            : new(
                ShapeKind.ScaledDivision,
                dividend,
                divisor,
                product.Factors[1],
                remainder,
                assertion,
                all.FirstOrDefault(s => IsBelow(s, remainder, divisor, low))
            )
            {
                Places = (up - low, low),
            };
    }

    /// <summary>Which power of two a number is; null for none, and for those below 1.</summary>
    private static int? Logarithm(Rational number) =>
        number.IsWhole && number.Sign > 0 && number.Numerator.IsPowerOfTwo
            ? (int)(number.Numerator.GetBitLength() - 1)
            : null;

    private static bool IsBelow(Assertion assertion, Variable remainder, Variable divisor, int low = 0) =>
        assertion.Bound is (var products, var most)
        && most == -1
        && products.Count == 2
        && products[new Monomial([remainder])] == 1
        && products[new Monomial([divisor])] == -(BigInteger.One << low);

    private static ClaimShape? Product(Assertion assertion, Polynomial zero) =>
        Variables(zero, [Outcome], [Operand, Operand]) is [var product, var first, var second]
            ? new(ShapeKind.Product, first, second, product, null, assertion, null)
            : null;

    private static ClaimShape? Root(Assertion assertion, Polynomial zero) =>
        Variables(zero, [Operand], [Outcome, Outcome], [Outcome]) is [var radicand, var root, var again, var remainder]
        && root == again
        && root != remainder
            ? new(ShapeKind.Root, radicand, null, root, remainder, assertion, null)
            : null;

    private static ClaimShape? RootBelow(Assertion assertion) =>
        assertion.Bound is (var products, var most)
        && most.IsZero
        && Variables(products, [Operand], [Outcome, Outcome]) is [var radicand, var root, var again]
        && root == again
        && products[new Monomial([radicand])] == -1
            ? new(ShapeKind.Root, radicand, null, root, null, assertion, null)
            : null;

    /// <summary>
    /// The variables of a polynomial that says: this product is the sum of those, where products are told by the kinds of their
    /// factors. Null where it says anything else.
    /// </summary>
    private static List<Variable>? Variables(
        Polynomial polynomial,
        VariableKind[] whole,
        params ReadOnlySpan<VariableKind[]> parts
    )
    {
        if (polynomial.Find(whole) is not { } first || polynomial.Count != 1 + parts.Length)
        {
            return null;
        }
        var found = first.Factors.ToList();
        foreach (var kinds in parts)
        {
            if (polynomial.Find(kinds) is not { } part || polynomial[part] != -polynomial[first])
            {
                return null;
            }
            found.AddRange(part.Factors);
        }
        return found;
    }
}
