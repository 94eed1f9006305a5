using Reckoner.Classroom;
using Reckoner.Datapaths;
using Reckoner.Execution;
using Reckoner.Running;
using Reckoner.Slips;
using Xunit;

namespace Reckoner.Tests.Classroom;

/// <summary>Somebody works a walk out by hand: what is put to them, what is judged at once, what is said at the end.</summary>
public class SittingTests
{
    public static TheoryData<string> Catalogue => [.. Machines.Catalogue];

    private static Walk Divided => Walk.Of(Tests.Walks.At("divide-still-divisor", 4), [13, 4]);

    private static Sitting Begun(SittingRules? rules = null, int from = 0) =>
        new(Divided, rules ?? SittingRules.Usual, from);

    private static void Write(Sitting sitting, string register, string bits)
    {
        var found = sitting.Walk.Datapath.Registers.First(r => r.Name == register);
        for (var i = 0; i < bits.Length; i++)
        {
            sitting.Write(found, bits.Length - 1 - i, bits[i] == '1');
        }
    }

    /// <summary>Everything as it rightly is.</summary>
    private static void DoRightly(Sitting sitting)
    {
        while (sitting.Fork is { } fork)
        {
            Assert.True(sitting.Take(fork.Falls));
        }
        if (sitting.IsWriting)
        {
            foreach (var register in sitting.Put!.Asked)
            {
                Write(
                    sitting,
                    register.Name,
                    Numbers.Bits.Text(sitting.Put.Right.Registers[register.Index], register.Width)
                );
            }
            Assert.True(sitting.IsFull);
            Assert.True(sitting.HandIn()!.IsRight);
        }
        Assert.True(sitting.MayGoOn);
        sitting.GoOn();
    }

    [Theory]
    [MemberData(nameof(Catalogue))]
    public void Whoever_does_everything_rightly_comes_to_the_results(string name)
    {
        var machine = Machines.Named(name);
        var datapath = Machines.Bound(machine, Machines.Widths(machine, 5).Last());
        var operands = SampleOperands.Of(datapath, new Random(7)).First();
        foreach (var fill in Enum.GetValues<Filling>())
        {
            var sitting = new Sitting(Walk.Of(datapath, operands), new SittingRules(fill, HasHints: false));
            while (sitting.Put is { } put)
            {
                Assert.Empty(sitting.Ladder);
                Assert.All(put.Forks, f => Assert.True(f.Ways.Count > 1 && f.Falls >= 0 && f.Falls < f.Ways.Count));
                DoRightly(sitting);
            }
            Assert.Equal(sitting.Walk.Results, sitting.Results);
            var report = SittingReport.Of(sitting, new Lapses(datapath));
            Assert.Equal(
                (sitting.Walk.Cycles, sitting.Walk.Cycles, 0),
                (report.Rows, report.AtOnce, report.Causes.Count)
            );
        }
    }

    [Fact]
    public void A_decision_comes_before_the_bits_and_says_both_outcomes()
    {
        var sitting = Begun();
        Assert.Equal(
            ["too small: 0 enters", "it fits: 1 enters"],
            sitting.Fork!.Ways.Select(w => w.Phrase!.Text).Order(StringComparer.Ordinal).Reverse()
        );
        Assert.Equal(("it fits: 1 enters", 1), (sitting.Fork.Ways[0].Phrase!.Text, sitting.Fork.Falls));
        Assert.False(sitting.IsWriting);
        Assert.True(sitting.Take(1));
        Assert.True(sitting.IsWriting);
        Assert.Equal(["R", "Q"], sitting.Put!.Asked.Select(r => r.Name));
    }

    [Fact]
    public void What_is_wrong_may_be_mended_but_the_first_time_counts()
    {
        var sitting = Begun();
        sitting.Take(1);
        Write(sitting, "R", "00001010");
        Write(sitting, "Q", "0000");
        var judged = sitting.HandIn()!;
        Assert.Equal(("R", 0b0001_0000), (judged.Words[0].Register.Name, (int)judged.Words[0].Wrong));
        Assert.True(judged.Words[1].Wrong.IsZero);
        sitting.Write(judged.Words[0].Register, 4, true);
        Assert.Null(sitting.Judged);
        Assert.True(sitting.HandIn()!.IsRight);
        sitting.GoOn();
        Assert.Equal((false, true), (sitting.Rows[0].IsRightAtOnce, sitting.Rows[0].Last!.IsRight));
    }

