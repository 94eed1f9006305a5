using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;

namespace Reckoner.Slips;

/// <summary>
/// The order of <see cref="Rank"/> over operands whose bits stand side by side in one word, the first operand lowest: a rank is a
/// number with the case itself in its lowest bits, so that no two are equal. For no more than
/// <see cref="SlipStudy.MostBits"/> bits; then a rank has at most 64.
/// </summary>
internal sealed class PackedOrder
{
    private readonly int[] widths;
    private readonly bool[] isSigned;
    private readonly int bits;
    private readonly int first;
    private readonly int second;
    private readonly int negatives;

    public PackedOrder(IReadOnlyList<Operand> operands)
    {
        widths = [.. operands.Select(o => o.Width)];
        isSigned = [.. operands.Select(o => o.IsSigned)];
        bits = widths.Sum();
        // The magnitude of the smallest signed number needs all the bits; of an unsigned one all too.
        first = widths.ElementAtOrDefault(0);
        second = widths.ElementAtOrDefault(1);
        negatives = BitOperations.Log2((uint)widths.Length) + 1;
    }

    /// <summary>The case of a rank.</summary>
    public uint Packed(ulong rank) => (uint)(rank & ((1UL << bits) - 1));

    public ulong Ranked(uint packed)
    {
        var (sum, below, one, other) = (0UL, 0UL, 0UL, 0UL);
        var rest = packed;
        for (var i = 0; i < widths.Length; i++)
        {
            var magnitude = rest & ((1u << widths[i]) - 1);
            rest >>= widths[i];
            if (isSigned[i] && magnitude >> (widths[i] - 1) != 0)
            {
                magnitude = (1u << widths[i]) - magnitude;
                below++;
            }
            sum += magnitude;
            one = i == 0 ? magnitude : one;
            other = i == 1 ? magnitude : other;
        }
        var rank = (((sum << negatives) | below) << second) | other;
        return (((rank << first) | one) << bits) | packed;
    }
}
