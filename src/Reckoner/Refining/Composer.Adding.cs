using Reckoner.Notation;

namespace Reckoner.Refining;

internal sealed partial class Composer
{
    private Piece[] Summed(Binary v, Length? wanted, Declared? via)
    {
        var (a, b) = Both(v.Left, v.Right, wanted);
        return Sum(v.Operator, a, b, via);
    }

    /// <summary>
    /// The sum or difference of two words. Only the places in which both may be other than zero are added; a zero above them takes
    /// the carry or the borrow. What was taken away and is added again was never away: (x - y) + y is x.
    /// </summary>
    public Piece[] Sum(BinaryOperator op, Piece[] a, Piece[] b, Declared? via)
    {
        var width = WidthOf(a);
        if (!Equal(width, WidthOf(b)))
        {
            throw new BeyondMoveException($"{width} bits beside {WidthOf(b)}");
        }
        var (low, under) = (ZerosOf(b, top: false), a);
        if (op == BinaryOperator.Add && Sign(low) == 0)
        {
            (low, under) = (ZerosOf(a, top: false), b);
        }
        if (Equal(low, width))
        {
            return under;
        }
        var kept = Slice(under, 0, low);
        (a, b) = (Slice(a, low, width - low), Slice(b, low, width - low));
        if (op == BinaryOperator.Add && (Undone(a, b) ?? Undone(b, a)) is { } before)
        {
            return Join(before, kept);
        }
        var high = NamesCarries ? Smaller(ZerosOf(a, top: true), ZerosOf(b, top: true)) : 0;
        if (Sign(high) > 0 && !Equal(high, WidthOf(a)))
        {
            return Join(WithCarry(op, a, b, high, via), kept);
        }
        if (Sign(high) == 0)
        {
            var repeated = Smaller(SignsOf(a), SignsOf(b)) - 1;
            if (Sign(repeated) > 0)
            {
                var narrow = WidthOf(a) - repeated;
                var sum = Named(new SumPiece(op, Slice(a, 0, narrow), Row(Slice(b, 0, narrow)), via, narrow));
                return Join([new CopiesPiece(Cut(sum, narrow - 1, 1), repeated)], [sum], kept);
            }
        }
        return Join([new SumPiece(op, a, b, via, WidthOf(a))], kept);
    }

    /// <summary>What a word was before another was taken from it; null where none was.</summary>
    private Piece[]? Undone(Piece[] difference, Piece[] added) =>
        difference is [var piece]
        && (
            piece as SumPiece
            ?? (piece is SlicePiece s && Equal(Widths[s.Name], s.Width) ? sums.GetValueOrDefault(s.Name) : null)
        )
            is { Operator: BinaryOperator.Subtract } sum
        && Piece.Same(sum.Right, added)
            ? sum.Left
            : null;

    private Piece[] WithCarry(BinaryOperator op, Piece[] a, Piece[] b, Length high, Declared? via)
    {
        var width = WidthOf(a) - high;
        var (left, right) = (Slice(a, 0, width), Slice(b, 0, width));
        var key = new SumPiece(op, left, right, via, width).Key;
        if (!hoistedWords.TryGetValue(key, out var known))
        {
            var isSum = op == BinaryOperator.Add;
            var (sum, carry) = (
                Fresh(isSum ? newNames.Sum : newNames.Difference),
                Fresh(isSum ? newNames.Carry : newNames.Borrow)
            );
            Widths[sum.Text] = width;
            Widths[carry.Text] = 1;
            Hoisted.Add(Make.Let(sum, carry, Make.Binary(op, Written(left), Written(Row(right))), via));
            made.Add(sum.Text);
            hoistedWords[key] = known = [.. Whole(carry.Text), .. Whole(sum.Text)];
        }
        return op == BinaryOperator.Add
            ? Join(Zeros(high - 1), known)
            : Join([new CopiesPiece(known[0], high)], known[1..]);
    }

    /// <summary>A word that is a choice has a name of its own where it is added.</summary>
    public Piece[] Row(Piece[] word) => word is [ChoicePiece choice] ? [Named(choice)] : word;

    /// <summary>
    /// A row with its sign repeated above it, or nothing: the same as the row or nothing, with the sign of that repeated.
    /// </summary>
    public Piece[] RowWithSign(Piece[] word)
    {
        if (word is [ChoicePiece { Otherwise: [ConstantPiece] } choice] && Sign(SignsOf(choice.Then)) > 0)
        {
            var (above, row) = (SignsOf(choice.Then), choice.Then[1..]);
            var width = WidthOf(row);
            var named = Named(new ChoicePiece(choice.Condition, row, Slice(choice.Otherwise, 0, width), width));
            return Join([new CopiesPiece(Cut(named, width - 1, 1), above)], [named]);
        }
        return word;
    }

    /// <summary>How many digits at an end of a word are zeros.</summary>
    public static Length ZerosOf(Piece[] word, bool top)
    {
        var end = word[top ? 0 : ^1];
        return end.IsZero ? end.Width : 0;
    }

    /// <summary>How many bits on top repeat the one below them.</summary>
    public Length SignsOf(Piece[] word)
    {
        var bit = word switch
        {
            [CopiesPiece copies, SlicePiece, ..] => copies.Bit,
            [SlicePiece { IsBit: true } single, SlicePiece, ..] => single,
            _ => null,
        };
        return bit is SlicePiece b && word[1] is SlicePiece below && b.Name == below.Name && Equal(b.Low, below.End - 1)
            ? word[0].Width
            : 0;
    }
}
