using Reckoner.Datapaths;

namespace Reckoner.Proving;

/// <summary>What is so at the head of every round of a loop, and behind its last.</summary>
/// <param name="Number">Which loop it is, from 0.</param>
internal sealed record LoopInvariant(
    Segment Segment,
    int Number,
    IReadOnlyList<Piece> HeadPieces,
    IReadOnlyList<Piece> ExitPieces,
    List<Fact> Head,
    List<Fact> Exit,
    States HeadStates,
    States ExitStates
)
{
    /// <summary>
    /// What no sum of the proof has, and what fixed no variable and ended no path: it helped to find it and is not needed to believe it.
    /// </summary>
    public IReadOnlyList<Fact> IdleHead { get; set; } = [];

    public IReadOnlyList<Fact> IdleExit { get; set; } = [];

    /// <summary>What the proof needs: these alone hold in every round because they held before.</summary>
    public IReadOnlyList<Fact> NeededHead => [.. Head.Except(IdleHead)];

    public IReadOnlyList<Fact> NeededExit => [.. Exit.Except(IdleExit)];
}

/// <summary>What has to be shown: a stretch of the schedule from a known state to what must be so behind it.</summary>
internal enum Duty
{
    /// <summary>From what comes before a loop to the head of its first round.</summary>
    Entry,

    /// <summary>From the head of a round that is not the last to the head of the next.</summary>
    Round,

    /// <summary>From the head of the last round to what is so behind the loop.</summary>
    Last,

    /// <summary>From the last loop to the results and what is claimed of them.</summary>
    End,
}

/// <summary>A duty done: its cases, and how each goal of each was shown.</summary>
/// <param name="Loop">Which loop it is about; for the end, how many loops there are.</param>
/// <param name="Decisive">
/// The numbers, in the list that is known at the beginning, of the facts that say on some path which number a variable is, or that
/// the path is none: no sum has them, and yet the cases are what they are on their account.
/// </param>
internal sealed record Obligation(
    Duty Duty,
    int Loop,
    Region Region,
    Case Root,
    IReadOnlyList<Path> Ends,
    IReadOnlySet<int> Decisive
);
