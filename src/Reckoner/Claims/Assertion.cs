using System.Numerics;
using Reckoner.Numbers;

namespace Reckoner.Claims;

/// <summary>
/// One of the truths that a law of the mode "always" comes apart into: "and" and chains of comparisons claim several things at
/// once. The law holds exactly where all of its assertions do.
/// </summary>
/// <param name="Law">The law that says it.</param>
public sealed record Assertion(Claim Law, Truth Truth)
{
    /// <summary>What equals zero, for an equation of polynomials; factors whole without common divisor, the sign is open.</summary>
    public Polynomial? Equation { get; } = EquationOf(Truth);

    /// <summary>
    /// For an inequality of polynomials: products that are at most a number, their factors whole without common divisor. Operands
    /// and results are whole numbers, so that r &lt; d is r - d at most -1.
    /// </summary>
    public (Polynomial Products, BigInteger Most)? Bound { get; } = BoundOf(Truth);

    /// <summary>In the order of the text.</summary>
    public static IReadOnlyList<Assertion> Of(IEnumerable<Claim> laws) =>
        [
            .. laws.Where(l => l.Mode == ClaimMode.Always)
                .SelectMany(l => Parts(l.Formula).Select(t => new Assertion(l, t))),
        ];

    private static IEnumerable<Truth> Parts(Truth t) =>
        t.Kind switch
        {
            TruthKind.And => Parts(t.Inputs[0]).Concat(Parts(t.Inputs[1])),
            TruthKind.Bracketed or TruthKind.Applied => Parts(t.Inputs[0]),
            TruthKind.Every => t.Inputs.SelectMany(Parts),
            TruthKind.Comparison when t.Relations.Count > 1 => t.Relations.Select(
                (relation, i) => Truth.Comparison(t.Place, t.Terms[i], relation, t.Terms[i + 1])
            ),
            TruthKind.Between =>
            [
                Truth.Comparison(t.Place, t.Terms[1], Relation.LessOrEqual, t.Terms[0]),
                Truth.Comparison(t.Place, t.Terms[0], Relation.LessOrEqual, t.Terms[2]),
            ],
            TruthKind.Comparison or TruthKind.Or or TruthKind.Xor or TruthKind.Not => [t],
        };

    private static Polynomial? EquationOf(Truth t)
    {
        var zero = t is { Relations: [Relation.Equal] } ? Polynomial.Difference(t.Terms[0], t.Terms[1]) : null;
        return zero?.Times(1 / zero.Content());
    }

    private static (Polynomial, BigInteger)? BoundOf(Truth t)
    {
        if (t is not { Relations: [var relation], Terms: [var left, var right] })
        {
            return null;
        }
        return relation switch
        {
            Relation.Equal or Relation.Unequal => null,
            Relation.Less => AtMost(left, right, isStrict: true),
            Relation.LessOrEqual => AtMost(left, right, isStrict: false),
            Relation.Greater => AtMost(right, left, isStrict: true),
            Relation.GreaterOrEqual => AtMost(right, left, isStrict: false),
        };
    }

    private static (Polynomial, BigInteger)? AtMost(Term small, Term large, bool isStrict)
    {
        if (Polynomial.Difference(small, large) is not { } difference)
        {
            return null;
        }
        var scaled = difference.Times(1 / difference.Content());
        var most = -scaled.Constant;
        return (scaled, isStrict ? Rational.Ceiling(most) - 1 : Rational.Floor(most));
    }
}
