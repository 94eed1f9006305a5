using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;

namespace Reckoner.Slips;

/// <summary>
/// Operands in a list, all of them or a sample, ordered from the smallest (as failing operands are), and for every literal of
/// interest a bit per case.
/// </summary>
internal sealed class CaseTable
{
    private readonly Lazy<BigInteger[][]> cases;

    /// <summary>Each case as the operands' bits side by side, the first operand lowest; null where they may not fit.</summary>
    private readonly uint[]? packed;

    private CaseTable(IReadOnlyList<Operand> operands, BigInteger[][] cases)
    {
        Operands = operands;
        this.cases = new(cases);
        Size = cases.Length;
    }

    private CaseTable(IReadOnlyList<Operand> operands, uint[] packed)
    {
        Operands = operands;
        this.packed = packed;
        cases = new(() => [.. packed.Select(p => Unpacked(operands, p))]);
        Size = packed.Length;
    }

    public IReadOnlyList<Operand> Operands { get; }
    public int Size { get; }
    public BigInteger[][] Cases => cases.Value;
    public bool IsExhaustive => packed is not null;

    private int Words => (Size + 63) / 64;

    /// <summary>All operands; together they have no more than <see cref="SlipStudy.MostBits"/> bits.</summary>
    public static CaseTable All(Datapath datapath)
    {
        var order = new PackedOrder(datapath.Operands);
        var ranked = new ulong[1 << datapath.Operands.Sum(o => o.Width)];
        for (var i = 0; i < ranked.Length; i++)
        {
            ranked[i] = order.Ranked((uint)i);
        }
        Array.Sort(ranked);
        return new CaseTable(datapath.Operands, Array.ConvertAll(ranked, order.Packed));
    }

    public static CaseTable Of(Datapath datapath, IReadOnlyList<BigInteger[]> sample)
    {
        BigInteger[][] cases = [.. sample];
        var ranks = cases.Select(c => Rank.Of(datapath.Operands, c)).ToArray();
        Array.Sort(ranks, cases);
        return new CaseTable(datapath.Operands, cases);
    }

    private static BigInteger[] Unpacked(IReadOnlyList<Operand> operands, uint packed)
    {
        var bits = new BigInteger[operands.Count];
        foreach (var operand in operands)
        {
            bits[operand.Index] = packed & ((1u << operand.Width) - 1);
            packed >>= operand.Width;
        }
        return bits;
    }

    /// <summary>For every output of a program over the operands' bits, a bit per case.</summary>
    public ulong[][] Run(PlaneProgram program, IPlaneEngine engine)
    {
        var kernel = engine.Compile(program);
        var memory = PlaneMemory.For(program.Slots);
        var tables = program.Outputs.Select(_ => new ulong[Words]).ToArray();
        for (var from = 0; from < Size; from += PlaneMemory.Lanes)
        {
            var count = Math.Min(PlaneMemory.Lanes, Size - from);
            SetInputs(memory, from, count);
            kernel.Run(memory.Span);
            for (var o = 0; o < tables.Length; o++)
            {
                var plane = PlaneMemory.Plane(memory, program.Outputs[o].Slot);
                var turned = program.Outputs[o].Turned ? ulong.MaxValue : 0;
                for (var w = 0; 64 * w < count; w++)
                {
                    var used = count - 64 * w >= 64 ? ulong.MaxValue : (1UL << (count - 64 * w)) - 1;
                    tables[o][from / 64 + w] = (plane[w] ^ turned) & used;
                }
            }
        }
        return tables;
    }

    private void SetInputs(Memory<ulong> memory, int from, int count)
    {
        var input = 0;
        foreach (var operand in Operands)
        {
            for (var bit = 0; bit < operand.Width; bit++, input++)
            {
                var plane = PlaneMemory.Plane(memory, PlaneProgram.InputSlot(input));
                plane.Clear();
                if (packed is not null)
                {
                    // Inputs are numbered as the bits are packed.
                    for (var lane = 0; lane < count; lane++)
                    {
                        plane[lane / 64] |= (ulong)((packed[from + lane] >> input) & 1) << (lane % 64);
                    }
                    continue;
                }
                for (var lane = 0; lane < count; lane++)
                {
                    if (!(Cases[from + lane][operand.Index] >> bit).IsEven)
                    {
                        plane[lane / 64] |= 1UL << (lane % 64);
                    }
                }
            }
        }
    }

    /// <summary>How many bits are 1.</summary>
    public static long Count(ulong[] table)
    {
        var ones = 0L;
        foreach (var word in table)
        {
            ones += BitOperations.PopCount(word);
        }
        return ones;
    }

    /// <summary>The smallest operands whose bit is 1, or null.</summary>
    public BigInteger[]? First(ulong[] table)
    {
        var word = Array.FindIndex(table, w => w != 0);
        if (word < 0)
        {
            return null;
        }
        var at = 64 * word + BitOperations.TrailingZeroCount(table[word]);
        return packed is null ? Cases[at] : Unpacked(Operands, packed[at]);
    }
}
