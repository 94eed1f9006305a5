using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;

namespace Reckoner.Binding;

internal sealed partial class Binder
{
    /// <summary>The patterns of the arms of a case: they exclude each other, and together they cover every value.</summary>
    private List<ArmPatterns>? Arms(Value subject, List<(IReadOnlyList<Label>? Labels, Phrase? Says, Span Span)> arms)
    {
        if (
            subject.Reading == Reading.Bare
            && arms.SelectMany(a => a.Labels ?? []).FirstOrDefault(l => l.Literal is NumberLiteral) is { } number
        )
        {
            report.Add(
                Id.LabelNeedsReading,
                number.Span,
                ("label", Text(number)),
                ("value", Printer.Text(subject.Written!))
            );
            return null;
        }
        var taken = new TakenPatterns();
        var patterns = new List<ArmPatterns>();
        var sound = true;
        for (var i = 0; i < arms.Count; i++)
        {
            if (arms[i].Labels is not { } labels)
            {
                if (i < arms.Count - 1)
                {
                    report.Add(Id.ElseNotLast, ElseSpan(arms[i].Span));
                    return null;
                }
                if (sound && taken.Count(subject.Width) == BigInteger.One << subject.Width)
                {
                    report.Add(Id.ElseNever, ElseSpan(arms[i].Span));
                    return null;
                }
                patterns.Add(new ArmPatterns([], "else", arms[i].Says));
                return sound ? patterns : null;
            }
            var own = new List<Pattern>();
            foreach (var label in labels)
            {
                if (PatternOf(label, subject) is not { } pattern)
                {
                    sound = false;
                    continue;
                }
                if (taken.LineOfOverlap(pattern, subject.Width) is { } other)
                {
                    report.Add(Id.ArmsOverlap, label.Span, ("label", Text(label)), ("line", other));
                    sound = false;
                    continue;
                }
                own.Add(pattern);
                taken.Add(pattern, subject.Width, LineOf(label.Span));
            }
            patterns.Add(new ArmPatterns(own, Printer.Text(labels), arms[i].Says));
        }
        if (sound && IsWhole && taken.Count(subject.Width) != BigInteger.One << subject.Width)
        {
            var missing = taken.Missing(subject.Width);
            report.Add(
                Id.ArmMissing,
                subject.Written!.Span,
                ("value", Printer.Text(subject.Written!)),
                ("missing", Numbers.Bits.Text(missing, subject.Width))
            );
            return null;
        }
        return sound ? patterns : null;
    }

    private static string Text(Label label) => (label.IsNegative ? "-" : "") + Printer.Text(label.Literal);

    private static Span ElseSpan(Span arm) => new(arm.Start, arm.Start + "else".Length);

    private Pattern? PatternOf(Label label, Value subject)
    {
        var all = Numbers.Bits.Mask(subject.Width);
        if (label.Literal is BitsLiteral bits)
        {
            if (bits.Digits.Length != subject.Width)
            {
                report.Add(
                    Id.LabelLength,
                    label.Span,
                    ("label", bits.Text),
                    ("digits", bits.Digits.Length),
                    ("value", Printer.Text(subject.Written!)),
                    ("size", subject.Size)
                );
                return null;
            }
            return new Pattern(
                BinaryNumber(bits.Digits.Replace('0', '1').Replace('x', '0')),
                BinaryNumber(bits.Digits.Replace('x', '0'))
            );
        }
        if (label.Literal is not NumberLiteral literal)
        {
            return null;
        }
        var number = label.IsNegative ? -literal.Number : literal.Number;
        if (!Numbers.Bits.Fits(number, subject.Width, subject.Reading == Reading.Signed))
        {
            report.Add(Id.DoesNotFit, label.Span, ("number", Numbers.Bits.Text(number)), ("size", subject.Size));
            return null;
        }
        return new Pattern(all, Numbers.Bits.Wrap(number, subject.Width));
    }

    private static BigInteger BinaryNumber(string digits) =>
        BigInteger.Parse("0" + digits, System.Globalization.NumberStyles.BinaryNumber, null);
}
