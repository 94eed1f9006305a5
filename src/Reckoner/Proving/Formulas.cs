using Reckoner.Claims;
using Reckoner.Numbers;

namespace Reckoner.Proving;

/// <summary>What formulas say, at every width at once and on one path.</summary>
/// <param name="number">The form of an operand or a result.</param>
internal sealed class Formulas(LiftedMachine machine, Path path, Func<Variable, Form> number)
{
    /// <summary>What must be shown for a formula to hold; where it depends on a part of it, that is decided on the path.</summary>
    public IReadOnlyList<Fact> Goals(Truth truth) =>
        truth.Kind switch
        {
            TruthKind.Bracketed => Goals(truth.Inputs[0]),
            TruthKind.And => [.. Goals(truth.Inputs[0]), .. Goals(truth.Inputs[1])],
            TruthKind.Or => Holds(truth.Inputs[0]) ? [] : Goals(truth.Inputs[1]),
            TruthKind.Comparison when !truth.Relations.Contains(Relation.Unequal) => Compared(
                truth.Terms,
                truth.Relations
            ),
            TruthKind.Between => Compared(
                [truth.Terms[1], truth.Terms[0], truth.Terms[2]],
                [Relation.LessOrEqual, Relation.LessOrEqual]
            ),
            TruthKind.Comparison or TruthKind.Xor or TruthKind.Not or TruthKind.Every or TruthKind.Applied => Holds(
                truth
            )
                ? []
                : Never,
        };

    /// <summary>What a claim asks to be shown.</summary>
    public IReadOnlyList<Fact> Goals(Claim claim) =>
        claim.Mode switch
        {
            ClaimMode.Always => Goals(claim.Formula),
            ClaimMode.When => Holds(claim.Condition!) ? Goals(claim.Formula) : [],
            ClaimMode.ExactlyWhen => Holds(claim.Condition!) == Holds(claim.Formula) ? [] : Never,
        };

    private static IReadOnlyList<Fact> Never => [Fact.NotNegative(-Proving.Form.One)];

    private List<Fact> Compared(IReadOnlyList<Term> terms, IReadOnlyList<Relation> relations)
    {
        var forms = terms.Select(t => Form(t)).ToList();
        return
        [
            .. relations
                .Select((relation, r) => forms[r] - forms[r + 1])
                .Zip(
                    relations,
                    (difference, relation) =>
                        relation switch
                        {
                            Relation.Equal => Fact.Zero(difference),
                            Relation.Less => Fact.Negative(difference),
                            Relation.LessOrEqual => Fact.NotNegative(-difference),
                            Relation.Greater => Fact.NotNegative(difference - Proving.Form.One),
                            Relation.GreaterOrEqual => Fact.NotNegative(difference),
                            Relation.Unequal => throw new InvalidOperationException("is decided"),
                        }
                ),
        ];
    }

    /// <summary>Decides on the path whether a formula holds.</summary>
    public bool Holds(Truth truth) =>
        truth.Kind switch
        {
            TruthKind.Bracketed => Holds(truth.Inputs[0]),
            TruthKind.And => Holds(truth.Inputs[0]) && Holds(truth.Inputs[1]),
            TruthKind.Or => Holds(truth.Inputs[0]) || Holds(truth.Inputs[1]),
            TruthKind.Xor => Holds(truth.Inputs[0]) != Holds(truth.Inputs[1]),
            TruthKind.Not => !Holds(truth.Inputs[0]),
            TruthKind.Every or TruthKind.Applied => throw new NotReachedException(
                Obstacle.Formula,
                FormulaText.Of(truth)
            ),
            TruthKind.Comparison => truth
                .Relations.Select((r, i) => (r, i))
                .All(x => Holds(Form(truth.Terms[x.i]) - Form(truth.Terms[x.i + 1]), x.r)),
            TruthKind.Between => Holds(Form(truth.Terms[0]) - Form(truth.Terms[1]), Relation.GreaterOrEqual)
                && Holds(Form(truth.Terms[0]) - Form(truth.Terms[2]), Relation.LessOrEqual),
        };

