using Reckoner.Checking;
using Reckoner.Timelines;
using Xunit;

namespace Reckoner.Engines.Tests;

/// <summary>
/// Whether the engines can be trusted: a divider and two multipliers, whole and with every single-gate fault, get the same
/// verdict, count and smallest failing operands from all of them.
/// </summary>
public sealed class EngineSelfTests
{
    private const int Width = 5;

    public static TheoryData<string> Tried => ["divide-shared-register", "multiply-shared-register", "multiply-booth"];

    private static CheckProgram Check(string machine, OracleUse use = OracleUse.Stepped) =>
        CheckProgram.Of(Machines.At(machine, Width), null, use);

    [Theory]
    [MemberData(nameof(Tried))]
    public void Every_engine_judges_every_fault_alike(string machine)
    {
        var faulty = Faults.Of(Check(machine)).ToList();
        var expected = faulty.Select(f => Runs.Line(f, Runs.Engines[0])).ToList();
        Assert.True(expected.Distinct().Count() > 50, "the faults do not differ enough to tell engines apart");
        foreach (var engine in Runs.Engines.Skip(1))
        {
            Assert.Equal(expected, faulty.Select(f => Runs.Line(f, engine)));
        }
    }

    [Theory]
    [MemberData(nameof(Tried))]
    public void So_does_the_worker_under_node(string machine)
    {
        Node.SkipWhenMissing();
        var faulty = Faults.Of(Check(machine)).Prepend(Check(machine)).ToList();
        Assert.Equal(faulty.Select(f => Runs.Line(f, Runs.Engines[0])), Node.Lines(faulty));
    }

    [Theory]
    [MemberData(nameof(Tried))]
    public void The_whole_machine_gets_what_walking_every_operand_gives(string machine)
    {
        var walked = Machines.Line(Machines.Walked(Machines.At(machine, Width)));
        Assert.All(
            Runs.Engines,
            engine =>
            {
                Assert.Equal(walked, Runs.Line(Check(machine), engine));
                Assert.Equal(walked, Runs.Line(Check(machine, OracleUse.Written), engine));
            }
        );
    }

    /// <summary>
    /// A fault among the machine's gates changes its results alone, so that laws written out and expectations stepped along must
    /// count the same failures. That does not follow for a fault among the gates of an expectation, which then expects something
    /// else; nor for a gate that machine and expectation share, so faults are put in before the two are joined.
    /// </summary>
    [Theory]
    [MemberData(nameof(Tried))]
    public void Both_expectations_judge_every_fault_of_the_machine_alike(string machine)
    {
        var datapath = Machines.At(machine, Width);
        var gates = MachineGates(machine);
        var engine = Runs.Engines[^1] is EmittedEngine ? new InterpretedEngine(64) : Runs.Engines[^1];
        var wrong = 0;
        for (var gate = 0; gate < gates.Count; gate++)
        {
            foreach (var function in Faults.Of(gates[gate].Function))
            {
                var fault = new GateFault(gate, function);
                var stepped = Runs.Line(CheckProgram.Of(datapath, null, OracleUse.Stepped, fault), engine);
                Assert.Equal(Runs.Line(CheckProgram.Of(datapath, null, OracleUse.Written, fault), engine), stepped);
                wrong += stepped.Contains("smallest") ? 1 : 0;
            }
        }
        Assert.True(wrong > 2 * gates.Count, $"only {wrong} faults of {gates.Count} gates show in the results");
    }

    /// <summary>At 7 bits there are several steps, so that expectations really move on; every eleventh gate is spoilt.</summary>
    [Theory]
    [MemberData(nameof(Tried))]
    public void They_do_so_over_several_steps(string machine)
    {
        var datapath = Machines.At(machine, 7);
        Assert.True(new CaseSpace(datapath.Operands).Steps > 1);
        var gates = MachineGates(machine, 7);
        var wrong = 0;
        for (var gate = 0; gate < gates.Count; gate += 11)
        {
            var fault = new GateFault(gate, Faults.Of(gates[gate].Function).First());
            var stepped = Runs.Line(CheckProgram.Of(datapath, null, OracleUse.Stepped, fault), Runs.Engines[0]);
            Assert.Equal(
                Runs.Line(CheckProgram.Of(datapath, null, OracleUse.Written, fault), Runs.Engines[0]),
                stepped
            );
            wrong += stepped.Contains("smallest") ? 1 : 0;
        }
        Assert.True(wrong > gates.Count / 22, $"only {wrong} faults show");
    }

    private static IReadOnlyList<Gate> MachineGates(string machine, int width = Width)
    {
        var datapath = Machines.At(machine, width);
        var space = new CaseSpace(datapath.Operands);
        var graph = new GateGraph(space.Bits);
        _ = new Planes(graph, Timeline.Of(datapath).Graph, CheckProgram.OperandLiterals(datapath.Operands));
        return graph.Gates;
    }

    /// <summary>An engine in whose table of lookups one entry is wrong.</summary>
    private sealed class BrokenEngine(byte function, byte taken) : IPlaneEngine
    {
        public string Name => $"takes {function:X2} for {taken:X2}";

        public IPlaneKernel Compile(PlaneProgram program)
        {
            for (var i = 0; i < program.Instructions.Count; i++)
            {
                program = program.Instructions[i].Function == function ? program.With(i, taken) : program;
            }
            return Runs.Engines[0].Compile(program);
        }
    }

    [Fact]
    public void An_engine_with_one_row_of_one_lookup_changed_is_caught()
    {
        // Laws written out: at this width everything is one step, in which no expectation moves on.
        CheckProgram Written(string machine) => Check(machine, OracleUse.Written);
        var faulty = Tried.SelectMany(t => Faults.Of(Written(t.Data)).Prepend(Written(t.Data))).ToList();
        var expected = faulty.Select(f => Runs.Line(f, Runs.Engines[0])).ToList();
        var used = Tried
            .SelectMany(t => Written(t.Data).Program.Instructions.Select(i => i.Function))
            .Distinct()
            .ToList();
        Assert.True(used.Count > 10);
        var occurring = faulty.SelectMany(Rows.Occurring).ToHashSet();
        Assert.True(occurring.Count > 5 * used.Count);
        foreach (var (function, row) in used.SelectMany(f => Enumerable.Range(0, 8).Select(r => (f, r))))
        {
            var broken = new BrokenEngine(function, (byte)(function ^ (1 << row)));
            var isCaught = IsCaught(broken);
            // Only a row whose inputs never come together, in any of the programs, may go unseen.
            Assert.True(isCaught == occurring.Contains((function, row)), $"{broken.Name}: caught {isCaught}");
        }

        bool IsCaught(BrokenEngine broken) => faulty.Zip(expected).Any(x => Runs.Line(x.First, broken) != x.Second);
    }
}
