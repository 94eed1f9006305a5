namespace Reckoner.Classroom;

/// <summary>What somebody who works a walk out by hand has to fill in.</summary>
internal enum Filling
{
    /// <summary>The decisions of each cycle, then the bits.</summary>
    All,

    /// <summary>The decisions alone; the bits are filled in then.</summary>
    Decisions,

    /// <summary>The bits alone.</summary>
    Bits,
}

/// <summary>What is asked of somebody who works a walk out by hand.</summary>
/// <param name="HasHints">Whether hints may be had.</param>
internal sealed record SittingRules(Filling Fill, bool HasHints)
{
    public static readonly SittingRules Usual = new(Filling.All, HasHints: true);
}
