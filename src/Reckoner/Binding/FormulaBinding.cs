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
internal sealed class FormulaBinding(Report report, Func<NameReference, Term?> named)
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

    public Term? Number(Expression formula)
    {
        switch (formula)
        {
            case Bracketed f:
                return Of(f, TermKind.Bracketed, Number(f.Inner));
            case Binary { Operator: BinaryOperator.And or BinaryOperator.Or or BinaryOperator.Xor }:
            case Unary { Operator: UnaryOperator.Not }:
            case Comparison or Within:
                report.Add(Id.NumberNeeded, formula.Span, ("formula", Printer.Text(formula)));
                Truth(formula);
                return null;
            case NumberLiteral f:
                return Term.Literal(f.Span, f.Number, f.Text);
            case BitsLiteral f:
                return IsWithoutX(f) ? Term.Literal(f.Span, f.Number, f.Text) : null;
            case NameReference f:
                return named(f);
            case Scaled f:
                return Of(f, TermKind.Multiple, Number(f.Factor), Number(f.Name));
            case Unary f:
                return Of(f, TermKind.Negation, Number(f.Operand));
            case Binary f:
                return Of(f, KindOf(f.Operator), Number(f.Left), Number(f.Right));
            case Call f:
                return Called(f);
            default:
                ReportHardware(formula);
                return null;
        }
    }

    public Truth? Truth(Expression formula)
    {
        switch (formula)
        {
            case Bracketed f:
                return Of(f, TruthKind.Bracketed, Truth(f.Inner));
            case Binary { Operator: BinaryOperator.And } f:
                return Of(f, TruthKind.And, Truth(f.Left), Truth(f.Right));
            case Binary { Operator: BinaryOperator.Or } f:
                return Of(f, TruthKind.Or, Truth(f.Left), Truth(f.Right));
            case Binary { Operator: BinaryOperator.Xor } f:
                return Of(f, TruthKind.Xor, Truth(f.Left), Truth(f.Right));
            case Unary { Operator: UnaryOperator.Not } f:
                return Of(f, TruthKind.Not, Truth(f.Operand));
            case Comparison f:
                return Bound(f.Terms) is { } terms ? Claims.Truth.Comparison(f.Span, terms, f.Relations) : null;
            case Within f:
                return Bound([f.Value, f.Low, f.High]) is [var value, var low, var high]
                    ? Claims.Truth.Between(f.Span, value, low, high)
                    : null;
            case NameReference or Call or BitsLiteral:
                if (Number(formula) is not null)
                {
                    ReportTruthNeeded(formula);
                }
                return null;
            case NumberLiteral or Scaled or Unary or Binary:
                ReportTruthNeeded(formula);
                Number(formula);
                return null;
            default:
                ReportHardware(formula);
                return null;
        }
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

    private void ReportHardware(Expression formula)
    {
        if (formula is not Unreadable)
        {
            report.Add(Id.HardwareInFormula, formula.Span, ("value", Printer.Text(formula)));
        }
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
                ("near", NearNames.Of(call.Function, Functions.Names))
            );
            return null;
        }
        if (call.Arguments is not [var argument])
        {
            report.Add(
                Id.ArgumentCount,
                call.Span,
                ("function", call.Function),
                ("count", 1),
                ("found", call.Arguments.Count),
                ("form", new Diagnostics.Term("form.one", ("function", call.Function)))
            );
            return null;
        }
        if (
            Bare(argument) is Call { Arguments: [var inner] } within
            && Functions.Spelt(call.Function, within.Function) is { } both
        )
        {
            return Of(call, both, inner);
        }
        if (Functions.Spelt(call.Function) is { } function)
        {
            return Of(call, function, argument);
        }
        report.Add(Id.LogarithmBare, call.Span, ("formula", Printer.Text(call)));
        return null;
    }

    private Term? Of(Call call, Function function, Expression argument) =>
        Number(argument) is { } number ? Term.Call(call.Span, function, number) : null;

    private static Expression Bare(Expression formula) => formula is Bracketed b ? Bare(b.Inner) : formula;
}
