using System.Numerics;

namespace Reckoner.Questions;

/// <summary>How much may be tried at once; what would be more is refused with an estimate.</summary>
/// <param name="CaseBits">2 to this power cases, as gates.</param>
/// <param name="WordCaseBits">The same where a claim cannot become gates, which takes some thousands of times as long.</param>
public sealed record Budget(int CaseBits, int WordCaseBits)
{
    /// <summary>A run of some minutes with made code.</summary>
    public static Budget Usual { get; } = new(34, 26);

    /// <summary>So many times a gate may be run over <see cref="Checking.PlaneMemory.Lanes"/> cases: some minutes, whatever the machine is.</summary>
    internal long GateRuns { get; init; } = 1L << 36;

    /// <summary>Whether so many steps of a program are within it.</summary>
    internal bool Has(BigInteger steps, int lanes, int gates) =>
        steps * lanes <= Cases && steps <= GateRuns / Math.Max(1, gates);

    internal BigInteger Cases => BigInteger.One << CaseBits;

    internal BigInteger WordCases => BigInteger.One << WordCaseBits;
}
