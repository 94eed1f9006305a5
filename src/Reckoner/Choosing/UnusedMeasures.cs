using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Running;

namespace Reckoner.Choosing;

/// <summary>What is not looked at in drawing, so that it tells how equal the work of operands is that were drawn.</summary>
/// <param name="Ones">Ones in all rows behind the load.</param>
/// <param name="Changes">Bits of registers that a row has otherwise than the one before it.</param>
public sealed record UnusedMeasures(Extent Ones, Extent Changes)
{
    /// <summary>
    /// The longest run of carries or borrows, in places, counted in each walk apart from the gates that operands are drawn by; null
    /// where nothing is added.
    /// </summary>
    internal Extent? Longest { get; private init; }

    /// <param name="operands">Bits of the operands of each walk; at least one.</param>
    internal static UnusedMeasures Of(Datapath datapath, IEnumerable<IReadOnlyList<BigInteger>> operands)
    {
        // Of a walk its numbers are kept alone: of a large class the walks would fill the memory.
        var measured = operands
            .Select(o => Walk.Of(datapath, o))
            .Select(w => (Ones: OnesOf(w), Changes: ChangesOf(w), Longest: LongestOf(w)))
            .ToList();
        return new UnusedMeasures(Extent.Of(measured.Select(m => m.Ones)), Extent.Of(measured.Select(m => m.Changes)))
        {
            Longest = measured.Exists(m => m.Longest is null)
                ? null
                : Extent.Of(measured.Select(m => m.Longest!.Value)),
        };
    }

    internal static int OnesOf(Walk walk) => walk.Rows.Skip(1).SelectMany(r => r.Registers).Sum(Count);

    internal static int ChangesOf(Walk walk) =>
        walk.Rows.Skip(1).SelectMany(r => r.Before.Zip(r.Registers, (a, b) => a ^ b)).Sum(Count);

    /// <summary>Null where nothing is added.</summary>
    internal static int? LongestOf(Walk walk) =>
        walk
            .Rows.SelectMany(r => r.Moments)
            .SelectMany(m => m.Happenings)
            .OfType<Summed>()
            .Select(s => (int?)LongestRun(s))
            .Max();

    private static int LongestRun(BigInteger bits)
    {
        var longest = 0;
        for (; !bits.IsZero; longest++)
        {
            bits &= bits >> 1;
        }
        return longest;
    }

    /// <summary>
    /// What came into a place is what makes its result differ from its own two bits; it gives a carry where two of the three are 1, and
    /// a borrow where two of the three are, with the upper one turned.
    /// </summary>
    private static int LongestRun(Summed sum)
    {
        var came = sum.Bits ^ sum.Left ^ sum.Right;
        var left =
            sum.Value.Operation == Operation.Add ? sum.Left : sum.Left ^ Numbers.Bits.Mask(sum.Value.Inputs[^1].Width);
        return LongestRun((left & sum.Right) | (left & came) | (sum.Right & came));
    }

    private static int Count(BigInteger bits) => (int)BigInteger.PopCount(bits);
}
