using Reckoner.Claims;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Numbers;
using Function = Reckoner.Claims.Function;
using Term = Reckoner.Claims.Term;

namespace Reckoner.Binding;

/// <summary>
/// Binds formulas: known names, numbers where numbers belong, truths where truths do, no hardware. Null where something is
/// wrong, which is then reported.
/// </summary>
/// <param name="named">What a name stands for; null, and reported, where it is no number here.</param>
/// <param name="formulas">What may be named besides; none where widths, counts and places are bound.</param>
/// <param name="local">What a name stands for here alone, before all others; null, and nothing is said, for every other.</param>
internal sealed partial class FormulaBinding(
    Report report,
    Func<NameReference, Term?> named,
    NamedFormulas? formulas = null,
    Func<NameReference, Term?>? local = null
)
{
    /// <summary>What a formula over these numbers alone comes to; null, and nothing is said, where it has no value.</summary>
    public static Rational? Number(Expression formula, IReadOnlyDictionary<string, Rational> numbers)
    {
        var binding = new FormulaBinding(
            new Report(null),
            name => numbers.TryGetValue(name.Name, out var number) ? Term.Named(name.Span, name.Name, number) : null
        );
        return binding.Number(formula)?.Constant;
    }

    public Term? Number(Expression formula) =>
        formula.Kind switch
        {
            ExpressionKind.Bracketed => Of(formula, TermKind.Bracketed, Number(((Bracketed)formula).Inner)),
            ExpressionKind.Number => Term.Literal(
                formula.Span,
                ((NumberLiteral)formula).Number,
                ((NumberLiteral)formula).Text
            ),
            ExpressionKind.Bits => Digits((BitsLiteral)formula),
            ExpressionKind.Name => Named((NameReference)formula) switch
            {
                Term number => number,
                Claims.Truth => NotANumber(formula),
                _ => null,
            },
            ExpressionKind.Scaled => Of(
                formula,
                TermKind.Multiple,
                Number(((Scaled)formula).Factor),
                Number(((Scaled)formula).Name)
            ),
            ExpressionKind.Unary => ((Unary)formula).Operator switch
            {
                UnaryOperator.Negate => Of(formula, TermKind.Negation, Number(((Unary)formula).Operand)),
                UnaryOperator.Not => NotANumber(formula),
            },
            ExpressionKind.Binary => IsLogic((Binary)formula) ? NotANumber(formula) : Number((Binary)formula),
            ExpressionKind.Comparison or ExpressionKind.Within or ExpressionKind.Every => NotANumber(formula),
            ExpressionKind.Total => Summed((Total)formula),
            ExpressionKind.Call when formulas?.Find(((Call)formula).Function) is { } line => Applied(
                line,
                (Call)formula
            ) switch
            {
                Term number => number,
                Claims.Truth => NotANumber(formula),
                _ => null,
            },
            ExpressionKind.Call => Called((Call)formula),
            ExpressionKind.Joined or ExpressionKind.Sliced or ExpressionKind.Chosen => Hardware<Term>(formula),
            // Told where it was read.
            ExpressionKind.Unreadable => null,
        };

    private Term? Digits(BitsLiteral f) => IsWithoutX(f) ? Term.Literal(f.Span, f.Number, f.Text) : null;

    private Term? Number(Binary f) => Of(f, KindOf(f.Operator), Number(f.Left), Number(f.Right));

    private static bool IsLogic(Binary f) =>
        f.Operator is BinaryOperator.And or BinaryOperator.Or or BinaryOperator.Xor;

    private Term? NotANumber(Expression formula)
    {
        report.Add(Id.NumberNeeded, formula.Span, ("formula", Printer.Text(formula)));
        if (formula.Kind is not (ExpressionKind.Name or ExpressionKind.Call))
        {
            Truth(formula);
        }
        return null;
    }

    public Truth? Truth(Expression formula) =>
        formula.Kind switch
        {
            ExpressionKind.Bracketed => Of(formula, TruthKind.Bracketed, Truth(((Bracketed)formula).Inner)),
            ExpressionKind.Binary => IsLogic((Binary)formula) ? Truth((Binary)formula) : NotATruth(formula),
            ExpressionKind.Unary => ((Unary)formula).Operator switch
            {
                UnaryOperator.Not => Of(formula, TruthKind.Not, Truth(((Unary)formula).Operand)),
                UnaryOperator.Negate => NotATruth(formula),
            },
            ExpressionKind.Comparison => Bound(((Comparison)formula).Terms) is { } terms
                ? Claims.Truth.Comparison(formula.Span, terms, ((Comparison)formula).Relations)
                : null,
            ExpressionKind.Within => Bound(formula.Children) is [var value, var low, var high]
                ? Claims.Truth.Between(formula.Span, value, low, high)
                : null,
            ExpressionKind.Name => Named((NameReference)formula) switch
            {
                Claims.Truth truth => truth,
                Term => NotATruth(formula),
                _ => null,
            },
            ExpressionKind.Call when formulas?.Find(((Call)formula).Function) is { } line => Applied(
                line,
                (Call)formula
            ) switch
            {
                Claims.Truth truth => truth,
                Term => NotATruth(formula),
                _ => null,
            },
            ExpressionKind.Call or ExpressionKind.Bits => ANumber(formula),
            ExpressionKind.Number or ExpressionKind.Scaled or ExpressionKind.Total => NotATruth(formula),
            ExpressionKind.Every => Everywhere((Every)formula),
            ExpressionKind.Joined or ExpressionKind.Sliced or ExpressionKind.Chosen => Hardware<Truth>(formula),
            ExpressionKind.Unreadable => null,
        };

    private Truth? Truth(Binary f) =>
        f.Operator switch
        {
            BinaryOperator.And => Of(f, TruthKind.And, Truth(f.Left), Truth(f.Right)),
            BinaryOperator.Or => Of(f, TruthKind.Or, Truth(f.Left), Truth(f.Right)),
            BinaryOperator.Xor => Of(f, TruthKind.Xor, Truth(f.Left), Truth(f.Right)),
            BinaryOperator.Add
            or BinaryOperator.Subtract
            or BinaryOperator.Multiply
            or BinaryOperator.Divide
            or BinaryOperator.Power => NotATruth(f),
        };

    /// <summary>Where the number itself is wrong, that is told, and not what it should have been.</summary>
    private Truth? ANumber(Expression formula)
    {
        if (Number(formula) is not null)
        {
            ReportTruthNeeded(formula);
        }
        return null;
    }

    private Truth? NotATruth(Expression formula)
    {
        ReportTruthNeeded(formula);
        if (formula.Kind is not (ExpressionKind.Name or ExpressionKind.Call))
        {
            Number(formula);
        }
        return null;
    }

    private static TermKind KindOf(BinaryOperator op) =>
        op switch
        {
            BinaryOperator.Add => TermKind.Sum,
            BinaryOperator.Subtract => TermKind.Difference,
            BinaryOperator.Multiply => TermKind.Product,
            BinaryOperator.Divide => TermKind.Quotient,
            BinaryOperator.Power => TermKind.Power,
            BinaryOperator.And or BinaryOperator.Or or BinaryOperator.Xor => throw new InvalidOperationException(
                "a truth is no number"
            ),
        };

    private static Term? Of(Expression formula, TermKind kind, params ReadOnlySpan<Term?> inputs) =>
        inputs.Contains(null) ? null : Term.Of(formula.Span, kind, [.. inputs!]);

    private static Truth? Of(Expression formula, TruthKind kind, params ReadOnlySpan<Truth?> inputs) =>
        inputs.Contains(null) ? null : Claims.Truth.Of(formula.Span, kind, [.. inputs!]);

    /// <summary>All of them are looked at, so that all that is wrong is said.</summary>
    private List<Term>? Bound(IReadOnlyList<Expression> numbers)
    {
        var terms = numbers.Select(Number).ToList();
        return terms.Contains(null) ? null : [.. terms.OfType<Term>()];
    }

    private bool IsWithoutX(BitsLiteral bits)
    {
        var isWithout = !bits.Digits.Contains('x', StringComparison.Ordinal);
        if (!isWithout)
        {
            report.Add(Id.XOutsideLabel, bits.Span);
        }
        return isWithout;
    }

    private void ReportTruthNeeded(Expression formula) =>
        report.Add(Id.TruthNeeded, formula.Span, ("formula", Printer.Text(formula)));

    private T? Hardware<T>(Expression formula)
        where T : class
    {
        report.Add(Id.HardwareInFormula, formula.Span, ("value", Printer.Text(formula)));
        return null;
    }

    private Term? Called(Call call)
    {
        if (!Functions.Names.Contains(call.Function))
        {
            var isHardware = Datapaths.Operations.IsFunction(call.Function);
            report.Add(
                isHardware ? Id.HardwareInFormula : Id.UnknownFunction,
                call.NameSpan,
                ("value", call.Function),
                ("name", call.Function),
                ("near", NearNames.Of(call.Function, [.. Functions.Names, .. formulas?.Names ?? []]))
            );
            return null;
        }
        var spelt = Functions.Spelt(call.Function);
        var arity = spelt is { } known ? Functions.Arity(known) : 1;
        if (!Has(call, arity, arity == 1 ? "form.one" : "form.two"))
        {
            return null;
        }
        if (
            call.Arguments is [var argument]
            && Bare(argument) is Call { Arguments: [var inner] } within
            && Functions.Spelt(call.Function, within.Function) is { } both
        )
        {
            return Of(call, both, [inner]);
        }
        if (spelt is { } function)
        {
            return Of(call, function, call.Arguments);
        }
        report.Add(Id.LogarithmBare, call.Span, ("formula", Printer.Text(call)));
        return null;
    }

    private bool Has(Call call, int count, string form)
    {
        var has = call.Arguments.Count == count;
        if (!has)
        {
            report.Add(
                Id.ArgumentCount,
                call.Span,
                ("function", call.Function),
                ("count", count),
                ("found", call.Arguments.Count),
                ("form", new Diagnostics.Term(form, ("function", call.Function)))
            );
        }
        return has;
    }

    private Term? Of(Call call, Function function, IReadOnlyList<Expression> arguments) =>
        Bound(arguments) is { } numbers ? Term.Call(call.Span, function, numbers) : null;

    private static Expression Bare(Expression formula) => formula is Bracketed b ? Bare(b.Inner) : formula;
}