    private bool Holds(Form difference, Relation relation) =>
        relation switch
        {
            Relation.Equal => path.IsZero(difference),
            Relation.Unequal => !path.IsZero(difference),
            Relation.Less => path.IsNegative(difference),
            Relation.GreaterOrEqual => !path.IsNegative(difference),
            Relation.Greater => path.IsNegative(-difference),
            Relation.LessOrEqual => !path.IsNegative(-difference),
        };

    public Form Form(Term term) =>
        term.Kind switch
        {
            TermKind.Literal => Proving.Form.Of(term.Constant!.Value),
            TermKind.Named => Width(term) is { IsConstant: true } extent ? extent.Constant : throw Unknown(term),
            TermKind.Variable => path.Plain(number(term.Variable!)),
            TermKind.Bracketed => Form(term.Inputs[0]),
            TermKind.Negation => -Form(term.Inputs[0]),
            TermKind.Sum => Form(term.Inputs[0]) + Form(term.Inputs[1]),
            TermKind.Difference => Form(term.Inputs[0]) - Form(term.Inputs[1]),
            TermKind.Product or TermKind.Multiple => Form(term.Inputs[0]) * Form(term.Inputs[1]),
            TermKind.Power => Power(term),
            TermKind.Quotient or TermKind.Total or TermKind.Applied => throw Unknown(term),
            TermKind.Call when term.Function == Function.Absolute => Magnitude(Form(term.Inputs[0])),
            TermKind.Call when term.Function is Function.Truncate or Function.Floor => Rounded(
                term,
                isDown: term.Function == Function.Floor
            ),
            TermKind.Call => throw Unknown(term),
        };

    /// <summary>
    /// A rounded quotient is a new whole number, known by what is left: less than the divisor in size, and not negative where the
    /// divisor is above 0 (rounding down) or with the sign of the dividend (toward zero).
    /// </summary>
    private Form Rounded(Term term, bool isDown)
    {
        var ratio = term.Inputs[0];
        while (ratio.Kind == TermKind.Bracketed)
        {
            ratio = ratio.Inputs[0];
        }
        if (ratio.Kind != TermKind.Quotient)
        {
            throw Unknown(term);
        }
        var (dividend, divisor) = (path.Plain(Form(ratio.Inputs[0])), path.Plain(Form(ratio.Inputs[1])));
        return path.IsZero(divisor) ? throw Unknown(term) : path.Quotient(dividend, divisor, isDown);
    }

    private Form Magnitude(Form form) => path.IsNegative(form) ? -form : form;

    private Form Power(Term term)
    {
        var root = Form(term.Inputs[0]);
        if (root.IsConstant && root.Constant == 2)
        {
            return Proving.Form.Power(Width(term.Inputs[1]));
        }
        var power = Width(term.Inputs[1]);
        if (!power.IsConstant || power.Constant is < 0 or > 4)
        {
            throw Unknown(term);
        }
        return Enumerable.Repeat(root, power.Constant).Aggregate(Proving.Form.One, (a, b) => a * b);
    }

    /// <summary>A number that grows evenly with the width: an exponent.</summary>
    private Extent Width(Term term) =>
        term.Kind switch
        {
            TermKind.Literal when term.Constant is { IsWhole: true } number && Rational.Abs(number) < 1 << 16 => (int)
                number.Numerator,
            TermKind.Named => machine.Number(term.Text) ?? throw Unknown(term),
            TermKind.Bracketed => Width(term.Inputs[0]),
            TermKind.Negation => -Width(term.Inputs[0]),
            TermKind.Sum => Width(term.Inputs[0]) + Width(term.Inputs[1]),
            TermKind.Difference => Width(term.Inputs[0]) - Width(term.Inputs[1]),
            TermKind.Product or TermKind.Multiple when Width(term.Inputs[0]) is { IsConstant: true } factor => Width(
                term.Inputs[1]
            ) * factor.Constant,
            TermKind.Product or TermKind.Multiple when Width(term.Inputs[1]) is { IsConstant: true } factor => Width(
                term.Inputs[0]
            ) * factor.Constant,
            TermKind.Literal
            or TermKind.Variable
            or TermKind.Product
            or TermKind.Multiple
            or TermKind.Quotient
            or TermKind.Power
            or TermKind.Call
            or TermKind.Total
            or TermKind.Applied => throw Unknown(term),
        };

    private static NotReachedException Unknown(Term term) => new(Obstacle.Formula, FormulaText.Of(term));
}
