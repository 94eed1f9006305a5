using Reckoner.Checking;
using Reckoner.Conditions;
using Reckoner.Reporting;
using Reckoner.Slips;
using Reckoner.Timelines;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests.Slips;

/// <summary>What is said about all operands, asked again of every operand by walking it.</summary>
public class VerdictTests
{
    /// <summary>A width at which every operand of every slip can be walked.</summary>
    private const int MostBits = 8;

    /// <summary>So many bits of operands take little time; those of the machines that have more at their narrowest take most of it.</summary>
    private const int QuickBits = MostBits - 2;

    public static TheoryData<string> SmallMachines => [.. Machines.Catalogue.Where(IsQuick)];

    public static TheoryData<string> OtherMachines =>
        [.. Machines.Catalogue.Where(name => !IsQuick(name) && LeastBits(name) <= MostBits)];

    private static bool IsQuick(string name) => Portion.IsOfThird(name) && LeastBits(name) <= QuickBits;

    private static int LeastBits(string name)
    {
        var machine = Machines.Named(name);
        return Machines.Bound(machine, Machines.Range(machine).Low).Operands.Sum(o => o.Width);
    }

    private static SlipStudy Study(string machine, int width) =>
        SlipStudy.Of(
            Machines.Bound(Machines.Named(machine), width),
            InterpretedEngine.Widest,
            sample: null,
            withConditions: true
        );

    private static int Width(string machine)
    {
        var named = Machines.Named(machine);
        return Machines
            .Widths(named, upTo: 4)
            .Last(w =>
                w == Machines.Range(named).Low || Machines.Bound(named, w).Operands.Sum(o => o.Width) <= QuickBits
            );
    }

    /// <summary>What is wrong with a study, found in one walk of every operand with every slip.</summary>
    private sealed record Wrong(IReadOnlyList<string> Harmless, IReadOnlyList<string> Exactly);

    private static readonly Once<string, Wrong> Judged = new(Judge);

    private static Wrong Judge(string machine)
    {
        var study = Study(machine, Width(machine));
        var twin = new SlipTwin(study.Datapath);
        var harmless = study.Slips.Where(s => s.Smallest is null).ToList();
        var exactly = study.Slips.Where(s => s.When is not null).ToList();
        return new Wrong(
            [.. harmless.Where(s => s.When is not null || twin.Exposing(s.Slip).Count > 0).Select(s => s.Slip.Name)],
            [
                .. exactly
                    .Where(s => !twin.Exposing(s.Slip).SequenceEqual(twin.Showing(s.When!)))
                    .Select(s => $"{s.Slip.Name}: {s.When}"),
            ]
        );
    }

    [Theory]
    [MemberData(nameof(SmallMachines))]
    public void No_operand_exposes_a_slip_that_is_called_harmless(string machine) =>
        Assert.Empty(Judged[machine].Harmless);

