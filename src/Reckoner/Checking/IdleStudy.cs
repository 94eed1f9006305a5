using System.Numerics;
using Reckoner.Datapaths;

namespace Reckoner.Checking;

/// <summary>What a register bit carries in a cycle, over all operands that reach it.</summary>
public enum Carried
{
    /// <summary>It tells operands apart, and the results depend on it; or, judged by structure, it may.</summary>
    Something,

    /// <summary>It is 0 for all operands.</summary>
    AlwaysZero,

    /// <summary>It is 1 for all operands.</summary>
    AlwaysOne,

    /// <summary>Whatever it is, no result depends on it any more.</summary>
    Unread,
}

/// <summary>The bits that registers hold after one edge (0 is the load) until the next.</summary>
/// <param name="Cases">Operands inside "given" that reach it; null where they were not counted.</param>
/// <param name="IsForAll">Whether every operand reaches it, whatever the loops before it do.</param>
/// <param name="Bits">For every register by index, its bits from the lowest.</param>
public sealed record IdleRow(
    int Cycle,
    int Repeat,
    int Round,
    Step? Step,
    BigInteger? Cases,
    bool IsForAll,
    IReadOnlyList<IReadOnlyList<Carried>> Bits
)
{
    public bool CarriesNothing(Register register, int bit) => Bits[register.Index][bit] != Carried.Something;

    internal static IdleRow Of(
        int cycle,
        Timelines.Edge? edge,
        BigInteger? cases,
        bool isForAll,
        IEnumerable<IReadOnlyList<Carried>> bits
    ) => new(cycle, edge?.Repeat ?? 0, edge?.Round ?? 0, edge?.Step, cases, isForAll, [.. bits]);
}

/// <summary>Which register bits carry nothing in which cycle.</summary>
/// <param name="IsExhaustive">Judged over all operands; else by structure, which may miss some.</param>
public sealed record IdleStudy(Datapath Datapath, bool IsExhaustive, IReadOnlyList<IdleRow> Rows)
{
    /// <summary>
    /// Pairs of registers that together never carry more bits than the wider of them has: they could share it. The load and
    /// every cycle are looked at.
    /// </summary>
    public IReadOnlyList<(Register First, Register Second, int Most)> Sharable()
    {
        var pairs = new List<(Register, Register, int)>();
        foreach (var first in Datapath.Registers)
        {
            foreach (var second in Datapath.Registers.Where(r => r.Index > first.Index))
            {
                var most = Rows.Max(row => Count(row, first) + Count(row, second));
                if (most <= Math.Max(first.Width, second.Width))
                {
                    pairs.Add((first, second, most));
                }
            }
        }
        return pairs;
    }

    private static int Count(IdleRow row, Register register) =>
        row.Bits[register.Index].Count(b => b == Carried.Something);
}