    [Fact]
    public void Whoever_goes_on_with_a_wrong_row_is_judged_from_it()
    {
        var sitting = Begun(from: 3);
        Assert.Equal((4, 0b0110_1000), (sitting.Cycle, (int)sitting.Own[0]));
        Assert.False(sitting.Take(1));
        Write(sitting, "R", "11010000");
        Write(sitting, "Q", "0000");
        Assert.False(sitting.HandIn()!.IsRight);
        sitting.GoOn();
        Assert.Equal(0b1101_0000, (int)sitting.Own[0]);
        Assert.True(sitting.Take(0));
        Write(sitting, "R", "10010000");
        Write(sitting, "Q", "0001");
        Assert.True(sitting.HandIn()!.IsRight);
        sitting.GoOn();
        Assert.Null(sitting.Put);
        Assert.Equal([1, 9], sitting.Results.Select(r => (int)r));
        var report = SittingReport.Of(sitting, new Lapses(sitting.Walk.Datapath));
        Assert.Equal((2, 1, 1), (report.Rows, report.AtOnce, report.DecisionsMissed));
        var missed = Assert.Single(report.Causes);
        Assert.Equal((CauseKind.Decision, 4), (missed.Kind, Assert.Single(missed.Cycles)));
    }

    [Fact]
    public void The_ladder_ends_in_the_row_which_then_was_not_worked_out()
    {
        var sitting = Begun();
        Assert.Equal([Hint.Acting, Hint.Units, Hint.Row], sitting.Ladder);
        sitting.TakeHint();
        sitting.TakeHint();
        Assert.Equal([Hint.Acting, Hint.Units], sitting.Given);
        Assert.NotNull(sitting.Fork);
        sitting.TakeHint();
        Assert.Null(sitting.Fork);
        Assert.True(sitting.MayGoOn);
        sitting.GoOn();
        Assert.Equal((3, true, false), (sitting.Rows[0].Hints, sitting.Rows[0].IsTold, sitting.Rows[0].IsRightAtOnce));
        Assert.Equal(sitting.Walk.Rows[1].Registers, sitting.Own);
    }

    [Theory]
    [InlineData("00001101", "0000", "Slip", "guard-never-not-last")]
    [InlineData("00011011", "0000", "Slip", "other-bit-enters-R")]
    [InlineData("00011010", "0100", "OneBit", null)]
    [InlineData("00011010", "1000", "OneBit", null)]
    [InlineData("11111111", "0000", "Bits", null)]
    [InlineData("00110101", "0000", "Moved", null)]
    public void A_wrong_row_has_a_cause(string r, string q, string kind, string? slip)
    {
        var sitting = Begun();
        sitting.Take(1);
        Write(sitting, "R", r);
        Write(sitting, "Q", q);
        var cause = Cause.Of(sitting.HandIn()!, new Lapses(sitting.Walk.Datapath))!;
        Assert.Equal((kind, slip), ($"{cause.Kind}", cause.Slip?.Name));
    }

    /// <summary>A slip in one row alone is found wherever it shows, and no right row is blamed.</summary>
    [Theory]
    [InlineData("divide-still-divisor")]
    [InlineData("divide-non-restoring")]
    [InlineData("multiply-booth")]
    [InlineData("multiply-early-out")]
    [InlineData("root-restoring")]
    public void Each_slip_is_found_in_a_row_in_which_it_shows(string name)
    {
        var datapath = Tests.Walks.At(name, 4);
        var lapses = new Lapses(datapath);
        var walk = SampleOperands
            .Of(datapath, new Random(3))
            .Select(o => Walk.Of(datapath, o))
            .First(w => w.Cycles > 2);
        var shown = 0;
        foreach (var slip in Slip.Of(datapath.Machine))
        {
            var built = slip.Machine.At(datapath.Widths.ToDictionary(w => w.Name, w => w.Value)).Datapath;
            if (built is null || !built.Registers.Select(Told).SequenceEqual(datapath.Registers.Select(Told)))
            {
                continue;
            }
            foreach (var row in walk.Rows.Skip(1))
            {
                var at = new CycleAddress(row.Repeat, row.Round, row.Step!.Number);
                if (Cycle.Of(built).All(c => c.Address != at))
                {
                    continue;
                }
                var wrong = SingleStep.Of(built, row.Before, at).Registers;
                var found = lapses.Giving(row.Before, at, wrong);
                if (wrong.SequenceEqual(row.Registers))
                {
                    Assert.Empty(found);
                }
                else
                {
                    shown++;
                    Assert.Contains(found, f => f.Name == slip.Name);
                }
            }
        }
        Assert.True(shown > 20, $"{shown} rows showed a slip");

        static string Told(Register register) => $"{register.Name} {register.Width}";
    }
}
