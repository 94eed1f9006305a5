using System.Numerics;
using Reckoner.Datapaths;

namespace Reckoner.Proving;

/// <summary>What is known at one width of a machine.</summary>
/// <param name="IsAsked">Whether it was asked about this width; else it is the usual one, since for every width it is not proved.</param>
/// <param name="Tried">All its operands, tried; null where it is proved for every width, or trying them would have taken too long.</param>
/// <param name="Holds">Whether all that is claimed is so; null where neither a proof nor operands say it.</param>
internal sealed record AtWidth(Datapath Datapath, bool IsAsked, BigInteger? Tried, bool? Holds)
{
    /// <summary>How many operands there are to try.</summary>
    public BigInteger Cases { get; init; }
}
