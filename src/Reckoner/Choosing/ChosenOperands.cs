using System.Numerics;

namespace Reckoner.Choosing;

/// <summary>A decision as one walk met it: for every cycle in which it stands an outcome, or null where it was not met.</summary>
/// <param name="Text">The decision as written.</param>
/// <param name="Outcomes">"yes" and "no" by 1 and 0, or the label of the arm that was taken.</param>
public sealed record MetDecision(string Text, bool IsChoice, IReadOnlyList<string?> Outcomes);

/// <summary>Chosen operands with what they give and decide.</summary>
/// <param name="Cycles">Clock edges after the load.</param>
/// <param name="Decisions">Those whose outcomes are not the same for all operands.</param>
public sealed record ChosenOperands(
    IReadOnlyList<BigInteger> Operands,
    IReadOnlyList<BigInteger> Results,
    int Cycles,
    IReadOnlyList<MetDecision> Decisions
);
