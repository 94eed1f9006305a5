using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Binding;

internal sealed partial class Binder
{
    private Value Negated(Unary e, Size? wanted, Reading sibling)
    {
        if (IsNumber(e))
        {
            return Whole(e) is { } number ? Literal(e, number, wanted, sibling) : Value.Unknown;
        }
        var unit = TakeVia();
        var value = Evaluate(e.Operand, wanted, sibling);
        return value.IsUnknown ? value : Served(Make(Operation.Negate, e, value.Size, value.Reading, value), unit);
    }

    private Value Inverted(Unary e, Size? wanted, Reading sibling)
    {
        var value = Evaluate(e.Operand, wanted, sibling);
        return value.IsUnknown || IsWiringOnly(e)
            ? Value.Unknown
            : Make(Operation.Not, e, value.Size, value.Reading, value);
    }

    /// <summary>In a result there is no hardware; reported when there is.</summary>
    private bool IsWiringOnly(Expression e)
    {
        if (inResult)
        {
            Refuse(Id.HardwareInResult, e);
        }
        return inResult;
    }

    private Value Pair(Binary e, Size? wanted)
    {
        if (IsNumber(e))
        {
            return Whole(e) is { } number ? Literal(e, number, wanted, Reading.Bare) : Value.Unknown;
        }
        if (e.Operator == BinaryOperator.Multiply)
        {
            return Product(e);
        }
        var isSum = e.Operator is BinaryOperator.Add or BinaryOperator.Subtract;
        var unit = isSum ? TakeVia() : null;
        if (Alike([e.Left, e.Right], wanted, e) is not { } sides || IsWiringOnly(e))
        {
            return Value.Unknown;
        }
        var operation = OperationOf(e.Operator);
        if (!isSum)
        {
            var same = sides[0].Reading == sides[1].Reading;
            return Make(operation, e, sides[0].Size, same ? sides[0].Reading : Reading.Bare, sides);
        }
        if (Common(sides, e) is not { } reading)
        {
            return Value.Unknown;
        }
        return Served(Make(operation, e, sides[0].Size, reading, sides), unit);
    }

    private static Operation OperationOf(BinaryOperator op) =>
        op switch
        {
            BinaryOperator.Add => Operation.Add,
            BinaryOperator.Subtract => Operation.Subtract,
            BinaryOperator.Multiply => Operation.Multiply,
            BinaryOperator.And => Operation.And,
            BinaryOperator.Or => Operation.Or,
            BinaryOperator.Xor => Operation.Xor,
            BinaryOperator.Divide or BinaryOperator.Power => throw new InvalidOperationException(
                "quotients and powers are of numbers alone"
            ),
        };

    private Value Product(Binary e)
    {
        var unit = TakeVia();
        var left = Evaluate(e.Left, null, Reading.Bare);
        var right = Evaluate(e.Right, null, Reading.Bare);
        if (left.IsUnknown || right.IsUnknown || IsWiringOnly(e))
        {
            return Value.Unknown;
        }
        if (left.Reading == Reading.Bare || right.Reading == Reading.Bare)
        {
            var bare = left.Reading == Reading.Bare ? e.Left : e.Right;
            return Refuse(Id.ReadingNeeded, bare, ("purpose", new Term("purpose-multiply")));
        }
        if (Common([left, right], e) is not { } reading)
        {
            return Value.Unknown;
        }
        if (left.Width + right.Width > WidestWord)
        {
            return Refuse(
                Id.TooManyBits,
                e,
                ("name", Printer.Text(e)),
                ("size", left.Size + right.Size),
                ("limit", WidestWord)
            );
        }
        return Served(Make(OperationOf(e.Operator), e, left.Size + right.Size, reading, left, right), unit);
    }

    private Value Compared(Comparison e)
    {
        if (e.Relations.Count != 1)
        {
            return Value.Unknown;
        }
        if (Alike([e.Terms[0], e.Terms[1]], null, e) is not { } sides || IsWiringOnly(e))
        {
            return Value.Unknown;
        }
        if (Common(sides, e) is not { } reading)
        {
            return Value.Unknown;
        }
        var operation = e.Relations[0] switch
        {
            Relation.Equal => Operation.Equal,
            Relation.Unequal => Operation.Unequal,
            Relation.Less => Operation.Less,
            Relation.LessOrEqual => Operation.LessOrEqual,
            Relation.Greater => Operation.Greater,
            Relation.GreaterOrEqual => Operation.GreaterOrEqual,
        };
        if (reading == Reading.Bare && operation is not (Operation.Equal or Operation.Unequal))
        {
            return Refuse(Id.ReadingNeeded, e.Terms[0], ("purpose", new Term("purpose-compare")));
        }
        var value = Make(operation, e, Size.Of(1), Reading.Bare, sides);
        return value.IsSignTest || value.IsDecode ? value : Served(value, null);
    }

    private Value Join(Joined e)
    {
        var parts = e.Parts.Select(Entering).ToList();
        if (parts.Any(p => p.IsUnknown))
        {
            return Value.Unknown;
        }
        var bits = parts.Sum(p => (long)p.Width);
        return bits > WidestWord
            ? Refuse(Id.TooManyBits, e, ("name", Printer.Text(e)), ("size", bits), ("limit", WidestWord))
            : Make(Operation.Join, e, parts.Select(p => p.Size).Aggregate((a, b) => a + b), Reading.Bare, parts);
    }

    /// <summary>What enters a shift or stands in a join: 0 and 1 alone are one bit, other numbers have no width.</summary>
    private Value Entering(Expression e)
    {
        var inner = e;
        while (inner is Bracketed bracketed)
        {
            inner = bracketed.Inner;
        }
        var isBit = inner is NumberLiteral { Number: var number } && (number.IsZero || number.IsOne);
        return Evaluate(e, isBit ? Size.Of(1) : null, Reading.Bare);
    }

    private Value Choice(Chosen e, Size? wanted)
    {
        var condition = Condition(e.Condition);
        if (Alike([e.WhenTrue, e.Otherwise], wanted, e) is not { } sides || condition.IsUnknown || IsWiringOnly(e))
        {
            return Value.Unknown;
        }
        return Common(sides, e) is { } reading
            ? Make(Operation.Choose, e, sides[0].Size, reading, condition, sides[0], sides[1])
            : Value.Unknown;
    }

    /// <summary>A condition is one bit.</summary>
    private Value Condition(Expression e)
    {
        var value = Evaluate(e, Size.Of(1), Reading.Bare);
        if (!value.IsUnknown && value.Width != 1)
        {
            return Refuse(Id.ConditionWidth, e, ("size", value.Size));
        }
        return value;
    }
}
