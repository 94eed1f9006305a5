using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Running;

namespace Reckoner.Choosing;

/// <summary>What is not looked at in drawing, so that it tells how equal the work of operands is that were drawn.</summary>
/// <param name="Ones">Ones in all rows behind the load.</param>
/// <param name="Changes">Bits of registers that a row has otherwise than the one before it.</param>
public sealed record UnusedMeasures(Extent Ones, Extent Changes)
{
    /// <param name="operands">Bits of the operands of each walk; at least one.</param>
    internal static UnusedMeasures Of(Datapath datapath, IEnumerable<IReadOnlyList<BigInteger>> operands)
    {
        var walks = operands.Select(o => Walk.Of(datapath, o)).ToList();
        return new UnusedMeasures(Extent.Of(walks.Select(OnesOf)), Extent.Of(walks.Select(ChangesOf)));
    }

    internal static int OnesOf(Walk walk) => walk.Rows.Skip(1).SelectMany(r => r.Registers).Sum(Count);

    internal static int ChangesOf(Walk walk) =>
        walk.Rows.Skip(1).SelectMany(r => r.Before.Zip(r.Registers, (a, b) => a ^ b)).Sum(Count);

    private static int Count(BigInteger bits) => (int)BigInteger.PopCount(bits);
}
