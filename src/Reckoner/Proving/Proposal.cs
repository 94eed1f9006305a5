namespace Reckoner.Proving;

/// <summary>What somebody says to hold at the head of every round of a loop.</summary>
/// <param name="Facts">All of them together.</param>
/// <param name="Pieces">Into which the registers come apart so that it can be said, in the order of the registers.</param>
internal sealed record Proposed(IReadOnlyList<Fact> Facts, IReadOnlyList<Piece> Pieces);

/// <summary>Says it in the variables of a proof.</summary>
/// <param name="usual">The pieces into which the registers come apart where nothing else is wanted.</param>
/// <param name="count">The rounds of the loop.</param>
internal delegate Proposed Proposal(
    LiftedMachine machine,
    Variables variables,
    IReadOnlyList<Piece> usual,
    Extent count
);
