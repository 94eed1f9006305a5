using System.Numerics;
using Reckoner.Slips;

namespace Reckoner.Choosing;

/// <summary>A slip beside chosen operands.</summary>
/// <param name="Results">For each of them what the slip gives, as bits; null where that is right.</param>
public sealed record ShownSlip(Slip Slip, IReadOnlyList<IReadOnlyList<BigInteger>?> Results);

/// <summary>Operands chosen for what they show of slips.</summary>
/// <param name="AtLeast">No fewer operands do the same; null where not the fewest were asked for.</param>
/// <param name="Slips">Those that some operands expose, in the order of the text.</param>
/// <param name="Hidden">Those that none of the operands exposes that were tried.</param>
/// <param name="Alike">Of those that are exposed, the ones that give the same results for all operands that were tried.</param>
public sealed record SlipsShown(
    IReadOnlyList<ChosenOperands> Chosen,
    int? AtLeast,
    IReadOnlyList<ShownSlip> Slips,
    IReadOnlyList<Slip> Hidden,
    IReadOnlyList<IReadOnlyList<Slip>> Alike
)
{
    /// <summary>Whether no fewer operands could do.</summary>
    public bool IsFewest => AtLeast == Chosen.Count;
}
