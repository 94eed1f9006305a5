using System.Numerics;
using Reckoner.Binding;
using Reckoner.Datapaths;

namespace Reckoner.Checking;

/// <summary>
/// Operands for widths that cannot be exhausted: the corners, all of them always, then random ones of random lengths until there
/// are as many as were asked for. Made one by one, so that a large sample takes no memory.
/// </summary>
/// <param name="few">The corners where not all are wanted, since there are more than leave room for others.</param>
internal sealed class OperandSample(Datapath datapath, int count, int seed, IReadOnlyList<BigInteger[]>? few = null)
{
    private readonly IReadOnlyList<BigInteger[]> corners = few ?? OperandCorners.ForSample(datapath);

    public int Count => count;

    public int Seed => seed;

    /// <summary>More than were asked for where there are more corners.</summary>
    public int Size => Math.Max(count, corners.Count);

    /// <summary>The same each time.</summary>
    public IEnumerable<BigInteger[]> Operands()
    {
        foreach (var corner in corners)
        {
            yield return corner;
        }
        var random = new Random(seed);
        for (var i = corners.Count; i < count; i++)
        {
            yield return [.. datapath.Operands.Select(o => RandomBits(random, o.Width))];
        }
    }

    /// <summary>Half of them over the whole width, half of a random length, so that small numbers occur.</summary>
    private static BigInteger RandomBits(Random random, int width)
    {
        var length = random.Next(2) == 0 ? width : random.Next(1, width + 1);
        var bytes = new byte[length / 8 + 2];
        random.NextBytes(bytes);
        bytes[^1] = 0;
        return Numbers.Bits.Wrap(new BigInteger(bytes), length);
    }
}
