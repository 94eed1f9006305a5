using Reckoner.Notation;

namespace Reckoner.Refining;

internal sealed partial class Composer
{
    /// <summary>A word as a value.</summary>
    public Expression Written(IReadOnlyList<Piece> word)
    {
        if (word.Count == 0)
        {
            throw new BeyondMoveException("nothing is left of a word");
        }
        if (word.Count == 1)
        {
            return Written(word[0], isJoined: false);
        }
        // The sign in front of a signed value is what extending it means.
        if (
            word is [var above, SlicePiece whole]
            && IsWholeSigned([whole])
            && (above is CopiesPiece copies ? copies.Bit : above) is SlicePiece top
            && top.Name == whole.Name
            && Equal(top.Low, whole.Width - 1)
            && top.IsBit
        )
        {
            return Make.Call("extend", Written(whole, isJoined: false));
        }
        return Make.Joined([.. word.Select(p => Written(p, isJoined: true))]);
    }

    /// <summary>The same, with zeros in front of a whole value said as extending it.</summary>
    public Expression Operand(Piece[] word) =>
        word is [ConstantPiece { IsOne: false, IsBit: false }, SlicePiece slice]
        && Equal(Widths[slice.Name], slice.Width)
        && !Signed.Contains(slice.Name)
        && !made.Contains(slice.Name)
            ? Make.Call("extend", Written(slice, isJoined: false))
            : Written(word);

    /// <summary>What a register loads: zeros in front of an operand are said as extending it.</summary>
    public Expression Loaded(Piece[] word, IEnumerable<OperandLine> operands) =>
        word is [ConstantPiece { IsOne: false }, SlicePiece slice]
        && !Signed.Contains(slice.Name)
        && Equal(Widths[slice.Name], slice.Width)
        && operands.Any(o => o.Name.Text == slice.Name)
            ? Make.Call("extend", Written(slice, isJoined: false))
        : word is [SlicePiece whole] && IsWholeSigned(word) ? Make.Call("unsigned", Make.Name(whole.Name))
        : Written(word);

    public Expression Written(Piece piece, bool isJoined)
    {
        switch (piece)
        {
            case ConstantPiece p:
                return !isJoined && !p.IsOne ? Make.Number(0)
                    : !p.Width.IsNumber ? Make.Call("copies", Make.Number(p.IsOne ? 1 : 0), p.Width.Written())
                    : p.Width == 1 ? Make.Number(p.IsOne ? 1 : 0)
                    : new BitsLiteral(default, "0b" + new string(p.IsOne ? '1' : '0', p.Width.Number));
            case SlicePiece p:
                return Widths.TryGetValue(p.Name, out var whole) && Equal(whole, p.Width) && Sign(p.Low) == 0
                    ? Make.Name(p.Name)
                    : Make.Slice(Make.Name(p.Name), p.Low, p.Width);
            case CopiesPiece p:
                return Make.Call("copies", Written(p.Bit, isJoined: false), p.Width.Written());
            case ChoicePiece p:
                return Make.Chosen(Written(p.Then), p.Condition, Written(p.Otherwise));
            case SumPiece p:
                return isJoined
                    ? Written(Named(p), isJoined: true)
                    : Make.Binary(p.Operator, Written(p.Left), Written(p.Right));
            case OpaquePiece p:
                return p.Value;
            default:
                throw new InvalidOperationException(piece.GetType().Name);
        }
    }
}
