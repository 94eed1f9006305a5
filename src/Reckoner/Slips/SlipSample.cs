using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Numbers;

namespace Reckoner.Slips;

/// <summary>
/// Operands drawn evenly from all, so that the share of those that expose a slip estimates its share among all. A sample for
/// finding mistakes would prefer corners and short numbers; its shares would estimate nothing.
/// </summary>
internal static class SlipSample
{
    public static IReadOnlyList<BigInteger[]> Of(Datapath datapath, int count, int seed)
    {
        var random = new Random(seed);
        return
        [
            .. Enumerable.Range(0, count).Select(_ => datapath.Operands.Select(o => Drawn(random, o.Width)).ToArray()),
        ];
    }

    private static BigInteger Drawn(Random random, int width)
    {
        var bytes = new byte[width / 8 + 2];
        random.NextBytes(bytes);
        bytes[^1] = 0;
        return Bits.Wrap(new BigInteger(bytes), width);
    }
}
