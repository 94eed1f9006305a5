using System.Numerics;
using Reckoner.Binding;
using Reckoner.Datapaths;

namespace Reckoner.Tests;

/// <summary>Operands to try, inside "given" or not.</summary>
internal static class SampleOperands
{
    /// <summary>Corners and random words mixed, one tuple after another without end.</summary>
    public static IEnumerable<BigInteger[]> Of(Datapath datapath, Random random)
    {
        var corners = datapath.Operands.Select(o => OperandCorners.Corners(o.Width)).ToList();
        while (true)
        {
            yield return
            [
                .. datapath.Operands.Select(o =>
                    random.Next(3) == 0
                        ? corners[o.Index][random.Next(corners[o.Index].Count)]
                        : Word(random, random.Next(1, o.Width + 1))
                ),
            ];
        }
    }

    private static BigInteger Word(Random random, int width)
    {
        var bytes = new byte[width / 8 + 1];
        random.NextBytes(bytes);
        return Numbers.Bits.Wrap(new BigInteger(bytes, isUnsigned: true), width);
    }
}
