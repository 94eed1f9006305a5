using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Binding;

internal sealed partial class Binder
{
    private bool inLoad;
    private bool inResult;
    private bool isPlaceUnknown;
    private Via? via;

    /// <summary>The unit a line names; its outermost operation takes it.</summary>
    private sealed record Via(Unit Unit, Declared Name)
    {
        public bool IsTaken { get; set; }
    }

    /// <summary>
    /// The meaning of a value. <paramref name="wanted"/> is the width its place has, for what has no width of its own;
    /// <paramref name="sibling"/> the reading of the other side, for literals.
    /// </summary>
    private Value Evaluate(Expression e, Size? wanted, Reading sibling) =>
        e switch
        {
            Unreadable => Value.Unknown,
            Bracketed v => Evaluate(v.Inner, wanted, sibling),
            NumberLiteral v => Literal(v, v.Number, wanted, sibling),
            Scaled or Binary { Operator: BinaryOperator.Divide or BinaryOperator.Power } => NumberOrNothing(
                e,
                wanted,
                sibling
            ),
            BitsLiteral v => Bare(v),
            NameReference v => Name(v, wanted, sibling),
            Unary { Operator: UnaryOperator.Negate } v => Negated(v, wanted, sibling),
            Unary v => Inverted(v, wanted, sibling),
            Binary v => Pair(v, wanted),
            Comparison v => Compared(v),
            Joined v => Join(v),
            Sliced v => Slice(v),
            Call v => Function(v, wanted, sibling),
            Chosen v => Choice(v, wanted),
            Within v => Refuse(Id.NotHardware, v, ("operator", "in")),
            _ => throw new InvalidOperationException(e.GetType().Name),
        };

    /// <summary>The value for a place; when the place is not known, no number is blamed for having no width.</summary>
    private Value EvaluateFor(Expression e, Size? size, Reading reading)
    {
        isPlaceUnknown = size is null;
        var value = Evaluate(e, size, reading);
        isPlaceUnknown = false;
        return value;
    }

    private Value Make(
        Operation operation,
        Expression written,
        Size size,
        Reading reading,
        params IReadOnlyList<Value> inputs
    ) => new(operation, size, reading, inputs) { Written = written, Source = source };

    private Value Refuse(Id id, Expression e, params ReadOnlySpan<Fact> facts)
    {
        report.Add(id, e.Span, [.. facts, ("value", Printer.Text(e))]);
        return Value.Unknown;
    }
}
