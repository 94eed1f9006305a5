using Reckoner.Notation;

namespace Reckoner.Refining;

internal sealed partial class Composer
{
    /// <summary>The places that targets stand for.</summary>
    public Piece[] Places(IEnumerable<Expression> targets) => Join(targets.Select(t => Read(t)));

    /// <summary>The transfers that give places a word: what stays as it is, and places that hold no bit, are left out.</summary>
    public IReadOnlyList<Statement> Stored(Piece[] places, Piece[] word)
    {
        if (places.All(p => p is SlicePiece) && HaveOwnNames(places) && Shifted(places, word) is { } shifted)
        {
            return [Make.Transfer(Targets(places), shifted)];
        }
        return [.. Groups(places, word).Select(g => Transfer(g.Places, g.Word))];
    }

    private static bool HaveOwnNames(Piece[] places) =>
        places.Select(p => ((SlicePiece)p).Name).Distinct().Count() == places.Length;

    private IReadOnlyList<Expression> Targets(Piece[] places) => [.. places.Select(p => Written(p, isJoined: true))];

    private Statement Transfer(Piece[] places, Piece[] word)
    {
        if (word is [ChoicePiece choice] && Guarded(places, choice) is var (condition, taken))
        {
            return Make.If(condition, [Make.Transfer(Targets(places), Written(NamedSums(taken)))]);
        }
        if (places.All(p => p is SlicePiece) && Shifted(places, word) is { } shifted)
        {
            return Make.Transfer(Targets(places), shifted);
        }
        var via = word is [SumPiece sum] ? sum.Via : null;
        if (word is [ChoicePiece of])
        {
            word = [new ChoicePiece(of.Condition, NamedSums(of.Then), NamedSums(of.Otherwise), of.Width)];
        }
        return Make.Transfer(Targets(places), Written(word), via);
    }

    /// <summary>A word that the places keep on one side of a choice is written under a condition.</summary>
    private static (Expression Condition, Piece[] Taken)? Guarded(Piece[] places, ChoicePiece choice) =>
        Piece.Same(choice.Otherwise, places) && !choice.Then.Any(p => p is ChoicePiece)
            ? (choice.Condition, choice.Then)
        : Piece.Same(choice.Then, places) && !choice.Otherwise.Any(p => p is ChoicePiece)
            ? (Make.Not(choice.Condition), choice.Otherwise)
        : null;

    private Piece[] NamedSums(Piece[] word) => [.. word.Select(p => p is SumPiece ? Named(p) : p)];

    /// <summary>A word that is what the places hold, moved; null where it is something else.</summary>
    private Expression? Shifted(Piece[] places, Piece[] word)
    {
        var width = WidthOf(places);
        foreach (var isLeft in new[] { true, false })
        {
            var enters = word[isLeft ? ^1 : 0];
            try
            {
                var stays = width - enters.Width;
                if (Sign(stays) <= 0)
                {
                    continue;
                }
                var (to, from) = isLeft ? (enters.Width, (Length)0) : (0, enters.Width);
                if (Piece.Same(Slice(word, to, stays), Slice(places, from, stays)))
                {
                    return Make.Call(isLeft ? "shl" : "shr", Written(places), Written([enters]));
                }
            }
            catch (BeyondMoveException)
            {
                // Which is longer depends on the width: no shift.
            }
        }
        return null;
    }

    /// <summary>Places beside what they get, in stretches that are written together.</summary>
    public IReadOnlyList<(Piece[] Places, Piece[] Word)> Groups(Piece[] places, Piece[] word)
    {
        var aligned = Aligned(places, word);
        var groups = new List<(Piece[] Places, Piece[] Word)?>();
        for (var i = 0; i < aligned.Count; i++)
        {
            var (at, gets) = aligned[i];
            if (at[0] is ConstantPiece or CopiesPiece || Piece.Same(at, gets) || IsWrittenBelow(aligned, i))
            {
                groups.Add(null);
            }
            else if (
                groups.Count > 0
                && groups[^1] is var (before, gave)
                && at is [SlicePiece next]
                && before[^1] is SlicePiece last
                && last.Name == next.Name
                && Equal(last.Low, next.End)
            )
            {
                groups[^1] = (Join(before, at), Join(gave, gets));
            }
            else
            {
                groups.Add((at, gets));
            }
        }
        return [.. groups.Where(g => g is not null).Select(g => g!.Value)];
    }

    /// <summary>Whether a place stands further down too: the upper one only repeats it.</summary>
    private bool IsWrittenBelow(IReadOnlyList<(Piece[] Places, Piece[] Word)> aligned, int index) =>
        aligned[index].Places[0] is SlicePiece place
        && aligned
            .Skip(index + 1)
            .SelectMany(a => a.Places)
            .OfType<SlicePiece>()
            .Any(p => p.Name == place.Name && Sign(p.End - place.End) >= 0 && Sign(place.Low - p.Low) >= 0);
}
