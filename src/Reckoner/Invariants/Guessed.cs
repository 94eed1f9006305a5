using System.Numerics;
using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Proving;

namespace Reckoner.Invariants;

/// <summary>What becomes of something that is said to hold in every round.</summary>
public enum GuessKind
{
    /// <summary>Operands were found for which it does not hold.</summary>
    False,

    /// <summary>It holds wherever it was tried, but not behind every round before which it holds: there is a state that shows it.</summary>
    NotKept,

    /// <summary>It goes on holding, and yet there is a state in which it holds and from which a law fails.</summary>
    TooWeak,

    /// <summary>It holds wherever it was tried, but the machine itself breaks a law, for operands that were found.</summary>
    LawFails,

    /// <summary>It is shown to hold, and every law follows; verified.</summary>
    Proof,

    /// <summary>None of these was found.</summary>
    Open,

    /// <summary>The machine, or the formula, is none that can be judged.</summary>
    NotReached,
}

/// <summary>A state at the head of a round that shows what is wrong with a guess.</summary>
/// <param name="Round">How many rounds are done.</param>
/// <param name="Registers">Their bits, in the order of the text.</param>
public sealed record GuessState(
    Datapath Datapath,
    int Width,
    int Round,
    IReadOnlyList<BigInteger> Operands,
    IReadOnlyList<BigInteger> Registers
)
{
    /// <summary>The same behind the round; null where nothing goes on from there.</summary>
    public IReadOnlyList<BigInteger>? After { get; init; }

    /// <summary>What does not hold there: with names, and with the numbers.</summary>
    public (string Formula, string Numbers)? Broken { get; init; }

    /// <summary>The law that fails from there, and what comes out.</summary>
    public (Claim Law, IReadOnlyList<BigInteger> Results)? Fails { get; init; }
}

/// <summary>A guess judged.</summary>
/// <param name="Formulas">What was said, as it was understood.</param>
public sealed record Guessed(IMachine Machine, IReadOnlyList<string> Formulas, GuessKind Kind)
{
    /// <summary>What shows it; null for a proof, and where nothing was found.</summary>
    public GuessState? State { get; init; }

    /// <summary>The proof from it, for <see cref="GuessKind.Proof"/>.</summary>
    internal ProofReport? Proof { get; init; }

    /// <summary>Of a proof: what was said and is not needed.</summary>
    public IReadOnlyList<string> Idle { get; init; } = [];

    /// <summary>Why it cannot be judged, or why no proof was found; null where nothing is known of that.</summary>
    internal (Obstacle Obstacle, string What)? End { get; init; }

    public TimeSpan Time { get; init; }
}
