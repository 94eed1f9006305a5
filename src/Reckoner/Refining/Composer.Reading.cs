using System.Numerics;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Refining;

internal sealed partial class Composer
{
    /// <summary>A value as a word.</summary>
    /// <param name="wanted">How wide it is where it does not say so itself.</param>
    public Piece[] Read(Expression e, Length? wanted = null, Declared? via = null) =>
        e switch
        {
            Bracketed v => Read(v.Inner, wanted, via),
            NumberLiteral v => Number(
                v.Number,
                wanted ?? throw new BeyondMoveException($"nothing says how wide {v.Text} is")
            ),
            BitsLiteral v => Join(v.Digits.Select(d => (Piece[])[new ConstantPiece(d == '1', 1)])),
            NameReference { Name: "last" } => [new OpaquePiece(e, 1)],
            NameReference v => Named(v.Name),
            Sliced v => Slice(Read(v.Value), Length.Of(v.Low), Length.Of(v.High) - Length.Of(v.Low) + 1),
            Joined v => Join(v.Parts.Select(Entering)),
            Chosen v => Chosen(v, wanted),
            Call v => Called(v, wanted),
            Binary { Operator: BinaryOperator.Add or BinaryOperator.Subtract } v => Summed(v, wanted, via),
            Comparison v => Compared(v),
            Unary { Operator: UnaryOperator.Not } v => Turned(v, wanted),
            Binary v => Logic(v, wanted),
            Unary v => Opposite(v, wanted),
            _ => throw new BeyondMoveException($"{e} is no word"),
        };

    /// <summary>Null where it is as wide as its place, and that is not known, or where it cannot be read.</summary>
    private Piece[]? IfRead(Expression e, Length? wanted)
    {
        if (wanted is null && TakesItsPlace(e))
        {
            return null;
        }
        try
        {
            return Read(e, wanted);
        }
        catch (BeyondMoveException)
        {
            return null;
        }
    }

    /// <summary>Whether nothing in it says how wide it is.</summary>
    private bool TakesItsPlace(Expression e) =>
        e switch
        {
            Bracketed v => TakesItsPlace(v.Inner),
            NumberLiteral or Scaled => true,
            NameReference v => !Widths.ContainsKey(v.Name)
                && !Instead.ContainsKey(v.Name)
                && !parts.ContainsKey(v.Name),
            Call { Function: "extend", Arguments.Count: 1 } => true,
            Call { Function: "shl" or "shr" or "abs" or "signed" or "unsigned" } v => TakesItsPlace(v.Arguments[0]),
            Chosen v => TakesItsPlace(v.WhenTrue) && TakesItsPlace(v.Otherwise),
            Binary v => TakesItsPlace(v.Left) && TakesItsPlace(v.Right),
            Unary v => TakesItsPlace(v.Operand),
            _ => false,
        };

    private Piece[] Named(string name) =>
        Instead.TryGetValue(name, out var word) ? word
        : parts.TryGetValue(name, out var part) ? Slice(Named(part.Register), part.Low, part.Width)
        : Widths.ContainsKey(name) ? Whole(name)
        : throw new BeyondMoveException($"{name} is no hardware");

    /// <summary>What is joined, or enters a shift: a bare digit is one bit.</summary>
    private Piece[] Entering(Expression e) => Read(e, Make.Bare(e) is NumberLiteral ? 1 : null);

    private Piece[] Number(BigInteger number, Length width)
    {
        if (number.IsZero)
        {
            return Zeros(width);
        }
        var bits = (int)number.GetBitLength();
        Length above;
        try
        {
            above = Sign(width - bits) >= 0 ? width - bits : throw new BeyondMoveException($"{number} is too wide");
        }
        catch (BeyondMoveException)
        {
            return [new OpaquePiece(new NumberLiteral(default, number.ToString()), width)];
        }
        var digits = Enumerable.Range(0, bits).Select(i => (number >> (bits - 1 - i)).IsEven);
        return Join(digits.Select(isZero => (Piece[])[new ConstantPiece(!isZero, 1)]).Prepend(Zeros(above)));
    }

    private (Piece[] A, Piece[] B) Both(Expression a, Expression b, Length? wanted)
    {
        var first = IfRead(a, wanted);
        var second = IfRead(b, wanted ?? (first is null ? null : WidthOf(first)));
        second ??= Read(b, first is null ? wanted : WidthOf(first));
        return (first ?? Read(a, WidthOf(second)), second);
    }

    private Piece[] Chosen(Chosen v, Length? wanted)
    {
        var (then, otherwise) = Both(v.WhenTrue, v.Otherwise, wanted);
        return Choice(Condition(v.Condition), then, otherwise);
    }

    /// <summary>One word or another, piece by piece; where they are the same there is no choice.</summary>
    public Piece[] Choice(Expression condition, Piece[] then, Piece[] otherwise)
    {
        if (Make.Bare(condition) is Unary { Operator: UnaryOperator.Not } not)
        {
            (condition, then, otherwise) = (not.Operand, otherwise, then);
        }
        return Join(
            Aligned(then, otherwise)
                .Select(pair =>
                    Piece.Same(pair.A, pair.B) ? pair.A : [new ChoicePiece(condition, pair.A, pair.B, WidthOf(pair.A))]
                )
        );
    }

