namespace Reckoner.Proving;

/// <summary>Why a proof for every width cannot be tried, or not be carried on.</summary>
internal enum Obstacle
{
    /// <summary>Several widths that may be chosen, or parameters beside the width.</summary>
    SeveralWidths,

    /// <summary>A width, place, count or constant that does not grow evenly with the main width.</summary>
    Uneven,

    /// <summary>The machine is of another build at other widths.</summary>
    BuildDiffers,

    /// <summary>A loop that may stop early.</summary>
    StopsEarly,

    /// <summary>No loop, or several, where something is said of the rounds of one.</summary>
    NotOneLoop,

    /// <summary>No laws, where something is said to be enough for them.</summary>
    NoLaws,

    /// <summary>A loop may have no round at all.</summary>
    NoRound,

    /// <summary>An operation on words that it has no numbers for.</summary>
    Operation,

    /// <summary>A function or form in a law that it has no numbers for.</summary>
    Formula,

    /// <summary>Two places of which neither is always the higher.</summary>
    Places,

    /// <summary>A product of more numbers than it multiplies.</summary>
    Degree,

    /// <summary>More ways through a round than are looked at.</summary>
    Paths,

    /// <summary>No operands that satisfy "given" were met.</summary>
    Samples,

    /// <summary>The time or the work that was allowed is used up.</summary>
    Budget,
}

/// <summary>A proof ends here; whoever began it says so.</summary>
internal sealed class NotReachedException(Obstacle obstacle, string what = "") : Exception(obstacle.ToString())
{
    public Obstacle Obstacle { get; } = obstacle;

    /// <summary>What of the description it is about; may be empty.</summary>
    public string What { get; } = what;
}
