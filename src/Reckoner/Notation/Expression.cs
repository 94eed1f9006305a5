using System.Numerics;
using Reckoner.Numbers;

namespace Reckoner.Notation;

/// <summary>
/// A value or formula as written. Nodes are closed and never change; <see cref="Depth"/> is bounded by the parser, so that
/// every later pass may recurse.
/// </summary>
public abstract class Expression(Span span, params ReadOnlySpan<Expression> children)
{
    /// <summary>What it is, for a switch that names every kind.</summary>
    public abstract ExpressionKind Kind { get; }

    public Span Span { get; } = span;

    public IReadOnlyList<Expression> Children { get; } = children.ToArray();

    public int Depth { get; } = DepthOver(children);

    private static int DepthOver(ReadOnlySpan<Expression> children)
    {
        var depth = 0;
        foreach (var child in children)
        {
            depth = Math.Max(depth, child.Depth);
        }
        return depth + 1;
    }

    public override string ToString() => Printer.Text(this);
}

/// <summary>A whole number as written, underscores and all.</summary>
public sealed class NumberLiteral(Span span, string text) : Expression(span)
{
    public override ExpressionKind Kind => ExpressionKind.Number;
    public string Text { get; } = text;

    public BigInteger Number { get; } =
        BigInteger.Parse(
            text.Replace("_", "", StringComparison.Ordinal),
            System.Globalization.CultureInfo.InvariantCulture
        );
}

/// <summary>Bits as written, such as 0b0110; x stands for either digit and only in labels.</summary>
public sealed class BitsLiteral(Span span, string text) : Expression(span)
{
    public override ExpressionKind Kind => ExpressionKind.Bits;
    public string Text { get; } = text;

    /// <summary>The digits 0, 1 and x, most significant first.</summary>
    public string Digits { get; } = text[2..].Replace("_", "", StringComparison.Ordinal).ToLowerInvariant();

    /// <summary>The number of bits without x.</summary>
    public BigInteger Number =>
        BigInteger.Parse(
            "0" + Digits,
            System.Globalization.NumberStyles.BinaryNumber,
            System.Globalization.CultureInfo.InvariantCulture
        );
}

public sealed class NameReference(Span span, string name) : Expression(span)
{
    public override ExpressionKind Kind => ExpressionKind.Name;
    public string Name { get; } = name;
}

/// <summary>2n: a number and a name without a blank, their product.</summary>
public sealed class Scaled(Span span, NumberLiteral factor, NameReference name) : Expression(span, factor, name)
{
    public override ExpressionKind Kind => ExpressionKind.Scaled;
    public NumberLiteral Factor { get; } = factor;
    public NameReference Name { get; } = name;
}

public sealed class Bracketed(Span span, Expression inner) : Expression(span, inner)
{
    public override ExpressionKind Kind => ExpressionKind.Bracketed;
    public Expression Inner => Children[0];
}

public enum UnaryOperator
{
    Negate,
    Not,
}

public sealed class Unary(Span span, UnaryOperator op, Expression operand) : Expression(span, operand)
{
    public override ExpressionKind Kind => ExpressionKind.Unary;

    public UnaryOperator Operator { get; } = op;
    public Expression Operand => Children[0];
}

public enum BinaryOperator
{
    Add,
    Subtract,
    Multiply,
    Divide,
    Power,
    And,
    Or,
    Xor,
}

public sealed class Binary(Span span, BinaryOperator op, Expression left, Expression right)
    : Expression(span, left, right)
{
    public override ExpressionKind Kind => ExpressionKind.Binary;

    public BinaryOperator Operator { get; } = op;
    public Expression Left => Children[0];
    public Expression Right => Children[1];
}

/// <summary>A comparison; in formulas a chain such as 0 &lt;= r &lt; d, with one relation fewer than terms.</summary>
public sealed class Comparison(Span span, IReadOnlyList<Expression> terms, IReadOnlyList<Relation> relations)
    : Expression(span, [.. terms])
{
    public override ExpressionKind Kind => ExpressionKind.Comparison;
    public IReadOnlyList<Expression> Terms => Children;
    public IReadOnlyList<Relation> Relations { get; } = relations;
}

/// <summary>x in a..b, both ends included; only in formulas.</summary>
public sealed class Within(Span span, Expression value, Expression low, Expression high)
    : Expression(span, value, low, high)
{
    public override ExpressionKind Kind => ExpressionKind.Within;
    public Expression Value => Children[0];
    public Expression Low => Children[1];
    public Expression High => Children[2];
}

/// <summary>a:b:c, most significant first.</summary>
public sealed class Joined(Span span, IReadOnlyList<Expression> parts) : Expression(span, [.. parts])
{
    public override ExpressionKind Kind => ExpressionKind.Joined;
    public IReadOnlyList<Expression> Parts => Children;
}

/// <summary>x[hi..lo], or x[i] when <see cref="HasLow"/> is false.</summary>
public sealed class Sliced : Expression
{
    public override ExpressionKind Kind => ExpressionKind.Sliced;

    public Sliced(Span span, Expression value, Expression high)
        : base(span, value, high) { }

    public Sliced(Span span, Expression value, Expression high, Expression low)
        : base(span, value, high, low) { }

    public Expression Value => Children[0];
    public Expression High => Children[1];
    public Expression Low => Children[^1];
    public bool HasLow => Children.Count == 3;
}

public sealed class Call(Span span, Span nameSpan, string function, IReadOnlyList<Expression> arguments)
    : Expression(span, [.. arguments])
{
    public override ExpressionKind Kind => ExpressionKind.Call;
    public Span NameSpan { get; } = nameSpan;
    public string Function { get; } = function;
    public IReadOnlyList<Expression> Arguments => Children;
}

/// <summary>sum i in a..b of x; only in formulas.</summary>
public sealed class Total(Span span, Declared index, Expression low, Expression high, Expression body)
    : Expression(span, low, high, body)
{
    public override ExpressionKind Kind => ExpressionKind.Total;
    public Declared Index { get; } = index;
    public Expression Low => Children[0];
    public Expression High => Children[1];
    public Expression Body => Children[2];
}

/// <summary>every i in a..b: x; only in formulas.</summary>
public sealed class Every(Span span, Declared index, Expression low, Expression high, Expression body)
    : Expression(span, low, high, body)
{
    public override ExpressionKind Kind => ExpressionKind.Every;
    public Declared Index { get; } = index;
    public Expression Low => Children[0];
    public Expression High => Children[1];
    public Expression Body => Children[2];
}

/// <summary>x when c else y.</summary>
public sealed class Chosen(Span span, Expression whenTrue, Expression condition, Expression otherwise)
    : Expression(span, whenTrue, condition, otherwise)
{
    public override ExpressionKind Kind => ExpressionKind.Chosen;
    public Expression WhenTrue => Children[0];
    public Expression Condition => Children[1];
    public Expression Otherwise => Children[2];
}

/// <summary>Stands where a value could not be read; the reason is reported already and nothing more is said about it.</summary>
public sealed class Unreadable(Span span) : Expression(span)
{
    public override ExpressionKind Kind => ExpressionKind.Unreadable;
}
