using Reckoner.Checking;
using Reckoner.Choosing;
using Reckoner.Notation;
using Reckoner.Slips;
using Xunit;

namespace Reckoner.Tests.Slips;

/// <summary>Machines in which hardly anything happens have slips as well, or none.</summary>
public class BareMachinesTests
{
    [Theory]
    [InlineData("", "slip results-early")]
    [InlineData("hold", "slip results-early")]
    [InlineData("note \"nothing happens\"", "slip results-early")]
    [InlineData("then\nA <- shl(A, B[0])\nthen", "slip results-early")]
    [InlineData("then\nthen", "slip results-early")]
    public void A_step_that_begins_with_nothing_is_no_hindrance(string first, string name)
    {
        var datapath = Machines.Bound(
            $"""
            machine bare
            width n = 2 in 2..4
            operand a : n
            operand b : n
            register A : n loads a
            register B : n loads b
            step first
            {first}
            step second
              B <- A
              then
              A <- B
            result c = A

            """
        );
        var study = SlipStudy.Of(datapath, InterpretedEngine.Widest, sample: null, withConditions: true);
        var twin = new SlipTwin(datapath);

        Assert.Contains(study.Slips, s => $"slip {s.Slip.Name}" == name);
        Assert.All(study.Slips, s => Assert.Equal(twin.Exposing(s.Slip).Count, s.Exposed));
        var all = Candidates.Of(datapath, InterpretedEngine.Widest, null);
        Assert.Equal(
            study.Slips.Where(s => s.Exposed > 0).Select(s => s.Slip.Name),
            new SlipSets(all).ExposingAll().Slips.Select(s => s.Slip.Name)
        );
    }

    [Fact]
    public void Without_results_no_slip_is_told_apart()
    {
        var datapath = Machines.Bound(
            "machine b\nwidth n = 2 in 2..4\noperand a : n\nregister A : n loads a\nrepeat 2\n  A <- A + 1\nend\n"
        );
        var found = new SlipSets(Candidates.Of(datapath, InterpretedEngine.Widest, null)).TellingApart();
        Assert.Empty(found.Slips);
    }

    [Fact]
    public void Where_nothing_is_loaded_nothing_can_be_exchanged()
    {
        var datapath = Machines.Bound(
            """
            machine constant
            width n = 2 in 2..4
            operand a : n
            operand b : n
            result c = 0b01

            """
        );
        var study = SlipStudy.Of(datapath, InterpretedEngine.Widest, null, withConditions: true);

        Assert.Equal(["digit-changed-c"], study.Slips.Select(s => s.Slip.Name));
    }

    /// <summary>It stood above the first line, where no description begins.</summary>
    [Fact]
    public void A_register_that_a_slip_adds_stands_above_the_cycles_where_there_is_no_other()
    {
        var machine = Machines.Of(
            "machine bare\n\nwidth n = 2 in 2..4\n\nstep only\n  let sum, carry = 0b01 + 0b11\n  note \"{}\"\n"
        );
        var slip = Slip.Of(machine).Single(s => s.Name == "carry-stale-carry");
        var text = Printer.Text(slip.Machine.Description);
        Assert.StartsWith(
            "machine bare\n\nwidth n = 2 in 2..4\n\nregister carry_before : 1 loads 0\n\nstep only\n",
            text
        );
        Assert.Equal(text, Printer.Text(Machines.Of(text).Description));
    }

    /// <summary>A slip that makes a result narrower is not made, so that it cannot be asked for either.</summary>
    [Fact]
    public void Exactly_the_slips_that_are_made_count_as_listed()
    {
        var right = Machines.Bound(Machines.Named("divide-shared-register"), 4);
        var made = SlipStudy.Built(right);
        Assert.True(SlipStudy.IsListed(right, out _));
        Assert.All(made, slip => Assert.True(SlipStudy.IsListed(slip.Datapath, out _)));

        var text = Printer
            .Text(right.Machine.Description)
            .Replace("\"Rest\" = left\n", "\"Rest\" = left[n-2..0]\n", StringComparison.Ordinal);
        var narrower = right.Machine.With(Machines.Of(text).Description, "result-narrow");
        Assert.False(
            SlipStudy.IsListed(narrower.Built(right.Widths.ToDictionary(w => w.Name, w => w.Value))!, out var listed)
        );
        Assert.Equal(made.Select(m => m.Slip.Name), listed);
    }
}
