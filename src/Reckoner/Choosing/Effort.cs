namespace Reckoner.Choosing;

/// <summary>How much may still be tried, counted in comparisons of sets: no clock, so that the same request ends the same way.</summary>
internal sealed class Effort(long left)
{
    public bool IsSpent => left <= 0;

    public void Spend(long comparisons) => left -= comparisons;
}
