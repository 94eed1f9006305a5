using System.Diagnostics;
using Reckoner.Datapaths;
using Reckoner.Hdl;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests.Hdl;

/// <summary>
/// What is handed out as hardware text, read and run by programs that are not ours: Icarus Verilog, Verilator, Yosys and GHDL of Debian.
/// </summary>
public sealed class HdlBenchTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-hdl-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    /// <summary>A tenth of the catalogue, another in each run.</summary>
    [Fact]
    public void Icarus_finds_a_tenth_of_the_catalogue_as_it_walks()
    {
        var seed = Seeds.Next();
        foreach (var name in Machines.Catalogue.Where((_, i) => i % 10 == (uint)seed % 10))
        {
            Seeds.Told(seed, name, () => Icarus(Written(Narrow(name), HdlLanguage.Verilog)));
        }
    }

    public static TheoryData<string> Catalogue => [.. Machines.Catalogue];

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Catalogue))]
    public void Icarus_finds_every_machine_as_it_walks(string name)
    {
        Icarus(Written(Machines.Bound(Machines.Named(name)), HdlLanguage.Verilog));
        Icarus(Written(Narrow(name), HdlLanguage.Verilog));
    }

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Catalogue))]
    public void Ghdl_finds_every_machine_as_it_walks(string name)
    {
        Ghdl(Written(Machines.Bound(Machines.Named(name)), HdlLanguage.Vhdl));
        Ghdl(Written(Narrow(name), HdlLanguage.Vhdl));
    }

    /// <summary>The only thing that it is told to overlook is said beside it: places that the description does not read.</summary>
    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Catalogue))]
    public void Verilator_has_nothing_to_remark(string name)
    {
        var files = Written(Machines.Bound(Machines.Named(name)), HdlLanguage.Verilog);
        Assert.Equal("", Ran("verilator", "--lint-only", "-Wall", files.Names.Module));
    }

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Catalogue))]
    public void Yosys_finds_no_latch(string name)
    {
        var files = Written(Machines.Bound(Machines.Named(name)), HdlLanguage.Verilog);
        var script =
            $"read_verilog {files.Names.Module}; hierarchy -auto-top; proc; opt; check -assert; "
            + "select -assert-none t:$dlatch";
        Assert.Equal("", Ran("yosys", "-q", "-p", script));
    }

    /// <summary>Machines of every construct, drawn by lot.</summary>
    [Theory]
    [InlineData(6)]
    [Trait("Length", "long")]
    public void Both_find_drawn_machines_as_they_walk(int minutes)
    {
        var first = Seeds.Next();
        var until = DateTime.UtcNow.AddMinutes(minutes);
        var tried = 0;
        for (var seed = first; tried < 20 || (tried < 400 && DateTime.UtcNow < until); seed++, tried++)
        {
            var drawn = RandomMachine.SmallOf(seed);
            var (datapath, _) = Machines.Of(drawn.Text, [.. drawn.Beside]).At();
            Seeds.Told(
                seed,
                drawn.Whole,
                () =>
                {
                    Icarus(Written(datapath!, HdlLanguage.Verilog));
                    Ghdl(Written(datapath!, HdlLanguage.Vhdl));
                }
            );
        }
        TestContext.Current.SendDiagnosticMessage($"{tried} machines from seed {first}");
    }

    public static TheoryData<string, string> Faults =>
        new()
        {
            { "borrow = R[7:4] < D;", "borrow = R[7:4] <= D;" },
            { "if (~borrow) begin", "if (borrow) begin" },
            { "Q_next = {Q[2:0], ~borrow};", "Q_next = {Q[2:0], borrow};" },
            { "then_round = turn + 3'd1;", "then_round = turn + 3'd2;" },
            { "D_next = divisor;", "D_next = dividend;" },
            { "at <= (reset || cancel) ? at_rest : then_at;", "at <= reset ? at_rest : then_at;" },
            { "at <= (reset || cancel) ? at_rest : then_at;", "at <= cancel ? at_rest : then_at;" },
            { "default: if (start) begin", "default: begin" },
            { "assign done = here == at_end;", "assign done = here != at_step_1;" },
            { "R_next = {4'b0000, dividend};", "R_next = {R[7:4], dividend};" },
            { "D <= D_next;", "D <= divisor;" },
            { "assign busy = here != at_rest && here != at_end;", "assign busy = 1'b0;" },
            { "assign busy = here != at_rest && here != at_end;", "assign busy = here != at_rest;" },
            {
                "at <= (reset || cancel) ? at_rest : then_at;",
                "at <= (reset || (cancel && round < 2)) ? at_rest : then_at;"
            },
            {
                "at <= (reset || cancel) ? at_rest : then_at;",
                "at <= (cancel || (reset && round < 2)) ? at_rest : then_at;"
            },
        };

    [Theory]
    [MemberData(nameof(Faults))]
    public void A_fault_in_the_module_fails_on_the_bench(string right, string wrong)
    {
        var files = Written(Machines.Bound(Machines.Named("divide-still-divisor"), 4), HdlLanguage.Verilog);
        var module = Path.Combine(folder, files.Names.Module);
        Assert.Contains(right, files.ModuleText, StringComparison.Ordinal);
        File.WriteAllText(module, files.ModuleText.Replace(right, wrong, StringComparison.Ordinal));
        var (status, output) = Icarus(files, mustPass: false);
        Assert.NotEqual(0, status);
        Assert.Contains("FAILED", output, StringComparison.Ordinal);
    }

    /// <summary>Vectors that are missing, cut off or no binary digits are no operations that went well.</summary>
    [Theory]
    [InlineData(0, false)]
    [InlineData(20, false)]
    [InlineData(64, true)]
    public void Vectors_that_are_not_all_there_fail_in_both_languages(int lines, bool isTorn)
    {
        foreach (var language in Enum.GetValues<HdlLanguage>())
        {
            var files = Written(Machines.Bound(Machines.Named("divide-still-divisor"), 3), language);
            var all = files.All.Single(f => f.Name == files.Names.Operations).Text.Split('\n');
            Assert.Equal(64 + 1, all.Length);
            var kept = string.Join('\n', all.Take(lines).Append(""));
            File.WriteAllText(
                Path.Combine(folder, files.Names.Operations),
                isTorn ? kept.Remove(kept.Length - 2, 1).Insert(kept.Length - 2, "x") : kept
            );
            var (status, output) =
                language is HdlLanguage.Verilog ? Icarus(files, mustPass: false) : Ghdl(files, false);
            Assert.NotEqual(0, status);
            Assert.Contains("FAILED", output, StringComparison.Ordinal);
            Assert.DoesNotContain("PASSED", output, StringComparison.Ordinal);
        }
    }

    /// <summary>What is wrong first is told with the operands and with why, also after what was dropped.</summary>
    [Theory]
    [InlineData("Q_next = {Q[2:0], ~borrow};", "Q_next = {Q[2:0], borrow};", "the results; operands ")]
    [InlineData(
        "at <= (reset || cancel) ? at_rest : then_at;",
        "at <= reset ? at_rest : then_at;",
        "after cancel it does not rest; operands "
    )]
    public void The_bench_says_why(string right, string wrong, string why)
    {
        var files = Written(Machines.Bound(Machines.Named("divide-still-divisor"), 4), HdlLanguage.Verilog);
        var changed = files.ModuleText.Replace(right, wrong, StringComparison.Ordinal);
        File.WriteAllText(Path.Combine(folder, files.Names.Module), changed);
        Assert.Contains(why, Icarus(files, mustPass: false).Output, StringComparison.Ordinal);
    }

    private const string Ordering = """
        machine ordering
        title "verilator lint_off WIDTH"
        width n = 3 in 1..4
        operand word : n
        register A "synopsys translate_off" : n loads word
        register B "Pragma translate_off" : n loads 0
        step move
          note "synthesis translate_off"
          B <- A
        result same = B
        law same = word
        """;

    /// <summary>Words of a description that tools would take for orders do not change what they read.</summary>
    [Fact]
    public void A_comment_orders_nothing()
    {
        foreach (var language in Enum.GetValues<HdlLanguage>())
        {
            var files = Written(Machines.Bound(Ordering), language);
            Assert.Contains("translate_off", files.ModuleText, StringComparison.Ordinal);
            Assert.Matches(
                "^(?s)(?!.*(//|--) *(?i:synopsys|verilator|pragma|synthesis)\\b).*$",
                files.ModuleText + files.BenchText
            );
            if (language is HdlLanguage.Verilog)
            {
                Icarus(files);
                Assert.Equal(
                    "",
                    Ran("yosys", "-q", "-p", $"read_verilog {files.Names.Module}; hierarchy -auto-top; proc")
                );
            }
            else
            {
                Assert.SkipUnless(IsHere("ghdl"), "not applicable: ghdl is missing");
                Ghdl(files);
            }
        }
    }

    [Theory]
    [InlineData("divide-still-divisor", "1")]
    [InlineData("divide-still-divisor", "control")]
    [InlineData("multiply-in-steps", "shift")]
    [InlineData("divide-early-out", "control")]
    public void A_gap_fails_on_the_bench_until_it_is_filled(string name, string piece)
    {
        var datapath = Narrow(name);
        var gap = HdlGap.Of(datapath).Single(g => g.Name == piece).Gap;
        var files = HdlFiles.Of(datapath, HdlLanguage.Verilog, Vocabulary.English, gap);
        var whole = Written(datapath, HdlLanguage.Verilog);
        Assert.Equal(whole.BenchText, files.BenchText);
        Assert.Contains("TO FILL IN", files.ModuleText, StringComparison.Ordinal);
        // What is left out is read by the description all the same.
        Assert.Equal(Unread(whole.ModuleText), Unread(files.ModuleText));
        Icarus(whole);
        File.WriteAllText(Path.Combine(folder, files.Names.Module), files.ModuleText);
        var (status, output) = Icarus(files, mustPass: false);
        Assert.NotEqual(0, status);
        Assert.Contains("first wrong: line", output, StringComparison.Ordinal);
    }

    /// <summary>A thousand operations of more gates than these take a simulator half a minute; the long run has them.</summary>
    private static bool IsSmall(string name) => Costing.Costs.Of(Narrow(name), Costing.AdderKind.Ripple).Area <= 1000;

    /// <summary>A few machines with adders drawn by lot, every unit as gates: the bench cannot tell them from what is described.</summary>
    [Fact]
    public void Icarus_finds_machines_as_they_are_built_as_they_walk()
    {
        var seed = Seeds.Next();
        var random = new Random(seed);
        foreach (var name in Machines.Catalogue.OrderBy(_ => random.Next()).Where(IsSmall).Take(5))
        {
            var adder = Costing.Adders.All[random.Next(Costing.Adders.All.Count)];
            Seeds.Told(seed, $"{name} {adder}", () => Icarus(Built(Narrow(name), adder)));
        }
    }

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Catalogue))]
    public void Icarus_finds_every_machine_as_it_is_built_as_it_walks(string name)
    {
        foreach (var adder in Costing.Adders.All)
        {
            Icarus(Built(Narrow(name), adder));
        }
    }

    private HdlFiles Built(Datapath datapath, Costing.AdderKind adder) =>
        Written(HdlFiles.Of(datapath, HdlLanguage.Verilog, Vocabulary.English, built: new Costing.AdderChoice(adder)));

    private static int Unread(string module) => module.Split("not read:").Length;

    /// <summary>It is built as it is described, and the bench says that this breaks a law.</summary>
    [Fact]
    public void A_machine_that_is_wrong_is_said_to_be()
    {
        var (_, output) = Icarus(Written(Machines.Bound(Machines.Named("divide-overshoot"), 4), HdlLanguage.Verilog));
        Assert.Contains("operations break a law of the description", output, StringComparison.Ordinal);
    }

    /// <summary>Names that mean something in the one language or the other, that differ in capitals alone, of other alphabets, ours.</summary>
    private const string OddNames = """
        machine signal
        width n = 3 in 1..4
        operand Start : n
        operand read : n
        operand number : n
        register reg : n loads Start
        register REG : n loads read
        register resize : n loads 0
        register parted_7 : 1 loads 0
        register größe : n loads number
        register next : n loads 0
        repeat n
          let wire, busy = reg + REG
          next <- wire
          reg <- größe
          parted_7:resize <- shl(parted_7:resize, 1)
        end
        result reset = next
        result line = resize
        """;

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Names_that_a_language_cannot_take_become_others(bool isVhdl)
    {
        var language = isVhdl ? HdlLanguage.Vhdl : HdlLanguage.Verilog;
        var files = Written(Machines.Bound(OddNames), language);
        foreach (
            var name in new[] { "Start", "read", "resize", "reg", "größe", "next", "wire", "busy", "reset", "line" }
        )
        {
            Assert.Contains(files.Module.Changed, c => c.Wanted == name);
        }
        if (!isVhdl)
        {
            Icarus(files);
        }
        else
        {
            Assert.SkipUnless(IsHere("ghdl"), "not applicable: ghdl is missing");
            Ghdl(files);
        }
    }

    private static Datapath Narrow(string name)
    {
        var machine = Machines.Named(name);
        return Machines.Bound(machine, Math.Max(3, Machines.Range(machine).Low));
    }

    private HdlFiles Written(Datapath datapath, HdlLanguage language) =>
        Written(HdlFiles.Of(datapath, language, Vocabulary.English));

    private HdlFiles Written(HdlFiles files)
    {
        foreach (var (name, text) in files.All)
        {
            File.WriteAllText(Path.Combine(folder, name), text);
        }
        return files;
    }

    private (int Status, string Output) Icarus(HdlFiles files, bool mustPass = true)
    {
        Assert.Equal(
            "",
            Ran("iverilog", "-g2005", "-Wall", "-Wno-timescale", "-o", "bench", files.Names.Module, files.Names.Bench)
        );
        var (status, output, errors) = Child.Run(In("vvp", "-n", "bench"));
        Assert.True(!mustPass || (status == 0 && output.Contains("PASSED")), output + errors);
        return (status, output);
    }

    private (int Status, string Output) Ghdl(HdlFiles files, bool mustPass = true)
    {
        var bench = Path.GetFileNameWithoutExtension(files.Names.Bench);
        Assert.Equal("", Ran("ghdl", "-a", "--std=08", files.Names.Module));
        Assert.Equal("", Ran("ghdl", "-a", "--std=08", files.Names.Bench));
        Assert.Equal("", Ran("ghdl", "-e", "--std=08", bench));
        var (status, output, errors) = Child.Run(In("ghdl", "-r", "--std=08", bench));
        var said = output + errors;
        Assert.True(!mustPass || (status == 0 && said.Contains("PASSED") && !said.Contains("warning")), said);
        return (status, said);
    }

    private string Ran(string name, params IReadOnlyList<string> arguments)
    {
        Assert.SkipUnless(IsHere(name), $"not applicable: {name} is missing");
        var (status, output, errors) = Child.Run(In(name, [.. arguments]));
        Assert.True(status == 0, $"{name}: {output}{errors}");
        return output + errors;
    }

    private ProcessStartInfo In(string program, params IReadOnlyList<string> arguments) =>
        new(program, arguments) { WorkingDirectory = folder };

    private static bool IsHere(string name) =>
        (Environment.GetEnvironmentVariable("PATH") ?? "")
            .Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries)
            .Any(path => File.Exists(Path.Combine(path, name)));
}
