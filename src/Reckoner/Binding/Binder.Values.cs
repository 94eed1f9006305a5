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
        e.Kind switch
        {
            ExpressionKind.Unreadable => Value.Unknown,
            ExpressionKind.Bracketed => Evaluate(((Bracketed)e).Inner, wanted, sibling),
            ExpressionKind.Number => Literal(e, ((NumberLiteral)e).Number, wanted, sibling),
            ExpressionKind.Scaled => NumberOrNothing(e, wanted, sibling),
            ExpressionKind.Bits => Bare((BitsLiteral)e),
            ExpressionKind.Name => Name((NameReference)e, wanted, sibling),
            ExpressionKind.Unary => ((Unary)e).Operator switch
            {
                UnaryOperator.Negate => Negated((Unary)e, wanted, sibling),
                UnaryOperator.Not => Inverted((Unary)e, wanted, sibling),
            },
            ExpressionKind.Binary => ((Binary)e).Operator is BinaryOperator.Divide or BinaryOperator.Power
                ? NumberOrNothing(e, wanted, sibling)
                : Pair((Binary)e, wanted),
            ExpressionKind.Comparison => Compared((Comparison)e),
            ExpressionKind.Joined => Join((Joined)e),
            ExpressionKind.Sliced => Slice((Sliced)e),
            ExpressionKind.Call => Function((Call)e, wanted, sibling),
            ExpressionKind.Chosen => Choice((Chosen)e, wanted),
            ExpressionKind.Within => Refuse(Id.NotHardware, e, ("operator", "in")),
            ExpressionKind.Total => Refuse(Id.NotHardware, e, ("operator", "sum")),
            ExpressionKind.Every => Refuse(Id.NotHardware, e, ("operator", "every")),
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
