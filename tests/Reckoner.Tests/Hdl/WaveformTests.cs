using System.Diagnostics;
using System.Numerics;
using Reckoner.Hdl;
using Reckoner.Running;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests.Hdl;

/// <summary>A walk as waveforms: what a reader finds at each rise of the clock is what the walk says, and what Icarus dumps of the module.</summary>
public sealed class WaveformTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-waves-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    public static TheoryData<string> Catalogue => [.. Machines.Catalogue];

    [Theory]
    [MemberData(nameof(Catalogue))]
    public void The_registers_behind_every_edge_are_those_of_the_walk(string name)
    {
        var walk = Of(name);
        var dump = DumpReader.Read(Written(walk));
        // The last edge is the one that ends the cycle called done.
        Assert.Equal(walk.Rows.Count + 1, dump.Edges.Count);
        foreach (var (row, edge) in walk.Rows.Zip(dump.Edges))
        {
            Assert.Equal(
                walk.Datapath.Registers.Select(r => row.Registers[r.Index].ToString()),
                walk.Datapath.Registers.Select(r => edge[r.Name])
            );
            Assert.Equal(row.Cycle == walk.Cycles ? "1" : "0", edge["done"]);
        }
    }

    [Fact]
    public void Values_are_known_where_the_walk_names_them()
    {
        var walk = Walk.Of(Machines.Bound(Machines.Named("divide-still-divisor"), 5), [29, 6]);
        var dump = DumpReader.Read(Written(walk));
        Assert.Equal("x", dump.Edges[^2]["difference"]);
        foreach (var row in walk.Rows.Skip(1))
        {
            var named = row.Moments.SelectMany(m => m.Values).Last(v => v.Wire.Name == "difference");
            // It stands before the edge of its row, so behind the one before.
            Assert.Equal(named.Bits.ToString(), dump.Edges[row.Cycle - 1]["difference"]);
        }
    }

    [Theory]
    [InlineData("divide-still-divisor")]
    [InlineData("multiply-in-steps")]
    [InlineData("divide-early-out")]
    [InlineData("multiply-booth-radix-4")]
    public void Icarus_dumps_the_same_registers(string name)
    {
        var walk = Of(name);
        var files = HdlFiles.Of(walk.Datapath, HdlLanguage.Verilog, Vocabulary.English);
        File.WriteAllText(Path.Combine(folder, "module.v"), files.ModuleText);
        File.WriteAllText(Path.Combine(folder, "top.v"), Top(files.Module, walk));
        Ran("iverilog", "-g2005", "-o", "top", "module.v", "top.v");
        Ran("vvp", "-n", "top");
        var theirs = DumpReader.Read(File.ReadAllText(Path.Combine(folder, "theirs.vcd")));
        var ours = DumpReader.Read(Written(walk));
        // A name that Verilog cannot take is another there.
        Assert.Equal(
            ours.Edges.Select(e => string.Join(' ', files.Module.Registers.Select(r => e[r.Register.Name]))),
            theirs.Edges.Skip(1).Select(e => string.Join(' ', files.Module.Registers.Select(r => e[r.Name])))
        );
    }

    private static Walk Of(string name)
    {
        var datapath = Machines.Bound(Machines.Named(name));
        return Walk.Of(
            datapath,
            [
                .. datapath.Operands.Select(o =>
                    (BigInteger)(0b1011_0110_1101 >> o.Index) & ((BigInteger.One << o.Width) - 1)
                ),
            ]
        );
    }

    private static string Written(Walk walk)
    {
        var text = new StringWriter();
        Waveform.Write(text, walk, HdlHead.Of(walk.Datapath, Vocabulary.English));
        return text.ToString();
    }

    /// <summary>One edge of reset, then one operation.</summary>
    private static string Top(HdlModule module, Walk walk)
    {
        var operands = module.Operands.Select((o, i) => $".{o.Name}({o.Width}'d{walk.Operands[i]})");
        return $"""
            module top;
              reg clock = 0, reset = 1, start = 0;
              always #5 clock = !clock;
              {module.Name} device (.clock(clock), .reset(reset), .start(start), .cancel(1'b0), {string.Join(
                ", ",
                operands
            )});
              initial begin
                $dumpfile("theirs.vcd");
                $dumpvars(1, device);
                @(negedge clock) reset = 0; start = 1;
                @(negedge clock) start = 0;
                repeat ({walk.Cycles + 1}) @(negedge clock);
                $finish;
              end
            endmodule

            """;
    }

    private void Ran(string name, params IReadOnlyList<string> arguments)
    {
        var isHere = (Environment.GetEnvironmentVariable("PATH") ?? "")
            .Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries)
            .Any(path => File.Exists(Path.Combine(path, name)));
        Assert.SkipUnless(isHere, $"not applicable: {name} is missing");
        var (status, output, errors) = Child.Run(new ProcessStartInfo(name, arguments) { WorkingDirectory = folder });
        Assert.True(status == 0, $"{name}: {output}{errors}");
    }
}
