using Reckoner.Binding;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Numbers;
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

    /// <summary>A machine that does nothing, so many times as a formula with a constant says.</summary>
    private static string Idle(string constant, string rounds, string widths = "4 in 2..8") =>
        $"""
            machine idle
            width n = {widths}
            constant k = {constant}
            operand word : n
            register A : n loads word
            repeat {rounds}
              step keep
                A[0] <- A[0]
              step again
                A[0] <- A[0]
            end
            result same = A
            law same = word
            """;

    /// <summary>Numbers come of it without the constant: what stands for it is in brackets where it must be.</summary>
    [Theory]
    [InlineData("n/2", "2^k", "2 * 2^(n/2)", 2, 4, 6, 8)]
    [InlineData("2n", "k^2", "2 * (2n)^2", 2, 3, 4)]
    [InlineData("ceil(n/2)", "2k * k", "2 * (2 * ceil(n/2) * ceil(n/2))", 2, 3, 4, 5)]
    [InlineData("n - 1", "k * k", "2 * ((n - 1) * (n - 1))", 2, 3, 4, 5)]
    [InlineData("ceil(n/2)", "2k", "2 * (2 * ceil(n/2))", 2, 3, 4, 5)]
    public void Constants_are_written_out_and_mean_the_same(
        string constant,
        string rounds,
        string most,
        params int[] widths
    )
    {
        var machine = Machines.Of(Idle(constant, rounds));
        var cycles = CycleCount.Of(machine, Machines.Bound(machine))!;
        Assert.Equal(most, cycles.Most);
        var report = new Report(null);
        var formula = Parser.FormulaAlone(new Source("formula", cycles.Most), report)!;
        Assert.Empty(report.InOrder());
        foreach (var n in widths)
        {
            Assert.Equal(
                Machines.Bound(machine, n).MostCycles,
                FormulaBinding.Number(formula, new Dictionary<string, Rational> { ["n"] = n })
            );
        }
    }

    /// <summary>Each is twice the one before it: written out, the last would not fit into any memory.</summary>
    [Fact]
    public void Constants_that_grow_without_end_keep_their_names()
    {
        var constants = string.Join(
            '\n',
            Enumerable.Range(1, 60).Select(i => $"constant k{i} = k{i - 1} - k{i - 1} + 1")
        );
        var text = Idle("1", "floor(n/2) + k60").Replace("constant k = 1", "constant k0 = 1\n" + constants);
        var machine = Machines.Of(text);
        Assert.InRange(CycleCount.Of(machine, Machines.Bound(machine))!.Most.Length, 10, 4000);
    }

    /// <summary>Nothing is walked through width by width, and no end is beyond the numbers that one counts with.</summary>
    [Fact]
    public void Widths_without_an_end_to_speak_of_are_counted_as_they_are_written()
    {
        var machine = Machines.Of(Idle("n + 1", "k", "4 in 2..100000000000"));
        Assert.Equal("2 * (n + 1)", CycleCount.Of(machine, Machines.Bound(machine))!.Most);
        Assert.True(LiftedMachine.IsReached(Machines.Bound(machine)));
        Assert.Equal((2, WidthBound.Most), WidthBound.Of(machine.Widths.Single()));
    }

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
