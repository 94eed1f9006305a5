using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;

namespace Reckoner.Slips;

/// <summary>
/// The order of <see cref="Rank"/> over operands whose bits stand side by side in one word, the first operand lowest. A rank is a
/// number: the sum of the magnitudes, how many are negative, then every operand's place in 0, 1, -1, 2, -2 and so on, the last
/// operand highest, from which the case is read back. For no more than <see cref="SlipStudy.MostBits"/> bits; then a rank has at
/// most 46.
/// </summary>
internal sealed class PackedOrder
{
    private readonly int[] widths;
    private readonly bool[] isSigned;
    private readonly int bits;
    private readonly int negatives;

    public PackedOrder(IReadOnlyList<Operand> operands)
    {
        widths = [.. operands.Select(o => o.Width)];
        isSigned = [.. operands.Select(o => o.IsSigned)];
        bits = widths.Sum();
        negatives = BitOperations.Log2((uint)widths.Length) + 1;
    }

    public ulong Ranked(uint packed)
    {
        var (sum, below, places) = (0UL, 0UL, 0UL);
        var (rest, low) = (packed, 0);
        for (var i = 0; i < widths.Length; low += widths[i++])
        {
            var size = 1u << widths[i];
            var magnitude = rest & (size - 1);
            rest >>= widths[i];
            var isNegative = isSigned[i] && magnitude >= size >> 1;
            magnitude = isNegative ? size - magnitude : magnitude;
            sum += magnitude;
            below += isNegative ? 1u : 0;
            var place =
                !isSigned[i] ? magnitude
                : magnitude == 0 ? 0
                // The most negative number has no partner, so its place is the last.
                : isNegative && magnitude < size >> 1 ? 2 * magnitude
                : 2 * magnitude - 1;
            places |= (ulong)place << low;
        }
        return (((sum << negatives) | below) << bits) | places;
    }

    /// <summary>The case of a rank.</summary>
    public uint Packed(ulong rank)
    {
        var (packed, low) = (0u, 0);
        for (var i = 0; i < widths.Length; low += widths[i++])
        {
            var mask = (1u << widths[i]) - 1;
            var place = (uint)(rank >> low) & mask;
            var number =
                !isSigned[i] ? place
                : place % 2 == 0 ? (0u - place / 2) & mask
                : place / 2 + 1;
            packed |= number << low;
        }
        return packed;
    }
}
