namespace Reckoner.Proving;

/// <summary>Every width from a least one on and, in a round, every i from 0 to a last one.</summary>
internal sealed record Region(int Least, Extent? LastRound)
{
    /// <summary>Whether it is 0 or more in the whole region; where it is sometimes, false.</summary>
    public bool NeverNegative(Extent extent) =>
        LastRound is not { } last
            ? extent.I == 0 && FromLeastOn(extent)
            : FromLeastOn(extent.AtRound(0)) && FromLeastOn(extent.AtRound(last));

    private bool FromLeastOn(Extent extent) => extent.N >= 0 && extent.At(Least, 0) >= 0;

    /// <summary>What is 0 or more in it, as it is known at the beginning of every path.</summary>
    public IEnumerable<Extent> Limits =>
        LastRound is { } last
            ? [new Extent(1, 0, -Least), Extent.Rounds, last - Extent.Rounds]
            : [new Extent(1, 0, -Least)];
}
