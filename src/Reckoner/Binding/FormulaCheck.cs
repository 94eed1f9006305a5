using Reckoner.Diagnostics;
using Reckoner.Notation;

namespace Reckoner.Binding;

/// <summary>Checks that a formula is one: known names, numbers where numbers belong, truths where truths do, no hardware.</summary>
internal sealed class FormulaCheck(Report report, Func<NameReference, bool> isNumber)
{
    private static readonly string[] Functions = ["floor", "ceil", "trunc", "round", "abs", "log2"];

    /// <summary>True when the formula may be evaluated; otherwise what is wrong is reported.</summary>
    public bool Number(Expression formula) => Check(formula, wantsTruth: false);

    /// <inheritdoc cref="Number"/>
    public bool Truth(Expression formula) => Check(formula, wantsTruth: true);

    private bool Check(Expression formula, bool wantsTruth)
    {
        switch (formula)
        {
            case Unreadable:
                return false;
            case Bracketed f:
                return Check(f.Inner, wantsTruth);
            case Binary { Operator: BinaryOperator.And or BinaryOperator.Or or BinaryOperator.Xor } f:
                return Is(truth: true, wantsTruth, f) & Truth(f.Left) & Truth(f.Right);
            case Unary { Operator: UnaryOperator.Not } f:
                return Is(truth: true, wantsTruth, f) & Truth(f.Operand);
            case Comparison or Within:
                return Is(truth: true, wantsTruth, formula) & All(formula.Children);
            case BitsLiteral f when f.Digits.Contains('x', StringComparison.Ordinal):
                report.Add(Id.XOutsideLabel, f.Span);
                return false;
            case Joined or Sliced or Chosen:
                report.Add(Id.HardwareInFormula, formula.Span, ("value", Printer.Text(formula)));
                return false;
            case BitsLiteral f when f.Digits.Contains('x', StringComparison.Ordinal):
                report.Add(Id.XOutsideLabel, f.Span, ("value", f.Text));
                return false;
            case NameReference f:
                return isNumber(f) && Is(truth: false, wantsTruth, f);
            case Call f:
                return Check(f) && Is(truth: false, wantsTruth, f);
            default:
                return Is(truth: false, wantsTruth, formula) & All(formula.Children);
        }
    }

    private bool All(IReadOnlyList<Expression> numbers)
    {
        var all = true;
        foreach (var number in numbers)
        {
            all &= Number(number);
        }
        return all;
    }

    private bool Is(bool truth, bool wantsTruth, Expression formula)
    {
        if (truth != wantsTruth)
        {
            report.Add(wantsTruth ? Id.TruthNeeded : Id.NumberNeeded, formula.Span, ("formula", Printer.Text(formula)));
        }
        return truth == wantsTruth;
    }

    private bool Check(Call call)
    {
        if (!Functions.Contains(call.Function))
        {
            var isHardware = Datapaths.Operations.IsFunction(call.Function);
            report.Add(
                isHardware ? Id.HardwareInFormula : Id.UnknownFunction,
                call.NameSpan,
                ("value", call.Function),
                ("name", call.Function),
                ("near", NearNames.Of(call.Function, Functions))
            );
            return false;
        }
        if (call.Arguments.Count != 1)
        {
            report.Add(
                Id.ArgumentCount,
                call.Span,
                ("function", call.Function),
                ("count", 1),
                ("found", call.Arguments.Count),
                ("form", new Term("form.one", ("function", call.Function)))
            );
            return false;
        }
        if (call.Function == "log2")
        {
            report.Add(Id.LogarithmBare, call.Span, ("formula", Printer.Text(call)));
            return false;
        }
        return Formulas.Logarithm(call) is { } argument ? Number(argument) : Number(call.Arguments[0]);
    }
}
