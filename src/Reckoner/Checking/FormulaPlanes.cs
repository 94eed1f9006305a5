using System.Numerics;
using Reckoner.Claims;
using Reckoner.Numbers;

namespace Reckoner.Checking;

/// <summary>
/// Turns formulas over operands and results into gates, which say what <see cref="Exact"/> says: where a number has no value, a
/// comparison is not so.
/// </summary>
/// <param name="words">The literals of every operand and result, as signed words, by its name.</param>
internal sealed class FormulaPlanes(GateGraph graph, IReadOnlyDictionary<string, int[]> words)
{
    /// <summary>How far a power of two moves the point.</summary>
    private const int MostPlaces = 1 << 13;

    /// <summary>An exponent of more bits is beyond any word.</summary>
    private const int MostExponentBits = 16;

    private readonly Fractions fractions = new(graph);

    /// <summary>A truth by cases, and where it is defined.</summary>
    private readonly record struct Case(int Holds, int Defined);

    /// <summary>The literal of "is so": 1 exactly where the formula has a value and it is true.</summary>
    public int Holds(Truth formula)
    {
        fractions.Begin(formula);
        var truth = Of(formula);
        return graph.And(truth.Holds, truth.Defined);
    }

    /// <summary>The literal of a claim that holds, by the rules of <see cref="ClaimJudge.Holds"/>.</summary>
    public int Holds(Claim claim)
    {
        fractions.Begin(claim.Formula);
        var formula = Of(claim.Formula);
        var isSo = graph.And(formula.Holds, formula.Defined);
        return claim.Mode switch
        {
            ClaimMode.Always => isSo,
            ClaimMode.When => Unless(Of(claim.Condition!), isSo),
            ClaimMode.ExactlyWhen => Same(formula, Of(claim.Condition!)),
        };
    }

    private int Unless(Case condition, int isSo) =>
        graph.Or(graph.And(GateGraph.Not(condition.Holds), condition.Defined), isSo);

    private int Same(Case formula, Case condition)
    {
        var same = GateGraph.Not(graph.Xor(formula.Holds, condition.Holds));
        return graph.And(same, graph.And(formula.Defined, condition.Defined));
    }

    private Case Of(Truth t) =>
        t.Kind switch
        {
            TruthKind.Comparison => Chain(t),
            TruthKind.Between => Between(Of(t.Terms[0]), Of(t.Terms[1]), Of(t.Terms[2])),
            TruthKind.Bracketed or TruthKind.Applied => Of(t.Inputs[0]),
            TruthKind.Every => t.Inputs.Select(Of).Aggregate(new Case(GateGraph.One, GateGraph.One), And),
            TruthKind.And => And(Of(t.Inputs[0]), Of(t.Inputs[1])),
            TruthKind.Or => Or(Of(t.Inputs[0]), Of(t.Inputs[1])),
            TruthKind.Xor => Xor(Of(t.Inputs[0]), Of(t.Inputs[1])),
            TruthKind.Not => Not(Of(t.Inputs[0])),
        };

    private Case Between(Fraction value, Fraction low, Fraction high)
    {
        var defined = graph.And(value.Defined, graph.And(low.Defined, high.Defined));
        var isAbove = fractions.Compared(Relation.LessOrEqual, low, value);
        return new Case(graph.And(isAbove, fractions.Compared(Relation.LessOrEqual, value, high)), defined);
    }

    /// <summary>Stops at a first side that fails; what follows may then be undefined.</summary>
    private Case And(Case a, Case b) =>
        new(graph.And(a.Holds, b.Holds), graph.And(a.Defined, graph.Or(GateGraph.Not(a.Holds), b.Defined)));

    /// <summary>Stops at a first side that holds.</summary>
    private Case Or(Case a, Case b) =>
        new(graph.Or(a.Holds, b.Holds), graph.And(a.Defined, graph.Or(a.Holds, b.Defined)));

    private Case Xor(Case a, Case b) => new(graph.Xor(a.Holds, b.Holds), graph.And(a.Defined, b.Defined));

    private static Case Not(Case a) => a with { Holds = GateGraph.Not(a.Holds) };

    /// <summary>A chain stops at the first relation that fails.</summary>
    private Case Chain(Truth t)
    {
        var holds = GateGraph.One;
        var left = Of(t.Terms[0]);
        var defined = left.Defined;
        for (var i = 0; i < t.Relations.Count; i++)
        {
            var right = Of(t.Terms[i + 1]);
            defined = graph.And(defined, graph.Or(GateGraph.Not(holds), right.Defined));
            holds = graph.And(holds, fractions.Compared(t.Relations[i], left, right));
            left = right;
        }
        return new Case(holds, defined);
    }

