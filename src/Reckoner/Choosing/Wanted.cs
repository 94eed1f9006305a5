using Reckoner.Claims;
using Reckoner.Datapaths;

namespace Reckoner.Choosing;

/// <summary>What a walk is to show: a condition on operands, results and what is decided, as it was read.</summary>
internal abstract record Wanted;

internal sealed record AllOf(IReadOnlyList<Wanted> Parts) : Wanted;

internal sealed record AnyOf(IReadOnlyList<Wanted> Parts) : Wanted;

internal sealed record NotSo(Wanted Inner) : Wanted;

/// <summary>A formula over operands and results.</summary>
internal sealed record IsTrue(Truth Formula) : Wanted;

/// <summary>Something decided comes about in so many cycles.</summary>
internal sealed record HappensTimes(Occasion What, Amount Times) : Wanted;

/// <summary>Whenever it is decided, and it is at least once.</summary>
internal sealed record HappensAlways(Occasion What) : Wanted;

/// <summary>The first or the last time that it is decided.</summary>
internal sealed record HappensAtEnd(Occasion What, bool First) : Wanted;

internal sealed record HappensInCycle(Occasion What, int Cycle) : Wanted;

internal sealed record HappensInLastCycle(Occasion What) : Wanted;

/// <summary>The next time that the one is decided after the other has come about.</summary>
internal sealed record HappensAfter(Occasion What, Occasion Before) : Wanted;

internal sealed record GoesBothWays(Occasion What) : Wanted;

/// <summary>Every outcome of every decision that some operands bring about.</summary>
internal sealed record EveryOutcome : Wanted;

internal sealed record TakesCycles(Amount Cycles) : Wanted;

/// <summary>After no two clock edges, the load among them, do all registers hold the same.</summary>
internal sealed record NoTwoAlike : Wanted;

/// <summary>A slip, built at the machine's widths, gives other results.</summary>
internal sealed record SlipShows(Datapath Slipped) : Wanted;

/// <summary>An outcome of a decision: the decision as written, or what is not so where it is decided.</summary>
internal sealed record Occasion(Decision Decision, bool IsTurned);

internal enum Bound
{
    Exactly,
    AtLeast,
    AtMost,
}

internal readonly record struct Amount(Bound Bound, int Count);
