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
    private CaseTable(IReadOnlyList<Operand> operands, BigInteger[][] cases, bool isExhaustive)
    {
        Operands = operands;
        Cases = cases;
        IsExhaustive = isExhaustive;
    }

    public IReadOnlyList<Operand> Operands { get; }
    public BigInteger[][] Cases { get; }
    public bool IsExhaustive { get; }

    private int Words => (Cases.Length + 63) / 64;

    public static CaseTable All(Datapath datapath)
    {
        var space = new CaseSpace(datapath.Operands);
        var cases = new BigInteger[space.Steps * space.Lanes][];
        for (var i = 0; i < cases.Length; i++)
        {
            cases[i] = space.At(i / space.Lanes, i % space.Lanes);
        }
        return Ordered(datapath, cases, isExhaustive: true);
    }

    public static CaseTable Of(Datapath datapath, IReadOnlyList<BigInteger[]> sample) =>
        Ordered(datapath, [.. sample], isExhaustive: false);

    private static CaseTable Ordered(Datapath datapath, BigInteger[][] cases, bool isExhaustive)
    {
        var ranks = cases.Select(c => Rank.Of(datapath.Operands, c)).ToArray();
        Array.Sort(ranks, cases);
        return new CaseTable(datapath.Operands, cases, isExhaustive);
    }

    /// <summary>For every output of a program over the operands' bits, a bit per case.</summary>
    public ulong[][] Run(PlaneProgram program, IPlaneEngine engine)
    {
        var kernel = engine.Compile(program);
        var memory = PlaneMemory.For(program.Slots);
        var tables = program.Outputs.Select(_ => new ulong[Words]).ToArray();
        for (var from = 0; from < Cases.Length; from += PlaneMemory.Lanes)
        {
            var count = Math.Min(PlaneMemory.Lanes, Cases.Length - from);
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

    public static long Count(ulong[] table) => table.Sum(w => (long)BitOperations.PopCount(w));

    /// <summary>The smallest operands whose bit is 1, or null.</summary>
    public BigInteger[]? First(ulong[] table)
    {
        var word = Array.FindIndex(table, w => w != 0);
        return word < 0 ? null : Cases[64 * word + BitOperations.TrailingZeroCount(table[word])];
    }
}