    [Theory]
    [MemberData(nameof(SmallMachines))]
    public void Exactly_when_is_exact_over_every_operand(string machine) => Assert.Empty(Judged[machine].Exactly);

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(OtherMachines))]
    public void So_is_what_is_said_of_the_others(string machine) =>
        Assert.Equal(
            ("", ""),
            (string.Join('\n', Judged[machine].Harmless), string.Join('\n', Judged[machine].Exactly))
        );

    /// <summary>
    /// Exactly what is said is asked of every walk at the next width, numbers that are written in widths as they are there. Both
    /// verdicts must come up, and some condition whose number grows, or the comparison says nothing.
    /// </summary>
    [Fact]
    public void At_the_next_width_a_condition_holds_or_not_as_said()
    {
        var verdicts = new HashSet<(bool Holds, bool Grows)>();
        foreach (
            var machine in new[]
            {
                "divide-still-divisor",
                "divide-non-restoring",
                "root-restoring",
                "multiply-early-out",
            }
        )
        {
            var width = machine == "root-restoring" ? 2 : 3;
            var study = Study(machine, width);
            var twin = new SlipTwin(Machines.Bound(Machines.Named(machine), width + 1));
            Assert.Equal([("n", width + 1)], study.Next!);
            foreach (var studied in study.Slips.Where(s => s.When is not null))
            {
                var holds = twin.Exposing(studied.Slip).SequenceEqual(twin.Showing(studied.When!));

                Assert.True(holds == studied.HoldsNext, $"{machine} {studied.Slip.Name}: {studied.When}");
                verdicts.Add((holds, $"{studied.When}".Contains('^', StringComparison.Ordinal)));
            }
        }
        Assert.Superset(new HashSet<(bool, bool)> { (true, false), (false, false), (true, true) }, verdicts);
    }

    /// <summary>
    /// Each number is written in the width of what it is compared with, whatever that is called and however wide it is: a bit more,
    /// double, the sum of two widths, or always the same.
    /// </summary>
    [Theory]
    [InlineData("floor", "n + 1", "floor >= 2^n", "floor >= 2^n = 16")]
    [InlineData("is", "2n", "is >= 2^(2n-1)", "is >= 2^(2n-1) = 128")]
    [InlineData("cycles", "n + m", "cycles >= 2^(m+n-1)", "cycles >= 2^(m+n-1) = 64")]
    [InlineData("happens", "3", "happens >= 4", "happens >= 4")]
    [InlineData("slip", "ceil(n / 2) + 1", "slip >= 2^(ceil(n/2))", "slip >= 2^(ceil(n/2)) = 4")]
    public void Numbers_are_written_in_the_width_of_what_they_are_compared_with(
        string name,
        string width,
        string when,
        string said
    )
    {
        var datapath = Machines.Bound(
            $"""
            machine top
            width n = 4 in 2..6
            width m = 3 in 3..3
            operand {name} : {width}
            register A : {width} loads {name}
            register B : 1 loads 0
            step keep
              B <- A[{width}-1]
            result top = B

            """
        );
        var study = SlipStudy.Of(datapath, InterpretedEngine.Widest, sample: null, withConditions: true);
        var studied = study.Slips.Single(s => s.Slip.Name == "write-left-out-B");

        Assert.Equal(when, $"{studied.When}");
        var all = new ShortConditions(MachineGates.Of(datapath))
            .All(withResults: false)
            .Select(c => c.Condition)
            .ToList();
        Assert.Contains(studied.When, all);
        Assert.Equal(said, SlipText.SaidWithValues(studied.When!, Vocabulary.English));
        Assert.Equal(when, SlipText.Said(studied.When!, Vocabulary.English));
        var machine = KnownSlips.Machine(Timeline.Of(datapath));
        Assert.All(all, c => Assert.Equal(c, ConditionParser.Read(machine, $"{c}", new(null))));
    }

    [Fact]
    public void A_width_that_has_no_next_one_is_compared_with_none()
    {
        const string text = """
            machine narrow
            width n = 3 in 2..3
            operand a : n
            register A : n loads a
            repeat n
              A <- shl(A, A[n-1])
            end
            result b = A
            law b = a

            """;
        var study = SlipStudy.Of(Machines.Bound(text), InterpretedEngine.Widest, sample: null, withConditions: true);

        Assert.Null(study.Next);
        Assert.Contains(study.Slips, s => s.When is not null);
        Assert.All(study.Slips, s => Assert.Null(s.HoldsNext));
    }

    [Theory]
    [InlineData("divide-non-restoring", "guard-never-negative", "negative happens at least once")]
    [InlineData("divide-srt-radix-2", "write-left-out-minus", "(q = -1) happens at least once")]
    [InlineData("divide-srt-radix-2", "step-left-out-correct", "(P < 0) happens")]
    public void When_a_slip_bites_is_also_said_of_decisions(string machine, string slip, string when) =>
        Assert.Equal(when, $"{Study(machine, 4).Slips.Single(s => s.Slip.Name == slip).When}");

    [Fact]
    public void A_share_estimated_from_a_sample_is_near_the_true_one()
    {
        const int drawn = 4000;
        var datapath = Machines.Bound(Machines.Named("divide-shared-register"), 6);
        var sample = SlipSample.Of(datapath, drawn, seed: 1);

        var estimated = SlipStudy.Of(datapath, InterpretedEngine.Widest, sample, withConditions: true);
        var exact = SlipStudy.Of(datapath, InterpretedEngine.Widest, sample: null, withConditions: false);

        Assert.False(estimated.IsExhaustive);
        Assert.Equal(drawn, estimated.Drawn);
        Assert.InRange(estimated.Cases, 1, drawn);
        Assert.Null(estimated.Next);
        foreach (var (guess, truth) in estimated.Slips.Zip(exact.Slips))
        {
            Assert.Equal(truth.Slip.Name, guess.Slip.Name);
            Assert.Null(guess.When);
            // Four standard errors at most: 2 / sqrt(n).
            var difference = (double)guess.Exposed / estimated.Cases - (double)truth.Exposed / exact.Cases;
            Assert.InRange(Math.Abs(difference), 0, 2 / Math.Sqrt(estimated.Cases));
        }
    }
}
