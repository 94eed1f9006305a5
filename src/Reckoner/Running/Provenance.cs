using Reckoner.Datapaths;

namespace Reckoner.Running;

/// <summary>Where the bits that an edge stores come from.</summary>
/// <param name="Sources">
/// For every register by index, for each bit from the lowest: what it came out of in this edge. Bits that move or stay come out
/// of a register as it was before.
/// </param>
/// <param name="Origins">The same, followed back to what is no register.</param>
/// <param name="Landings">Where the outputs that are kept were first written, in order.</param>
internal sealed record ProvenanceRow(
    int Cycle,
    IReadOnlyList<IReadOnlyList<BitSource>> Sources,
    IReadOnlyList<IReadOnlyList<BitSource>> Origins,
    IReadOnlyList<Landing> Landings
)
{
    /// <summary>
    /// Where outputs would have been written that were tried and not kept: a decision that looked at the output went the other way.
    /// </summary>
    public IReadOnlyList<Landing> Dropped { get; init; } = [];

    /// <summary>For what was computed in this edge: where the bits of each input come from, each from the lowest.</summary>
    public IReadOnlyDictionary<Value, IReadOnlyList<IReadOnlyList<BitSource>>> Fed { get; init; } =
        new Dictionary<Value, IReadOnlyList<IReadOnlyList<BitSource>>>();
}

/// <summary>Bits high..low of a register that first took in the output of a unit, a table or gates.</summary>
/// <param name="LowestBit">The output's bit at the low place.</param>
internal sealed record Landing(Value Value, int LowestBit, Register Register, int High, int Low, int Line)
{
    /// <summary>Whether another's output has come down here, whole.</summary>
    public bool Holds(Landing other) =>
        Value == other.Value
        && LowestBit <= other.LowestBit
        && LowestBit + High - Low >= other.LowestBit + other.High - other.Low;
}

/// <summary>
/// Follows every bit of a walk: through slices, joins, shifts and the choices as they fell, up to what computed it. A constant
/// that another way of a decision would have left otherwise was decided; where a decision chose between 1 and 0, the bit is the
/// one that decided.
/// </summary>
internal static class Provenance
{
    /// <summary>A row for the load and for every edge.</summary>
    public static IReadOnlyList<ProvenanceRow> Of(Walk walk) => walk.Trace.Rows;

    /// <summary>Where the bits of each result come from: the registers as the last edge left them.</summary>
    public static IReadOnlyList<IReadOnlyList<BitSource>> OfResults(Walk walk) => walk.Trace.Results;
}
