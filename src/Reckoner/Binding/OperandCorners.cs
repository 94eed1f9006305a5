using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Numbers;

namespace Reckoner.Binding;

/// <summary>Operands on which mistakes show: all of them where they are few, else the corners of each crossed.</summary>
internal static class OperandCorners
{
    private const int Few = 4096;
    private const int MostCrossed = 20_000;
    private const int ManyAtMost = 1 << 16;
    private const int MostNumbers = 1_000_000;

    /// <summary>Tuples of operand bits, one per operand in the order of the text.</summary>
    public static IReadOnlyList<BigInteger[]> Of(Datapath datapath) =>
        datapath.Operands.Sum(o => o.Width) <= BitOperations.Log2(Few)
            ? Crossed([.. datapath.Operands.Select(o => All(o.Width))])
            : Crossed(datapath);

    /// <summary>The corners of every operand crossed, and for two operands equal ones and those one apart.</summary>
    public static IReadOnlyList<BigInteger[]> Crossed(Datapath datapath)
    {
        var crossed = Crossed([.. datapath.Operands.Select(o => Corners(o.Width))]);
        if (datapath.Operands is not [var first, var second])
        {
            return crossed;
        }
        var near = Corners(second.Width)
            .SelectMany(c => new[] { c - 1, c, c + 1 }.Select(near => (BigInteger[])[Bits.Wrap(near, first.Width), c]));
        return [.. crossed.Concat(near).DistinctBy(t => (t[0], t[1]))];
    }

    /// <summary>
    /// The same for wide operands, and every power of two and its neighbours: beside each corner of the others and, for two
    /// operands, beside itself, one more and one less.
    /// </summary>
    public static IReadOnlyList<BigInteger[]> ForSample(Datapath datapath)
    {
        var most = Math.Min(MostCrossed, Math.Max(1, MostNumbers / Math.Max(1, datapath.Operands.Count)));
        return
        [
            .. Crossed(datapath)
                .Concat(BesideCorners(datapath).Concat(BesideEachOther(datapath)).Take(most))
                .DistinctBy(t => string.Join(' ', t)),
        ];
    }

    private static IEnumerable<BigInteger[]> BesideCorners(Datapath datapath)
    {
        var corners = datapath.Operands.Select(o => Corners(o.Width)).ToList();
        return from operand in datapath.Operands
            from power in Powers(operand.Width)
            from at in Enumerable.Range(0, datapath.Operands.Count > 1 ? corners.Max(c => c.Count) : 1)
            select (BigInteger[])
                [
                    .. datapath.Operands.Select(o =>
                        o == operand ? power : corners[o.Index][at % corners[o.Index].Count]
                    ),
                ];
    }

    private static IEnumerable<BigInteger[]> BesideEachOther(Datapath datapath) =>
        datapath.Operands is [var first, var second]
            ? from power in Powers(second.Width)
            from near in new[] { power - 1, power, power + 1 }
            select (BigInteger[])[Bits.Wrap(near, first.Width), power]
            : [];

    /// <summary>All powers of two in a width, each between its neighbours.</summary>
    private static IEnumerable<BigInteger> Powers(int width) =>
        from bit in Enumerable.Range(0, width)
        from near in new[] { -1, 0, 1 }
        select Bits.Wrap((BigInteger.One << bit) + near, width);

    private static IReadOnlyList<BigInteger[]> Crossed(IReadOnlyList<IReadOnlyList<BigInteger>> choices)
    {
        var most = Math.Min(MostCrossed, Math.Max(1, MostNumbers / Math.Max(1, choices.Count)));
        var count = 1;
        foreach (var choice in choices)
        {
            count = Math.Min(most, count * choice.Count);
        }
        return [.. Enumerable.Range(0, count).Select(at => Tuple(choices, at))];
    }

    /// <summary>Counts through the choices, the last operand fastest.</summary>
    private static BigInteger[] Tuple(IReadOnlyList<IReadOnlyList<BigInteger>> choices, int at)
    {
        var tuple = new BigInteger[choices.Count];
        for (var i = choices.Count - 1; i >= 0; i--)
        {
            tuple[i] = choices[i][at % choices[i].Count];
            at /= choices[i].Count;
        }
        return tuple;
    }

    /// <summary>Every tuple, made one by one; null when there are more than can be looked at in passing.</summary>
    public static IEnumerable<BigInteger[]>? Everybody(Datapath datapath) =>
        datapath.Operands.Sum(o => o.Width) > BitOperations.Log2(ManyAtMost)
            ? null
            : datapath.Operands.Aggregate(
                (IEnumerable<BigInteger[]>)
                    [
                        [],
                    ],
                (tuples, operand) => tuples.SelectMany(t => All(operand.Width).Select(v => (BigInteger[])[.. t, v]))
            );

    private static IReadOnlyList<BigInteger> All(int width) =>
        [.. Enumerable.Range(0, 1 << width).Select(v => new BigInteger(v))];

    /// <summary>0, 1, 2, 3, powers of two and their neighbours at both ends, alternating bits, all ones.</summary>
    public static IReadOnlyList<BigInteger> Corners(int width)
    {
        var top = BigInteger.One << (width - 1);
        BigInteger[] corners =
        [
            0,
            1,
            2,
            3,
            top - 1,
            top,
            top + 1,
            Bits.Mask(width) - 1,
            Bits.Mask(width),
            Bits.Mask(width) / 3,
        ];
        return [.. corners.Where(c => c.Sign >= 0).Select(c => Bits.Wrap(c, width)).Distinct().Order()];
    }
}
