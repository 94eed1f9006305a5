using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Running;

namespace Reckoner.Hdl;

/// <summary>One operation as it was computed here: bits of operands and results in the order of the text.</summary>
/// <param name="IsLawful">Whether it satisfies what the description claims.</param>
internal sealed record HdlVector(
    IReadOnlyList<BigInteger> Operands,
    IReadOnlyList<BigInteger> Results,
    int Cycles,
    bool IsLawful
);

/// <summary>What a bench holds the hardware against: results of many operations, and of a few the registers behind every clock edge.</summary>
/// <param name="IsAll">Whether every operand is among them.</param>
internal sealed record HdlVectors(IReadOnlyList<HdlVector> Operations, bool IsAll, IReadOnlyList<Walk> Walks)
{
    /// <summary>Up to so many bits of operands all are tried.</summary>
    public const int MostBits = 10;

    private const int Drawn = 1000;

    /// <summary>Clock edges that are walked for them, about; of machines with very long loops fewer operations are tried.</summary>
    private const int MostEdges = 1 << 20;
    private const int Walked = 8;

    /// <summary>Bits of a count of cycles in a file of vectors.</summary>
    public const int CycleBits = 24;

    public static HdlVectors Of(Datapath datapath)
    {
        var bits = datapath.Operands.Sum(o => o.Width);
        var words = bits <= MostBits ? All(bits) : Some(bits);
        var most = Math.Max(1, MostEdges / Math.Max(1, datapath.MostCycles));
        var given = new List<IReadOnlyList<BigInteger>>();
        var operations = new List<HdlVector>();
        foreach (var operands in words.Take(most).Select(w => Parted(datapath, w)))
        {
            // A walk of many cycles is large, and only a few are kept.
            var walk = Walk.Of(datapath, operands);
            operations.Add(new HdlVector(walk.Operands, walk.Results, walk.Cycles, walk.Holds));
            if (walk.IsGiven)
            {
                given.Add(walk.Operands);
            }
        }
        var among = given.Count > 0 ? given : [.. operations.Select(o => o.Operands)];
        return new HdlVectors(
            operations,
            bits <= MostBits && operations.Count == 1 << bits,
            [.. Spread(among, Math.Min(Walked, most)).Select(o => Walk.Of(datapath, o))]
        );
    }

    private static IEnumerable<BigInteger> All(int bits) => Enumerable.Range(0, 1 << bits).Select(i => (BigInteger)i);

    /// <summary>All zeros, all ones, a single one or zero in every place, then words drawn by a fixed seed.</summary>
    private static IEnumerable<BigInteger> Some(int bits)
    {
        var full = Bits.Mask(bits);
        var corners = Enumerable
            .Range(0, bits)
            .SelectMany(i => new[] { BigInteger.One << i, full ^ (BigInteger.One << i) });
        foreach (var corner in corners.Prepend(full).Prepend(0))
        {
            yield return corner;
        }
#pragma warning disable CA5394 // Nothing is kept secret by it; the same vectors come out everywhere.
        var random = new Random(1);
        var bytes = new byte[bits / 8 + 1];
        for (var i = 0; i < Drawn; i++)
        {
            random.NextBytes(bytes);
#pragma warning restore CA5394
            yield return new BigInteger(bytes, isUnsigned: true) & full;
        }
    }

    private static List<BigInteger> Parted(Datapath datapath, BigInteger word)
    {
        var parts = new List<BigInteger>();
        foreach (var operand in datapath.Operands)
        {
            parts.Add(Bits.Wrap(word, operand.Width));
            word >>= operand.Width;
        }
        return parts;
    }

    /// <summary>A few that lie apart.</summary>
    private static IEnumerable<IReadOnlyList<BigInteger>> Spread(
        IReadOnlyList<IReadOnlyList<BigInteger>> among,
        int count
    )
    {
        var step = Math.Max(1, among.Count / count);
        return Enumerable.Range(0, among.Count).Where(i => i % step == step / 2).Select(i => among[i]);
    }

    /// <summary>A line for each operation, in binary digits: operands, results, how many cycles it takes, 1 where it is lawful.</summary>
    public string OperationLines(Datapath datapath) =>
        string.Concat(
            Operations.Select(v =>
                string.Join(
                    '_',
                    [
                        .. Words(datapath.Operands.Select((o, i) => Bits.Text(v.Operands[i], o.Width))),
                        .. Words(datapath.Results.Select((r, i) => Bits.Text(v.Results[i], r.Width))),
                        Bits.Text(v.Cycles, CycleBits),
                        v.IsLawful ? "1" : "0",
                    ]
                ) + "\n"
            )
        );

    /// <summary>A line for each clock edge: 1 for a load, the operands, the registers behind the edge.</summary>
    public string EdgeLines(Datapath datapath) =>
        string.Concat(
            Walks.SelectMany(w =>
                w.Rows.Select(row =>
                    string.Join(
                        '_',
                        [
                            row.Cycle == 0 ? "1" : "0",
                            .. Words(datapath.Operands.Select((o, i) => Bits.Text(w.Operands[i], o.Width))),
                            .. datapath.Registers.Select(r => Bits.Text(row.Registers[r.Index], r.Width)),
                        ]
                    ) + "\n"
                )
            )
        );

    /// <summary>One bit stands for those of a machine that has none.</summary>
    private static IEnumerable<string> Words(IEnumerable<string> words) => words.DefaultIfEmpty("0");

    public int Edges => Walks.Sum(w => w.Rows.Count);
}