    private Fraction Of(Term t) =>
        t.Constant is { } constant ? Fractions.Constant(constant)
        // Of constants, and yet none: it has no value.
        : t.Inputs.Count > 0 && t.Body is null && t.Inputs.All(i => i.Constant is not null) ? Fractions.Undefined
        : t.Kind switch
        {
            TermKind.Literal or TermKind.Named => throw new InvalidOperationException($"{t} has no number"),
            TermKind.Variable => Fractions.Whole(words[t.Variable!.Name]),
            TermKind.Bracketed => Of(t.Inputs[0]),
            TermKind.Negation => fractions.Negated(Of(t.Inputs[0])),
            TermKind.Sum => fractions.Sum(Of(t.Inputs[0]), Of(t.Inputs[1])),
            TermKind.Difference => fractions.Difference(Of(t.Inputs[0]), Of(t.Inputs[1])),
            TermKind.Product or TermKind.Multiple => OfTwo(t.Inputs[1]) is { } power ? Times(t.Inputs[0], power)
            : OfTwo(t.Inputs[0]) is { } first ? Times(t.Inputs[1], first)
            : fractions.Product(Of(t.Inputs[0]), Of(t.Inputs[1])),
            TermKind.Quotient => OfTwo(t.Inputs[1]) is { } divisor
                ? Times(t.Inputs[0], divisor, isInverse: true)
                : fractions.Quotient(Of(t.Inputs[0]), Of(t.Inputs[1])),
            TermKind.Power => OfTwo(t) is { } alone
                ? Times(Term.Literal(1), alone)
                : Power(t, t.Inputs[0], t.Inputs[1]),
            TermKind.Call => Called(t),
            TermKind.Total => t.Inputs.Select(Of).Aggregate(fractions.Sum),
            TermKind.Applied => Of(t.Body!),
        };

    /// <summary>A power of two that depends on the case, by whatever name; null for anything else.</summary>
    private static Term? OfTwo(Term t)
    {
        while (t.Kind is TermKind.Bracketed or TermKind.Applied)
        {
            t = t.Body ?? t.Inputs[0];
        }
        return t.Kind == TermKind.Power && t.Inputs[0].Constant == 2 && t.Inputs[1].Variables.Any() ? t : null;
    }

    /// <summary>A product with a power of two, or what is divided by it: a shift.</summary>
    private Fraction Times(Term t, Term power, bool isInverse = false)
    {
        var (varying, constant) = Exponent(power.Inputs[1]);
        var exponent = isInverse ? fractions.Negated(varying) : varying;
        if (fractions.Shifted(Of(t), exponent) is { } shifted && BigInteger.Abs(constant) <= MostPlaces)
        {
            var by = Fractions.Constant(Rational.Power(2, (int)(isInverse ? -constant : constant)));
            return fractions.Product(shifted, by);
        }
        var other = Power(power, power.Inputs[0], power.Inputs[1]);
        return isInverse ? fractions.Quotient(Of(t), other) : fractions.Product(Of(t), other);
    }

    /// <summary>
    /// An exponent as what depends on the case and what does not: of 2^(e - 25) the 25 is only where the point stands, and what is
    /// left is not negative.
    /// </summary>
    private (Fraction Varying, BigInteger Constant) Exponent(Term t)
    {
        if (t.Constant is { IsWhole: true } constant)
        {
            return (Fractions.Constant(0), constant.Numerator);
        }
        switch (t.Kind)
        {
            case TermKind.Bracketed or TermKind.Applied:
                return Exponent(t.Body ?? t.Inputs[0]);
            case TermKind.Sum or TermKind.Difference:
                var (left, right) = (Exponent(t.Inputs[0]), Exponent(t.Inputs[1]));
                return t.Kind == TermKind.Sum
                    ? (fractions.Sum(left.Varying, right.Varying), left.Constant + right.Constant)
                    : (fractions.Difference(left.Varying, right.Varying), left.Constant - right.Constant);
            default:
                return (Of(t), 0);
        }
    }

    private Fraction Power(Term power, Term root, Term exponent)
    {
        if (exponent.Constant is { } constant)
        {
            return constant.IsWhole ? fractions.Power(Of(root), constant.Numerator) : Fractions.Undefined;
        }
        return FormulaExtent.Of(exponent, MostExponentBits) is { IsFew: true } extent
            ? fractions.Power(Of(root), Of(exponent), (int)extent.Lowest, (int)extent.Highest)
            : throw new LawBeyondPlanesException(power);
    }

    private Fraction Called(Term call)
    {
        var x = Of(call.Inputs[0]);
        return call.Function switch
        {
            Function.Modulo => fractions.Modulo(x, Of(call.Inputs[1])),
            Function.Largest => fractions.Largest(x, Of(call.Inputs[1])),
            Function.Smallest => fractions.Smallest(x, Of(call.Inputs[1])),
            Function.Floor => fractions.Floor(x),
            Function.Ceiling => fractions.Ceiling(x),
            Function.Truncate => fractions.Truncated(x),
            Function.Round => fractions.Rounded(x),
            Function.Absolute => fractions.Absolute(x),
            Function.FloorOfLogarithm => fractions.FloorOfLogarithm(x) ?? throw new LawBeyondPlanesException(call),
            Function.CeilingOfLogarithm => fractions.CeilingOfLogarithm(x) ?? throw new LawBeyondPlanesException(call),
        };
    }
}
