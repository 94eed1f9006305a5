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
            TruthKind.Bracketed => Of(t.Inputs[0]),
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
        : t.Inputs.Count > 0 && t.Inputs.All(i => i.Constant is not null) ? Fractions.Undefined
        : t.Kind switch
        {
            TermKind.Literal or TermKind.Named => throw new InvalidOperationException($"{t} has no number"),
            TermKind.Variable => Fractions.Whole(words[t.Variable!.Name]),
            TermKind.Bracketed => Of(t.Inputs[0]),
            TermKind.Negation => fractions.Negated(Of(t.Inputs[0])),
            TermKind.Sum => fractions.Sum(Of(t.Inputs[0]), Of(t.Inputs[1])),
            TermKind.Difference => fractions.Difference(Of(t.Inputs[0]), Of(t.Inputs[1])),
            TermKind.Product or TermKind.Multiple => fractions.Product(Of(t.Inputs[0]), Of(t.Inputs[1])),
            TermKind.Quotient => fractions.Quotient(Of(t.Inputs[0]), Of(t.Inputs[1])),
            TermKind.Power => Power(t, t.Inputs[0], t.Inputs[1]),
            TermKind.Call => Called(t, Of(t.Inputs[0])),
        };

    private Fraction Power(Term power, Term root, Term exponent)
    {
        if (exponent.Constant is { } constant)
        {
            return constant.IsWhole ? fractions.Power(Of(root), constant.Numerator) : Fractions.Undefined;
        }
        var chosen = Of(exponent);
        return fractions.Power(Of(root), chosen) ?? throw new LawBeyondPlanesException(power);
    }

    private Fraction Called(Term call, Fraction x) =>
        call.Function switch
        {
            Function.Floor => fractions.Floor(x),
            Function.Ceiling => fractions.Ceiling(x),
            Function.Truncate => fractions.Truncated(x),
            Function.Round => fractions.Rounded(x),
            Function.Absolute => fractions.Absolute(x),
            Function.FloorOfLogarithm => fractions.FloorOfLogarithm(x) ?? throw new LawBeyondPlanesException(call),
            Function.CeilingOfLogarithm => fractions.CeilingOfLogarithm(x) ?? throw new LawBeyondPlanesException(call),
        };
}
