using Reckoner.Datapaths;

namespace Reckoner.Structure;

/// <summary>
/// A state of the control unit: the load, or a step. Entries and settings are its control word: what each register takes and each
/// unit does, under which conditions; what is not named keeps or does nothing.
/// </summary>
/// <param name="Number">That of the step; 0 is the load.</param>
/// <param name="Doings">The acts of the text that this comes from.</param>
/// <param name="Next">The states that may follow; of these ways exactly one is open.</param>
public sealed record State(
    int Number,
    Step? Step,
    IReadOnlyList<Doing> Doings,
    IReadOnlyList<Entry> Entries,
    IReadOnlyList<UnitSetting> Settings,
    IReadOnlyList<Transition> Next
)
{
    /// <summary>What the description names in it, with the wires that the names stand for, in the order of the text.</summary>
    internal IReadOnlyList<Named> Named { get; init; } = [];

    /// <summary>What registers hold between the moments of it; later moments call it by the registers' names.</summary>
    internal IReadOnlyList<Amid> Amid { get; init; } = [];
}

/// <summary>A register as a moment before the last leaves it, and the wires it stands on then.</summary>
internal sealed record Amid(Register Register, Bundle Word);

/// <summary>A name of the description and the wires it stands for.</summary>
internal sealed record Named(Wire Wire, Bundle Word);

/// <summary>What becomes of the number of the round on the way into a state.</summary>
public enum RoundChange
{
    /// <summary>The same round, or no more.</summary>
    Stays,

    /// <summary>It is 1.</summary>
    Starts,

    /// <summary>One more.</summary>
    Counts,
}

/// <summary>Where the control unit goes next. Null stands for the load before and the end behind all steps.</summary>
/// <param name="When">All must be so, looked at on the registers as the edge leaves them, in the cycle that follows.</param>
/// <param name="Below">Where a loop may stop early: only while it has gone round less often than this.</param>
public sealed record Transition(Step? From, IReadOnlyList<Guard> When, int? Below, Step? To)
{
    /// <summary>Where a loop may stop early: also, whatever the first condition is, once it has gone round so often.</summary>
    public int? Reached { get; init; }

    public RoundChange Round { get; init; }
}

/// <summary>A loop that may stop early: its condition, looked at before each round, and what units do for that.</summary>
internal sealed record EarlyStop(Segment Loop, Guard Goes, IReadOnlyList<UnitSetting> Settings);
