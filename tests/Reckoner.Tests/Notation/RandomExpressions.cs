using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Tests;

/// <summary>Random numbers, truths and values as trees. Brackets are left to the printer, mostly.</summary>
internal sealed class RandomExpressions(Random random, string[] names)
{
    private static readonly Span Nowhere = new(0, 0);
    private static readonly string[] Roundings = ["floor", "ceil", "trunc", "round", "abs"];
    private static readonly string[] Pairs = ["mod", "max", "min"];
    private static readonly string[] Functions = ["shl", "extend", "signed", "unsigned", "csa", "t"];

    public Expression Number(int depth)
    {
        if (depth == 0 || random.Next(3) == 0)
        {
            return Leaf();
        }
        Expression Inner() => Number(depth - 1);
        return random.Next(11) switch
        {
            9 => new Call(Nowhere, Nowhere, Pairs[random.Next(Pairs.Length)], [Inner(), Inner()]),
            10 => new Total(Nowhere, Index(), End(), End(), Inner()),
            0 => new Unary(Nowhere, UnaryOperator.Negate, Inner()),
            1 => new Call(Nowhere, Nowhere, Roundings[random.Next(Roundings.Length)], [Inner()]),
            2 => new Bracketed(Nowhere, Inner()),
            _ => new Binary(Nowhere, (BinaryOperator)random.Next(5), Inner(), Inner()),
        };
    }

    public Expression Truth(int depth)
    {
        Expression Inner() => Truth(depth - 1);
        return (depth == 0 ? 0 : random.Next(6)) switch
        {
            5 => new Every(Nowhere, Index(), End(), End(), Inner()),
            0 => Compared(Number, depth, random.Next(1, 4)),
            1 => new Within(Nowhere, Number(depth), Number(depth), Number(depth)),
            2 => new Unary(Nowhere, UnaryOperator.Not, Inner()),
            3 => new Bracketed(Nowhere, Inner()),
            _ => new Binary(Nowhere, (BinaryOperator)random.Next(5, 8), Inner(), Inner()),
        };
    }

    public Expression Value(int depth)
    {
        if (depth == 0 || random.Next(4) == 0)
        {
            return Leaf();
        }
        Expression Inner() => Value(depth - 1);
        return random.Next(12) switch
        {
            0 => new Unary(Nowhere, UnaryOperator.Negate, Inner()),
            1 => new Unary(Nowhere, UnaryOperator.Not, Inner()),
            2 => Compared(Value, depth - 1, 1),
            3 => new Joined(Nowhere, [.. Enumerable.Range(0, random.Next(2, 5)).Select(_ => Inner())]),
            4 => Slice(Inner(), depth - 1),
            5 => new Call(Nowhere, Nowhere, Functions[random.Next(Functions.Length)], [Inner(), Inner()]),
            6 => new Chosen(Nowhere, Inner(), Inner(), Inner()),
            7 => new Bracketed(Nowhere, Inner()),
            _ => new Binary(Nowhere, (BinaryOperator)random.Next(8), Inner(), Inner()),
        };
    }

    public Expression Target() => random.Next(2) == 0 ? Name() : Slice(Name(), 2);

    public Label Label() =>
        random.Next(3) switch
        {
            0 => new Label(Nowhere, new BitsLiteral(Nowhere, "0b0x_1X"), false),
            1 => new Label(Nowhere, new NumberLiteral(Nowhere, "12_3"), true),
            _ => new Label(Nowhere, new NumberLiteral(Nowhere, "7"), false),
        };

    private Comparison Compared(Func<int, Expression> term, int depth, int relations) =>
        new(
            Nowhere,
            [.. Enumerable.Range(0, relations + 1).Select(_ => term(depth))],
            [.. Enumerable.Range(0, relations).Select(_ => (Relation)random.Next(6))]
        );

    private Sliced Slice(Expression value, int depth) =>
        random.Next(2) == 0
            ? new Sliced(Nowhere, value, Number(depth))
            : new Sliced(Nowhere, value, Number(depth), Number(depth));

    /// <summary>Of a range: a name that is never used, so that it may hide none.</summary>
    private static Declared Index() => new(Nowhere, "each");

    private NumberLiteral End() => new(Nowhere, $"{random.Next(4)}");

    private NameReference Name() => new(Nowhere, names[random.Next(names.Length)]);

    private Expression Leaf() =>
        random.Next(5) switch
        {
            0 => new NumberLiteral(Nowhere, random.Next(3) == 0 ? "1_000" : random.Next(40).ToString()),
            1 => new BitsLiteral(Nowhere, "0b0110"),
            2 => new Scaled(Nowhere, new NumberLiteral(Nowhere, "2"), Name()),
            _ => Name(),
        };
}
