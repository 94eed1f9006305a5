using System.Runtime.InteropServices;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Checking;
using Xunit;

namespace Reckoner.Tests.Checking;

public sealed class PlaneProgramTests
{
    private static CheckProgram Check(string machine, int width) =>
        CheckProgram.Of(
            Machine.Read(MachineCatalogue.Find(machine)!, MachineCatalogue.Find).At(width).Datapath!,
            null,
            OracleUse.Stepped
        );

    /// <summary>A full adder's sum and carry share an XOR: five operations, not six.</summary>
    [Fact]
    public void Sum_and_carry_are_spelt_with_five_operations()
    {
        var graph = new GateGraph(3);
        var (a, b, c) = (GateGraph.Input(0), GateGraph.Input(1), GateGraph.Input(2));
        var program = PlaneProgram.Of(graph, [graph.Majority(a, b, c), graph.Xor(a, b, c)]);
        Assert.Equal(2, program.Instructions.Count);
        Assert.Equal(5, TwoInputs.Spelt(new PlaneValues(program), 0, 2).Count);
    }

    [Fact]
    public void A_chain_of_ors_takes_two_inputs_a_gate()
    {
        var graph = new GateGraph(9);
        var any = Enumerable.Range(0, 9).Select(GateGraph.Input).Aggregate(GateGraph.Zero, graph.Or);
        Assert.Equal(4, PlaneProgram.Of(graph, [any]).Instructions.Count);
    }

    /// <summary>
    /// In the first cycles of a division the remainder is short. Without a borrow its upper bits stay 0, and no gates are spent
    /// on them: instead of three gates a bit and cycle, half as many and a chain of ORs.
    /// </summary>
    [Fact]
    public void Bits_that_a_condition_makes_constant_take_no_gates()
    {
        const int n = 16;
        var gates = Check("divide-shared-register", n).Program.Instructions.Count;
        Assert.InRange(gates, 1, 3 * n * (n + 1) / 2 + n * n / 4 + 12 * n);
    }

    [Fact]
    public void The_state_of_an_expectation_is_written_where_it_is_read()
    {
        var program = Check("divide-shared-register", 12).Program;
        var copies = program.Instructions.Count(i => i.Function is Lookup.Copy or Lookup.Not);
        Assert.InRange(copies, 0, 2);
    }

    [Fact]
    public void A_fault_changes_one_instruction()
    {
        var program = Check("divide-shared-register", 4).Program;
        var faulty = program.With(7, 0);
        Assert.Equal(0, faulty.Instructions[7].Function);
        Assert.Equal(1, program.Instructions.Zip(faulty.Instructions).Count(x => x.First != x.Second));
    }

    [Fact]
    public void Planes_begin_on_cache_lines()
    {
        var memory = PlaneMemory.For(5);
        var address = MemoryMarshal.TryGetArray<ulong>(memory, out var array)
            ? Marshal.UnsafeAddrOfPinnedArrayElement(array.Array!, array.Offset)
            : throw new InvalidOperationException();
        Assert.Equal(0, address % 64);
        Assert.Equal(5 * PlaneMemory.Stride, memory.Length);
        Assert.Equal(0, PlaneMemory.Stride % 8);
    }
}
