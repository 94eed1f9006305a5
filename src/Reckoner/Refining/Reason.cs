using Reckoner.Diagnostics;

namespace Reckoner.Refining;

/// <summary>Why a step towards another version is allowed, or what it consists in.</summary>
internal enum ReasonKind
{
    /// <summary>What two registers are to each other counts, so the other one moves.</summary>
    Reframed,

    /// <summary>The same, and the last round must not shift.</summary>
    ReframedButLast,

    /// <summary>Bits that are 0 after every clock edge.</summary>
    BitsZero,

    /// <summary>A register that is 0 after every clock edge.</summary>
    RegisterZero,

    /// <summary>Bits that only repeat the sign.</summary>
    SignsRepeated,

    /// <summary>A register that takes more bits, so that others need fewer.</summary>
    Wider,

    /// <summary>The steps of a round as one cycle.</summary>
    StepsMerged,

    /// <summary>One register leaves a place free each round, and another needs one.</summary>
    Shared,

    /// <summary>The same, and in the last round only the guest moves.</summary>
    SharedButLast,

    /// <summary>The first round's trial and the last round's shift do nothing.</summary>
    Rotated,

    /// <summary>The first round does the same whatever the operands are.</summary>
    FirstKnown,

    /// <summary>A round less gives the same, whatever the first one does.</summary>
    RoundLess,

    /// <summary>A register that holds what another does.</summary>
    Repeated,

    /// <summary>A cycle before the loop that only moves bits.</summary>
    FirstWired,

    /// <summary>A cycle behind the loop that only moves bits.</summary>
    LastWired,

    /// <summary>Bits that are 0 whenever a round begins.</summary>
    ZeroAtBegin,

    /// <summary>A register or a bit on which no result depends.</summary>
    BitUnused,

    /// <summary>A register on which no result depends.</summary>
    RegisterUnused,

    /// <summary>Once a register is 0, no round changes anything.</summary>
    StopsEarly,
}

/// <summary>A reason as data.</summary>
/// <param name="Facts">Numbers, lengths, and registers as <see cref="RegisterNames"/>.</param>
internal sealed record Reason(ReasonKind Kind, params IReadOnlyList<Fact> Facts);

/// <summary>Registers, by name; whoever words it knows what they are called.</summary>
internal sealed record RegisterNames(params IReadOnlyList<string> Names);

/// <summary>The kinds of moves, in the order in which they are tried.</summary>
public enum MoveKind
{
    /// <summary>Of two words that only move relative to each other, the other one moves.</summary>
    Reframe,

    /// <summary>Bits that are always 0, or repeat the sign, go.</summary>
    Narrow,

    /// <summary>The steps of a round become one cycle; what is undone again is not done.</summary>
    Merge,

    /// <summary>Two registers become one.</summary>
    Share,

    /// <summary>A cycle or a register whose work is known goes.</summary>
    Drop,

    /// <summary>A bit on which no result depends goes.</summary>
    Cut,

    /// <summary>Rounds that change nothing are not done.</summary>
    Skip,
}

/// <summary>What a move makes of a draft, not tried yet.</summary>
/// <param name="Move">What the step is called.</param>
internal sealed record Candidate(MoveKind Move, IReadOnlyList<Reason> Reasons, Draft Draft)
{
    /// <summary>What can be made, or nothing where it goes beyond what is rewritten; others may still be made.</summary>
    public static IEnumerable<Candidate> IfPossible(Func<Candidate?> made)
    {
        try
        {
            return made() is { } candidate ? [candidate] : [];
        }
        catch (BeyondMoveException)
        {
            return [];
        }
    }

    /// <summary>The same for several, as many as there are before one cannot be made.</summary>
    public static IEnumerable<Candidate> IfPossible(Func<IEnumerable<Candidate>> made)
    {
        using var each = Begun(made);
        while (each is not null && HasNext(each))
        {
            yield return each.Current;
        }
    }

    private static IEnumerator<Candidate>? Begun(Func<IEnumerable<Candidate>> made)
    {
        try
        {
            return made().GetEnumerator();
        }
        catch (BeyondMoveException)
        {
            return null;
        }
    }

    private static bool HasNext(IEnumerator<Candidate> each)
    {
        try
        {
            return each.MoveNext();
        }
        catch (BeyondMoveException)
        {
            return false;
        }
    }
}
