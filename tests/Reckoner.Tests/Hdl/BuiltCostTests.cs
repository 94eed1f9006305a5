using System.Diagnostics;
using System.Globalization;
using System.Text.RegularExpressions;
using Reckoner.Costing;
using Reckoner.Datapaths;
using Reckoner.Hdl;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests.Hdl;

/// <summary>
/// What machines cost, held against Yosys of Debian: it counts the gates of our hardware text as it is built, after "proc; flatten;
/// simplemap" and without making them anew, and follows its longest path.
/// </summary>
public sealed partial class BuiltCostTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-built-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private static readonly string[] Versions =
    [
        "divide-moving-divisor",
        "divide-still-divisor",
        "divide-shared-register",
        "divide-non-restoring",
        "multiply-moving-multiplicand",
        "multiply-still-multiplicand",
        "multiply-shared-register",
        "multiply-booth",
    ];

    /// <summary>
    /// Gates weighed as the unit-gate model weighs them. Yosys counts control and what tells choices which word it is too, so that the
    /// areas are not the same: all ratios lie within 1.5 of their median, and whatever differs by over a tenth there stands in our order.
    /// Of a path it counts the gates, an exclusive or as one like any other, so that paths that are longer there are not shorter here.
    /// It follows wires, also those of a skip adder on which no carry ever goes, so that such paths are not compared.
    /// </summary>
    [Theory]
    [Trait("Length", "long")]
    [InlineData(8, AdderKind.Ripple)]
    [InlineData(16, AdderKind.Ripple)]
    [InlineData(16, AdderKind.Sklansky)]
    [InlineData(16, AdderKind.Skip)]
    [InlineData(32, AdderKind.Ripple)]
    [InlineData(32, AdderKind.BrentKung)]
    [InlineData(32, AdderKind.KoggeStone)]
    public void Yosys_counts_in_our_order(int width, AdderKind adder)
    {
        var found = Versions.Select(name => Counted(Walks.At(name, width), adder)).ToList();
        Compared([.. found.Select(f => (f.OurArea, f.Area))], (ours, other) => ours > other);
        if (adder != AdderKind.Skip)
        {
            Compared([.. found.Select(f => (f.OurClock, f.Levels))], (ours, other) => ours >= other);
        }
    }

    private static void Compared(
        IReadOnlyList<(double Ours, double Theirs)> pairs,
        Func<double, double, bool> isInOrder
    )
    {
        var said = string.Join("; ", pairs.Select(p => $"{p.Ours} {p.Theirs}"));
        TestContext.Current.SendDiagnosticMessage(said);
        var ratios = pairs.Select(p => p.Theirs / p.Ours).Order().ToList();
        var median = (ratios[(ratios.Count - 1) / 2] + ratios[ratios.Count / 2]) / 2;
        Assert.All(ratios, r => Assert.True(r / median is > 1 / 1.5 and < 1.5, said));
        foreach (var a in pairs)
        {
            foreach (var b in pairs.Where(b => a.Theirs > 1.1 * b.Theirs))
            {
                Assert.True(isInOrder(a.Ours, b.Ours), said);
            }
        }
    }

    private (double OurArea, double Area, double OurClock, double Levels) Counted(Datapath datapath, AdderKind adder)
    {
        var files = HdlFiles.Of(datapath, HdlLanguage.Verilog, Vocabulary.English, built: new AdderChoice(adder));
        File.WriteAllText(Path.Combine(folder, files.Names.Module), files.ModuleText);
        Assert.SkipUnless(File.Exists("/usr/bin/yosys"), "not applicable: yosys is missing");
        var script =
            $"read_verilog {files.Names.Module}; hierarchy -auto-top; proc; flatten; simplemap; opt_clean; stat; ltp -noff";
        var (status, output, errors) = Child.Run(
            new ProcessStartInfo("/usr/bin/yosys", ["-p", script]) { WorkingDirectory = folder }
        );
        Assert.True(status == 0, output + errors);
        var area = 0.0;
        foreach (Match cell in Cell().Matches(output))
        {
            var count = double.Parse(cell.Groups["count"].Value, CultureInfo.InvariantCulture);
            area +=
                count
                * cell.Groups["kind"].Value switch
                {
                    "AND" or "OR" or "NAND" or "NOR" or "ANDNOT" or "ORNOT" => 1,
                    "XOR" or "XNOR" => 2,
                    "MUX" => 3,
                    "NOT" or "BUF" => 0,
                    var register when register.Contains("DFF", StringComparison.Ordinal) => 6,
                    var other => throw new InvalidOperationException($"{other} is not weighed"),
                };
        }
        var levels = double.Parse(Length().Match(output).Groups["length"].Value, CultureInfo.InvariantCulture);
        var cost = Costs.Of(datapath, adder);
        return (cost.Area, area, cost.Clock, levels);
    }

    [GeneratedRegex(
        @"^\s+(?:\$_(?<kind>[A-Z]+)\w*\s+(?<count>\d+)|(?<count>\d+)\s+\$_(?<kind>[A-Z]+)\w*)\s*$",
        RegexOptions.Multiline
    )]
    private static partial Regex Cell();

    [GeneratedRegex(@"\(length=(?<length>\d+)\)")]
    private static partial Regex Length();
}