    private Piece[] Called(Call v, Length? wanted)
    {
        switch (v.Function)
        {
            case "extend":
                var width =
                    v.Arguments.Count > 1
                        ? Length.Of(v.Arguments[1])
                        : wanted ?? throw new BeyondMoveException($"nothing says how wide {v} is");
                return Extended(Read(v.Arguments[0]), width, IsSigned(v.Arguments[0]));
            case "signed" or "unsigned":
                return Read(v.Arguments[0], wanted);
            case "shl" or "shr":
                var (word, enters) = (Read(v.Arguments[0], wanted), Entering(v.Arguments[1]));
                var stays = WidthOf(word) - WidthOf(enters);
                return v.Function == "shl"
                    ? Join(Slice(word, 0, stays), enters)
                    : Join(enters, Slice(word, WidthOf(enters), stays));
            case "copies":
                var (bit, count) = (Entering(v.Arguments[0]), Length.Of(v.Arguments[1]));
                return bit is [ConstantPiece constant]
                    ? [new ConstantPiece(constant.IsOne, count)]
                    :
                    [
                        bit is [{ IsBit: true } one]
                            ? new CopiesPiece(one, count)
                            : throw new BeyondMoveException($"{v} repeats more than a bit"),
                    ];
            case "abs":
                return [new OpaquePiece(Rewritten(v), WidthOf(Read(v.Arguments[0], wanted)))];
            default:
                return tables.TryGetValue(v.Function, out var cell) ? [new OpaquePiece(Rewritten(v), cell)]
                    : wanted is not null ? [new OpaquePiece(Rewritten(v), wanted)]
                    : throw new BeyondMoveException($"nothing says how wide {v} is");
        }
    }

    private Piece[] Extended(Piece[] word, Length width, bool isSigned)
    {
        var more = width - WidthOf(word);
        if (Sign(more) < 0)
        {
            throw new BeyondMoveException("an extension cuts");
        }
        if (!isSigned || Sign(more) == 0)
        {
            return Join(Zeros(more), word);
        }
        var top = Slice(word, WidthOf(word) - 1, 1)[0];
        return Join([top is ConstantPiece c ? new ConstantPiece(c.IsOne, more) : new CopiesPiece(top, more)], word);
    }

    private Piece[] Compared(Comparison v)
    {
        if (
            v is { Relations: [Relation.Less or Relation.GreaterOrEqual], Terms: [var term, var zero] }
            && Make.IsZero(zero)
            && IsSigned(term)
            && IfRead(term, null) is { } word
            && !IsWholeSigned(word)
        )
        {
            var top = Slice(word, WidthOf(word) - 1, 1);
            return v.Relations[0] == Relation.Less ? top
                : top is [ConstantPiece c] ? [new ConstantPiece(!c.IsOne, 1)]
                : [new OpaquePiece(Make.Not(Written(top)), 1)];
        }
        return [new OpaquePiece(Rewritten(v), 1)];
    }

    private bool IsWholeSigned(Piece[] word) =>
        word is [SlicePiece slice] && Signed.Contains(slice.Name) && Equal(Widths[slice.Name], slice.Width);

    private Piece[] Turned(Unary v, Length? wanted)
    {
        var word = Read(v.Operand, wanted);
        return word is [ConstantPiece c]
            ? [new ConstantPiece(!c.IsOne, c.Width)]
            : [new OpaquePiece(Make.Not(Written(word)), WidthOf(word))];
    }

    private Piece[] Logic(Binary v, Length? wanted)
    {
        if (v.Operator is BinaryOperator.Multiply or BinaryOperator.Divide or BinaryOperator.Power)
        {
            throw new BeyondMoveException($"{v} is a product");
        }
        var (a, b) = Both(v.Left, v.Right, wanted);
        if (v.Operator == BinaryOperator.And || WidthOf(a) == 1)
        {
            return [new OpaquePiece(Rewritten(v), WidthOf(a))];
        }
        // Only where both may be other than zero is there anything to do.
        return Join(
            Aligned(a, b)
                .Select(pair =>
                    pair.A.All(p => p.IsZero) ? pair.B
                    : pair.B.All(p => p.IsZero) ? pair.A
                    : [new OpaquePiece(Make.Binary(v.Operator, Written(pair.A), Written(pair.B)), WidthOf(pair.A))]
                )
        );
    }

    private Piece[] Opposite(Unary v, Length? wanted) =>
        v.Operand is NumberLiteral
            ? [new OpaquePiece(v, wanted ?? throw new BeyondMoveException($"nothing says how wide {v} is"))]
            : [new OpaquePiece(new Unary(default, v.Operator, Rewritten(v.Operand)), WidthOf(Read(v.Operand, wanted)))];

    public bool IsSigned(Expression e) =>
        Make.Bare(e) switch
        {
            Call { Function: "signed" } => true,
            Call { Function: "shl" or "shr" or "extend" } v => IsSigned(v.Arguments[0]),
            NameReference v => Signed.Contains(v.Name),
            Binary { Operator: BinaryOperator.Add or BinaryOperator.Subtract } v => IsSigned(v.Left)
                || IsSigned(v.Right),
            _ => false,
        };

    /// <summary>A condition over the registers that there are.</summary>
    public Expression Condition(Expression e) => Make.IsLast(e) ? e : Written(Read(e, 1));

    /// <summary>The same value with everything in it read over the registers that there are.</summary>
    public Expression Rewritten(Expression e)
    {
        if (e is NameReference name)
        {
            if (!Widths.ContainsKey(name.Name) && !Instead.ContainsKey(name.Name) && !parts.ContainsKey(name.Name))
            {
                return e;
            }
            var word = Named(name.Name);
            return word is [SlicePiece s] && s.Name == name.Name && Equal(Widths[s.Name], s.Width) ? e : Written(word);
        }
        return e is Sliced or Joined ? Written(Read(e))
            : e is Scaled || e.Children.Count == 0 ? e
            : Rewriting.Over(e, [.. e.Children.Select(Rewritten)]);
    }
}
