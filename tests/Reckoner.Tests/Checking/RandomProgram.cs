using System.Numerics;
using Reckoner.Checking;

namespace Reckoner.Tests.Checking;

/// <summary>
/// A graph made at random, with the table of every literal kept beside it: one bit for each of the cases of its inputs. The last
/// inputs are state.
/// </summary>
internal sealed class RandomProgram
{
    private const int Inputs = 9;
    private const int States = 3;
    private const int Cases = 1 << Inputs;
    private static readonly BigInteger All = (BigInteger.One << Cases) - 1;

    private readonly Random random;
    private readonly GateGraph graph = new(Inputs);
    private readonly List<(int Literal, BigInteger Table)> known = [(GateGraph.Zero, 0)];
    private readonly List<(int Literal, BigInteger Table)> outputs;
    private readonly List<(int Literal, BigInteger Table)> next;

    public RandomProgram(int seed)
    {
        random = new Random(seed);
        for (var input = 0; input < Inputs; input++)
        {
            known.Add((GateGraph.Input(input), Pattern(input)));
        }
        var size = random.Next(1, 120);
        for (var i = 0; i < size; i++)
        {
            known.Add(Gate());
        }
        outputs = [.. Enumerable.Range(0, 4).Select(_ => Any())];
        next = [.. Enumerable.Range(0, States).Select(_ => Any())];
        Program = PlaneProgram.Of(graph, [.. outputs.Select(o => o.Literal)], [.. next.Select(n => n.Literal)]);
    }

    public PlaneProgram Program { get; }

    private static BigInteger Pattern(int input)
    {
        var table = BigInteger.Zero;
        for (var i = 0; i < Cases; i++)
        {
            table |= new BigInteger((i >> input) & 1) << i;
        }
        return table;
    }

    /// <summary>One of the literals, late ones more often, either way round.</summary>
    private (int Literal, BigInteger Table) Any()
    {
        var (literal, table) = known[
            random.Next(2) == 0 ? random.Next(known.Count) : random.Next(known.Count / 2, known.Count)
        ];
        return random.Next(3) == 0 ? (GateGraph.Not(literal), All ^ table) : (literal, table);
    }

    private (int, BigInteger) Gate()
    {
        var (a, b, c) = (Any(), Any(), Any());
        var (x, y, z) = (a.Table, b.Table, c.Table);
        switch (random.Next(4))
        {
            case 0:
                return (graph.Choose(a.Literal, b.Literal, c.Literal), (x & y) | ((All ^ x) & z));
            case 1:
                return (graph.Or(a.Literal, b.Literal), x | y);
            case 2:
                return (graph.Xor(a.Literal, b.Literal, c.Literal), x ^ y ^ z);
            default:
                var function = (byte)random.Next(256);
                return (graph.Make(function, a.Literal, b.Literal, c.Literal), Table(function, x, y, z));
        }
    }

    private static BigInteger Table(byte function, BigInteger x, BigInteger y, BigInteger z)
    {
        var table = BigInteger.Zero;
        for (var row = 0; row < 8; row++)
        {
            if (((function >> row) & 1) != 0)
            {
                table |= Side(x, row & 4) & Side(y, row & 2) & Side(z, row & 1);
            }
        }
        return table;

        static BigInteger Side(BigInteger table, int one) => one != 0 ? table : All ^ table;
    }

    /// <summary>What is wrong in memory after a run; null if nothing is.</summary>
    public string? Wrong(IPlaneKernel kernel)
    {
        var memory = PlaneMemory.For(Program.Slots);
        for (var input = 0; input < Inputs; input++)
        {
            CaseSpace.FillLane(input, PlaneMemory.Plane(memory, PlaneProgram.InputSlot(input)));
        }
        kernel.Run(memory.Span);
        for (var o = 0; o < outputs.Count; o++)
        {
            var (slot, turned) = (Program.Outputs[o].Slot, Program.Outputs[o].Turned);
            if (Read(memory, slot) != (turned ? All ^ outputs[o].Table : outputs[o].Table))
            {
                return $"output {o}";
            }
        }
        for (var s = 0; s < States; s++)
        {
            if (Read(memory, PlaneProgram.InputSlot(Inputs - States + s)) != next[s].Table)
            {
                return $"state {s}";
            }
        }
        return null;
    }

    private static BigInteger Read(Memory<ulong> memory, int slot)
    {
        var table = BigInteger.Zero;
        for (var word = Cases / 64 - 1; word >= 0; word--)
        {
            table = (table << 64) | PlaneMemory.Plane(memory, slot)[word];
        }
        return table;
    }
}
