using Reckoner.Diagnostics;

namespace Reckoner.Checking;

/// <summary>A check at one width with what was asked beside it.</summary>
/// <param name="Seconds">How long the cases took.</param>
public sealed record CheckReport(
    CheckResult Result,
    LawStrength? Strength,
    Averages? Averages,
    double Seconds,
    (int Seed, int Count)? Sample
)
{
    /// <summary>Why it came no further, where what ran it failed.</summary>
    public Diagnostic? Trouble { get; init; }

    /// <summary>Averages were asked for, and were broken off.</summary>
    public bool AreAveragesStopped { get; init; }

    /// <summary>Whether all of what was asked was done.</summary>
    public bool IsComplete => Result.Complete && !AreAveragesStopped;
}
