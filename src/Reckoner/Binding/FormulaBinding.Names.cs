using System.Numerics;
using Reckoner.Claims;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Term = Reckoner.Claims.Term;

namespace Reckoner.Binding;

/// <summary>Names for formulas, and ranges: both are written out as they are bound, and keep their text.</summary>
internal sealed partial class FormulaBinding
{
    /// <summary>The most numbers that a sum or an "every" runs over.</summary>
    public const int LongestRange = 4096;

    /// <summary>What a formula may be about here; a name for one that is about anything else is refused.</summary>
    public IReadOnlyList<VariableKind> Kinds { get; init; } = Enum.GetValues<VariableKind>();

    /// <summary>A number or a truth, whichever it is.</summary>
    public Formula? Any(Expression formula) => IsTruth(formula) ? Truth(formula) : Number(formula);

    private bool IsTruth(Expression formula) =>
        formula.Kind switch
        {
            ExpressionKind.Bracketed => IsTruth(((Bracketed)formula).Inner),
            ExpressionKind.Binary => IsLogic((Binary)formula),
            ExpressionKind.Unary => ((Unary)formula).Operator == UnaryOperator.Not,
            ExpressionKind.Comparison or ExpressionKind.Within or ExpressionKind.Every => true,
            ExpressionKind.Name => local?.Invoke((NameReference)formula) is null
                && formulas?.IsTruth(((NameReference)formula).Name) == true,
            ExpressionKind.Call => formulas?.IsTruth(((Call)formula).Function) == true,
            ExpressionKind.Number
            or ExpressionKind.Bits
            or ExpressionKind.Scaled
            or ExpressionKind.Joined
            or ExpressionKind.Sliced
            or ExpressionKind.Chosen
            or ExpressionKind.Total
            or ExpressionKind.Unreadable => false,
        };

    /// <summary>A number, a truth, or null where something is wrong.</summary>
    private Formula? Named(NameReference name) =>
        local?.Invoke(name) is { } known ? known
        : formulas?.Find(name.Name) is { } line ? Applied(line, name.Span, name.Span, [])
        : named(name);

    /// <summary>The same of a call of a formula.</summary>
    private Formula? Applied(FormulaLine line, Call call) =>
        Bound(call.Arguments) is { } inputs ? Applied(line, call.Span, call.NameSpan, inputs) : null;

    private Formula? Applied(FormulaLine line, Span place, Span name, IReadOnlyList<Term> inputs)
    {
        if (!formulas!.IsGood(line, name))
        {
            return null;
        }
        if (inputs.Count != line.Parameters.Count)
        {
            report.Add(
                Id.ArgumentCount,
                place,
                ("function", line.Name.Text),
                ("count", line.Parameters.Count),
                ("found", inputs.Count),
                ("form", new Diagnostics.Term("form.applied", ("formula", line.Head)))
            );
            return null;
        }
        if (formulas.Mentioned(line).FirstOrDefault(v => !Kinds.Contains(v.Kind)) is { } elsewhere)
        {
            report.Add(Id.FormulaElsewhere, place, ("name", line.Name.Text), ("value", elsewhere.Name));
            return null;
        }
        var found = new Report(null);
        var inside = new FormulaBinding(
            found,
            named,
            formulas,
            p => line.Parameters.Index().FirstOrDefault(d => d.Item.Text == p.Name) is (var i, { }) ? inputs[i] : null
        )
        {
            Kinds = Kinds,
        };
        switch (inside.Any(line.Body))
        {
            case Claims.Truth body:
                return Fitting(Claims.Truth.Applied(place, line.Name.Text, inputs, body));
            case Term body:
                return Fitting(Term.Applied(place, line.Name.Text, inputs, body));
            default:
                // Only what depends on the inputs is left to be wrong in a formula that is good by itself.
                foreach (var wrong in found.InOrder().Take(1))
                {
                    report.Add(wrong.Id, place, [.. wrong.Facts]);
                }
                return null;
        }
    }

    private Term? Summed(Total total) =>
        Parts(total, total.Index, total.Low, total.High, total.Body, static (b, e) => b.Number(e)) is var (range, parts)
            ? Fitting(Term.Total(total.Span, range, parts))
            : null;

    private Truth? Everywhere(Every every) =>
        Parts(every, every.Index, every.Low, every.High, every.Body, static (b, e) => b.Truth(e)) is var (range, parts)
            ? Fitting(Claims.Truth.Every(every.Span, range, parts))
            : null;

    /// <summary>What a range says of each of its numbers.</summary>
    private (IndexRange<T> Range, List<T> Parts)? Parts<T>(
        Expression written,
        Declared index,
        Expression low,
        Expression high,
        Expression body,
        Func<FormulaBinding, Expression, T?> bind
    )
        where T : Formula
    {
        FormulaBinding With(BigInteger number) =>
            new(
                report,
                named,
                formulas,
                n => n.Name == index.Text ? Term.Named(n.Span, n.Name, number) : local?.Invoke(n)
            )
            {
                Kinds = Kinds,
            };

        var (from, to) = (Number(low), Number(high));
        // At the first number, since at another it may mean nothing.
        var start = from?.Constant is { IsWhole: true } begin ? begin.Numerator : 0;
        if (from is null || to is null || bind(With(start), body) is not { } pattern)
        {
            return null;
        }
        if (from.Constant is not { IsWhole: true } first || to.Constant is not { IsWhole: true } last)
        {
            // In a formula by itself its parameters have no numbers yet.
            if (!IsOpen(from) && !IsOpen(to))
            {
                report.Add(Id.RangeVaries, written.Span, ("formula", Excerpt.Of(Printer.Text(written))));
                return null;
            }
            return (new(index.Text, from, to, pattern), [pattern]);
        }
        var count = last.Numerator - first.Numerator + 1;
        if (count > LongestRange)
        {
            report.Add(Id.RangeTooLong, written.Span, ("count", count), ("limit", LongestRange));
            return null;
        }
        var parts = new List<T>();
        var size = 0L;
        for (var number = first.Numerator; number <= last.Numerator; number++)
        {
            if ((number == start ? pattern : bind(With(number), body)) is not { } part)
            {
                return null;
            }
            parts.Add(part);
            size += part.Size.Terms;
            if (size > NamedFormulas.MostTerms)
            {
                report.Add(
                    Id.FormulaTooLarge,
                    written.Span,
                    ("limit", NamedFormulas.MostTerms),
                    ("all", NamedFormulas.MostInAll)
                );
                return null;
            }
        }
        return (new(index.Text, from, to, pattern), parts);
    }

    private static bool IsOpen(Term bound) => bound.Variables.Any(v => v.Kind == VariableKind.Parameter);

    /// <summary>Null, and reported, for what has become too large or too deep.</summary>
    private T? Fitting<T>(T formula)
        where T : Formula => formulas is null || formulas.Fits(formula, formula.Place, report) ? formula : null;
}
