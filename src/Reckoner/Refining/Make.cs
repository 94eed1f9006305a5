using System.Globalization;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Refining;

/// <summary>Values and sentences that stand nowhere yet; printing and reading gives them their places.</summary>
internal static class Make
{
    public static NumberLiteral Number(int number) => new(default, number.ToString(CultureInfo.InvariantCulture));

    public static NameReference Name(string name) => new(default, name);

    public static Declared Declared(string name) => new(default, name);

    public static Binary Binary(BinaryOperator op, Expression left, Expression right) => new(default, op, left, right);

    /// <summary>A bit turned over; twice is nothing.</summary>
    public static Expression Not(Expression bit) =>
        Bare(bit) is Unary { Operator: UnaryOperator.Not } not
            ? not.Operand
            : new Unary(default, UnaryOperator.Not, Bare(bit));

    public static Expression Joined(IReadOnlyList<Expression> parts) =>
        parts.Count == 1 ? parts[0] : new Joined(default, parts);

    /// <summary>Bits of a value, or one of them.</summary>
    public static Expression Slice(Expression value, Length low, Length width) =>
        width == 1
            ? new Sliced(default, value, low.Written())
            : new Sliced(default, value, (low + width - 1).Written(), low.Written());

    public static Call Call(string function, params IReadOnlyList<Expression> arguments) =>
        new(default, default, function, arguments);

    public static Expression Chosen(Expression then, Expression condition, Expression otherwise) =>
        new Chosen(default, then, condition, otherwise);

    public static Comparison Compared(Expression left, Relation relation, Expression right) =>
        new(default, [left, right], [relation]);

    public static TypeSyntax Unsigned(Length width) => new(default, IsSigned: false, width.Written());

    public static LetLine Let(Declared name, Declared? second, Expression value, Declared? via = null) =>
        new(default, Comments.None, name, second, value, via, null);

    public static TransferLine Transfer(IReadOnlyList<Expression> targets, Expression value, Declared? via = null) =>
        new(default, Comments.None, targets, value, via);

    public static IfBlock If(
        Expression condition,
        IReadOnlyList<Statement> then,
        IReadOnlyList<Statement>? otherwise = null
    ) => new(default, Comments.None, condition, null, then, Comments.None, otherwise, ElseIf: false, Comments.None);

    public static StepBlock Cycle(IReadOnlyList<IReadOnlyList<Statement>> moments) =>
        new(default, Comments.None, null, null, [.. moments.Select(m => new Moment(Comments.None, m))]);

    /// <summary>Without the brackets around it, which printing adds where they are needed.</summary>
    public static Expression Bare(Expression value) => value is Bracketed bracketed ? Bare(bracketed.Inner) : value;

    /// <summary>Whether a value is written as nothing but zeros.</summary>
    public static bool IsZero(Expression value) =>
        Bare(value) switch
        {
            NumberLiteral v => v.Number.IsZero,
            BitsLiteral v => v.Number.IsZero,
            _ => false,
        };

    public static bool IsLast(Expression value) => Bare(value) is NameReference { Name: "last" };
}
