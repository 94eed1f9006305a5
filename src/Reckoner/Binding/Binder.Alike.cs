using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Binding;

internal sealed partial class Binder
{
    /// <summary>Whether a value takes its width from its place or the other side.</summary>
    private bool IsFlexible(Expression e) =>
        e switch
        {
            Bracketed v => IsFlexible(v.Inner),
            NumberLiteral or Scaled => true,
            NameReference v => IsPlainNumber(v.Name),
            Call { Function: "extend", Arguments.Count: 1 } => true,
            Call { Function: "shl" or "shr" or "abs" or "signed" or "unsigned" } v when v.Arguments.Count > 0 =>
                IsFlexible(v.Arguments[0]),
            Chosen v => IsFlexible(v.WhenTrue) && IsFlexible(v.Otherwise),
            Binary { Operator: not BinaryOperator.Multiply } v => IsNumber(v)
                || (IsFlexible(v.Left) && IsFlexible(v.Right)),
            Binary => IsNumber(e),
            Unary v => IsFlexible(v.Operand),
            _ => false,
        };

    /// <summary>Values that must be equally wide; null when one is unknown or they are not.</summary>
    private List<Value>? Alike(IReadOnlyList<Expression> written, Size? wanted, Expression whole)
    {
        var values = new Value?[written.Count];
        Value? first = null;
        for (var i = 0; i < written.Count; i++)
        {
            if (!IsFlexible(written[i]))
            {
                values[i] = Evaluate(written[i], wanted, Reading.Bare);
                first ??= values[i]!.IsUnknown ? null : values[i];
            }
        }
        var unknown = values.Any(v => v is { IsUnknown: true });
        var size = first?.Size ?? wanted;
        if (size is null && unknown)
        {
            return null;
        }
        var reading = values.FirstOrDefault(v => v is { Reading: not Reading.Bare })?.Reading ?? Reading.Bare;
        for (var i = 0; i < written.Count; i++)
        {
            values[i] ??= Evaluate(written[i], size, reading);
        }
        if (values.Any(v => v!.IsUnknown))
        {
            return null;
        }
        var differs = Array.FindIndex(values, v => v!.Width != values[0]!.Width);
        if (differs > 0)
        {
            report.Add(
                Id.SidesDiffer,
                whole.Span,
                ("left", Printer.Text(written[0])),
                ("leftsize", values[0]!.Size),
                ("right", Printer.Text(written[differs])),
                ("rightsize", values[differs]!.Size)
            );
            return null;
        }
        return [.. values.Select(v => v!)];
    }

    /// <summary>The reading of several values: bare joins either; signed and unsigned do not mix.</summary>
    private Reading? Common(IReadOnlyList<Value> values, Expression whole)
    {
        var isSigned = values.FirstOrDefault(v => v.Reading == Reading.Signed);
        var isUnsigned = values.FirstOrDefault(v => v.Reading == Reading.Unsigned);
        if (isSigned is not null && isUnsigned is not null)
        {
            report.Add(
                Id.SignsDiffer,
                whole.Span,
                ("signed", Printer.Text(isSigned.Written!)),
                ("unsigned", Printer.Text(isUnsigned.Written!))
            );
            return null;
        }
        return isSigned is not null ? Reading.Signed
            : isUnsigned is not null ? Reading.Unsigned
            : Reading.Bare;
    }

    /// <summary>Checks that a value suits its place: equal width, and no sign lost or invented.</summary>
    private Value Fit(Value value, Size size, Reading reading, string name, Expression written)
    {
        if (value.IsUnknown)
        {
            return value;
        }
        if (value.Width != size.Count)
        {
            report.Add(
                Id.WidthMismatch,
                written.Span,
                ("value", Printer.Text(written)),
                ("size", value.Size),
                ("name", name),
                ("place", size)
            );
            return Value.Unknown;
        }
        if (reading != Reading.Bare && value.Reading != Reading.Bare && reading != value.Reading)
        {
            var isSigned = value.Reading == Reading.Signed;
            report.Add(
                Id.SignMismatch,
                written.Span,
                ("value", Printer.Text(written)),
                ("name", name),
                ("is", new Term(isSigned ? "signed" : "unsigned")),
                ("say", isSigned ? "unsigned" : "signed")
            );
            return Value.Unknown;
        }
        return value;
    }
}
