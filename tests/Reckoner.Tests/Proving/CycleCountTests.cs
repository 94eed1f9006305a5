using Reckoner.Binding;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Proving;
using Reckoner.Running;
using Xunit;

namespace Reckoner.Tests.Proving;

/// <summary>Formulas for cycles, read and computed by the notation's own means, are what walks take.</summary>
public class CycleCountTests
{
    public static TheoryData<string> Catalogue => [.. Machines.Catalogue];

    [Theory]
    [MemberData(nameof(Catalogue))]
    public void It_is_what_the_hardware_takes_at_every_width(string name)
    {
        var machine = Machines.Named(name);
        if (CycleCount.Of(machine, Machines.Bound(machine)) is not { } cycles)
        {
            Assert.Contains(machine.Description.Declarations, d => d is CoreBlock);
            return;
        }
        var report = new Report(null);
        var formula = Parser.FormulaAlone(new Source("formula", cycles.Most), report)!;
        Assert.Empty(report.InOrder());
        foreach (var n in Machines.Widths(machine, 9, 17, 31, 32))
        {
            var (datapath, _) = machine.At(n);
            if (datapath is not null)
            {
                Assert.Equal(datapath.MostCycles, FormulaBinding.Number(formula, datapath.Numbers));
                Assert.Equal(cycles.IsSame, !datapath.MayStopEarly);
            }
        }
    }

    [Theory]
    [InlineData("divide-shared-register", "n + 1")]
    [InlineData("multiply-booth-radix-4", "ceil(n/2)")]
    [InlineData("multiply-early-out", "n")]
    public void It_is_written_as_one_would(string name, string formula) =>
        Assert.Equal(formula, CycleCount.Of(Machines.Named(name), Machines.Bound(Machines.Named(name)))!.Most);

    /// <summary>Walked one by one, with all operands.</summary>
    [Theory]
    [InlineData("multiply-early-out")]
    [InlineData("divide-early-out")]
    public void What_was_seen_is_what_walks_take(string name)
    {
        var cycles = CycleCount.Of(Machines.Named(name), Machines.Bound(Machines.Named(name)))!;
        Assert.NotEmpty(cycles.Seen);
        foreach (var (datapath, least, most) in cycles.Seen)
        {
            var walked = Trials.All(datapath).Where(datapath.IsGiven).Select(o => Walk.Of(datapath, o).Cycles).ToList();
            Assert.Equal((walked.Min(), walked.Max()), (least, most));
        }
    }
}
