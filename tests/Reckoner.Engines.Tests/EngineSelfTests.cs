using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Timelines;
using Xunit;

namespace Reckoner.Engines.Tests;

/// <summary>
/// Whether the engines can be trusted: a divider and two multipliers, whole and with every single-gate fault, get the same
/// verdict, count and smallest failing operands from all of them.
/// </summary>
public sealed class EngineSelfTests
{
    /// <summary>Faults are as many as gates, and each is run through all of them.</summary>
    private const int Width = 4;

    /// <summary>In the quick run every engine meets one fault of so many.</summary>
    private const int OneOf = 5;

    /// <summary>The same again at the next width, where that takes three times as long.</summary>
    private const int LongWidth = 5;

    public static TheoryData<string> Tried => ["divide-shared-register", "multiply-shared-register", "multiply-booth"];

    private static CheckProgram Check(string machine, int width, OracleUse use = OracleUse.Stepped) =>
        CheckProgram.Of(Machines.At(machine, width), null, use);

    [Theory]
    [MemberData(nameof(Tried))]
    public void Every_engine_judges_faults_alike(string machine) => Alike(machine, Width, OneOf);

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Tried))]
    public void Every_engine_judges_every_fault_alike(string machine) => Alike(machine, Width, 1);

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Tried))]
    public void Every_engine_judges_every_fault_alike_at_the_next_width(string machine) => Alike(machine, LongWidth, 1);

    private static void Alike(string machine, int width, int oneOf)
    {
        var faulty = Faults.Of(Check(machine, width)).Where((_, i) => i % oneOf == 0).ToList();
        var expected = faulty.Select(f => Runs.Line(f, Runs.Engines[0])).ToList();
        Assert.True(expected.Distinct().Count() > 50 / oneOf, "the faults do not differ enough to tell engines apart");
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
        var faulty = Faults.Of(Check(machine, Width)).Prepend(Check(machine, Width)).ToList();
        Assert.Equal(faulty.Select(f => Runs.Line(f, Runs.Engines[0])), Node.Lines(faulty));
    }

    [Theory]
    [MemberData(nameof(Tried))]
    public void The_whole_machine_gets_what_walking_every_operand_gives(string machine)
    {
        var walked = Machines.Line(Machines.Walked(Machines.At(machine, LongWidth)));
        Assert.Equal(walked, new CaseByCase(Machines.At(machine, LongWidth)).Line());
        Assert.All(
            Runs.Engines,
            engine =>
            {
                Assert.Equal(walked, Runs.Line(Check(machine, LongWidth), engine));
                Assert.Equal(walked, Runs.Line(Check(machine, LongWidth, OracleUse.Written), engine));
            }
        );
    }

    /// <summary>
    /// A fault among the machine's gates changes its results alone, so that laws written out, expectations stepped along and
    /// laws judged on numbers must count the same failures. That does not follow for a fault among the gates of an expectation,
    /// which then expects something else; nor for a gate that machine and expectation share, so faults are put in before the
    /// two are joined. Engines take turns; all of them see every gate of these checks in the test above.
    /// </summary>
    [Theory]
    [MemberData(nameof(Tried))]
    public void Both_expectations_count_for_faults_what_going_case_by_case_counts(string machine) =>
        CaseByCaseAgrees(machine, Width, OneOf);

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Tried))]
    public void Both_expectations_count_for_every_fault_what_going_case_by_case_counts(string machine) =>
        CaseByCaseAgrees(machine, Width, 1);

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Tried))]
    public void Both_expectations_count_the_same_at_the_next_width(string machine) =>
        CaseByCaseAgrees(machine, LongWidth, 1);

    private static void CaseByCaseAgrees(string machine, int width, int oneOf)
    {
        var datapath = Machines.At(machine, width);
        var slow = new CaseByCase(datapath);
        var turn = 0;
        var wrong = 0;
        foreach (var fault in FaultsOf(slow.Gates).Where((_, i) => i % oneOf == 0))
        {
            var engine = Runs.Engines[turn++ % Runs.Engines.Count];
            var expected = slow.Line(fault);
            foreach (var use in Enum.GetValues<OracleUse>())
            {
                Assert.Equal(expected, Runs.Line(CheckProgram.Of(datapath, null, use, fault), engine));
            }
            wrong += expected.Contains("smallest") ? 1 : 0;
        }
        Assert.True(
            wrong > 2 * slow.Gates.Count / oneOf,
            $"only {wrong} faults of {slow.Gates.Count} gates show in the results"
        );
    }

    /// <summary>The same without turns: every engine and both expectations for every fault.</summary>
    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Tried))]
    public void So_does_every_engine_with_either(string machine)
    {
        Node.SkipWhenMissing();
        var datapath = Machines.At(machine, LongWidth);
        var slow = new CaseByCase(datapath);
        var faults = FaultsOf(slow.Gates).ToList();
        var expected = faults.Select(f => slow.Line(f)).ToList();
        foreach (var use in Enum.GetValues<OracleUse>())
        {
            var checks = faults.Select(f => CheckProgram.Of(datapath, null, use, f)).ToList();
            Assert.All(Runs.Engines, engine => Assert.Equal(expected, checks.Select(c => Runs.Line(c, engine))));
            Assert.Equal(expected, Node.Lines(checks));
        }
    }

    private static IEnumerable<GateFault> FaultsOf(IReadOnlyList<Gate> gates) =>
        gates.SelectMany((gate, i) => Faults.Of(gate.Function).Select(function => new GateFault(i, function)));

    /// <summary>At 7 bits there are several steps, so that expectations really move on; every eleventh gate is spoilt.</summary>
    [Theory]
    [MemberData(nameof(Tried))]
    public void They_do_so_over_several_steps(string machine)
    {
        Node.SkipWhenMissing();
        var datapath = Machines.At(machine, 7);
        Assert.True(new CaseSpace(datapath.Operands).Steps > 1);
        var faults = FaultsOf(MachineGates(datapath)).Where(f => f.Gate % 11 == 0).DistinctBy(f => f.Gate).ToList();
        var written = faults.Select(f => CheckProgram.Of(datapath, null, OracleUse.Written, f)).ToList();
        var expected = written.Select(c => Runs.Line(c, Runs.Engines[0])).ToList();
        var wrong = expected.Count(e => e.Contains("smallest"));
        Assert.True(wrong > faults.Count / 2, $"only {wrong} of {faults.Count} faults show");
        var stepped = faults.Select(f => CheckProgram.Of(datapath, null, OracleUse.Stepped, f)).ToList();
        Assert.All(Runs.Engines, engine => Assert.Equal(expected, stepped.Select(c => Runs.Line(c, engine))));
        Assert.Equal(expected, Node.Lines(stepped));
    }

    private static IReadOnlyList<Gate> MachineGates(Datapath datapath)
    {
        var graph = new GateGraph(new CaseSpace(datapath.Operands).Bits);
        _ = new Planes(graph, Timeline.Of(datapath).Graph, Checking.MachineGates.OperandLiterals(datapath.Operands));
        return graph.Gates;
    }

    /// <summary>An engine in whose table of lookups one entry is wrong.</summary>
    private sealed class BrokenEngine(byte function, byte taken) : IPlaneEngine
    {
        public string Name => $"takes {function:X2} for {taken:X2}";

        public IPlaneKernel Compile(PlaneProgram program)
        {
            var broken = program.Instructions.Select(i => i.Function == function ? i with { Function = taken } : i);
            return Runs.Engines[0]
                .Compile(PlaneProgram.Of(program.Inputs, program.Slots, [.. broken], program.Outputs));
        }
    }

    [Fact]
    public void An_engine_with_one_row_of_one_lookup_changed_is_caught()
    {
        // Laws written out: at this width everything is one step, in which no expectation moves on.
        CheckProgram Written(string machine) => Check(machine, Width, OracleUse.Written);
        var faulty = Tried.SelectMany(t => Faults.Of(Written(t.Data)).Prepend(Written(t.Data))).ToList();
        var judged = faulty
            .Select(f =>
                (
                    Check: f,
                    Functions: f.Program.Instructions.Select(i => i.Function).ToHashSet(),
                    Line: Runs.Line(f, Runs.Engines[0])
                )
            )
            .ToList();
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
            var isCaught = judged.Any(x => x.Functions.Contains(function) && Runs.Line(x.Check, broken) != x.Line);
            // Only a row whose inputs never come together, in any of the programs, may go unseen.
            Assert.True(isCaught == occurring.Contains((function, row)), $"{broken.Name}: caught {isCaught}");
        }
    }
}
