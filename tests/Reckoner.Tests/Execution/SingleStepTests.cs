using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Execution;
using Reckoner.Numbers;
using Reckoner.Running;
using Reckoner.Timelines;
using Xunit;

namespace Reckoner.Tests;

/// <summary>One cycle by itself, against the walk it is taken from and against gates' words from registers nobody walks to.</summary>
public class SingleStepTests
{
    public static TheoryData<string> Catalogue => [.. Machines.Catalogue];

    [Theory]
    [MemberData(nameof(Catalogue))]
    public void A_row_of_a_walk_comes_about_again_from_the_registers_before_it(string name)
    {
        var machine = Machines.Named(name);
        var datapath = Machines.Bound(machine, Machines.Widths(machine, 5).Last());
        foreach (var operands in SampleOperands.Of(datapath, new Random(4)).Take(4))
        {
            foreach (var row in Walk.Of(datapath, operands).Rows.Skip(1))
            {
                var at = new CycleAddress(row.Repeat, row.Round, row.Step!.Number);
                Assert.True(SingleStep.GoesOn(datapath, row.Before, at));
                Assert.Equal(Told(row), Told(SingleStep.Of(datapath, row.Before, at)));
            }
        }
    }

    private static string Told(Row row) =>
        $"{row.Step!.Number} {row.Repeat}.{row.Round} {row.Last} {string.Join(' ', row.Before)}\n"
        + string.Join('\n', row.Moments.Select(Told))
        + string.Join(' ', row.Registers);

    private static string Told(MomentOfWalk moment) =>
        $"{moment.Moment} {moment.Stored} {string.Join(' ', moment.Registers)} "
        + string.Join(' ', moment.Values.Select(v => $"{v.Wire.Name} {v.Bits}"))
        + string.Join("; ", moment.Happenings.Select(h => $"{h.Line} {Spoken.Of(h)}"));

    /// <summary>The slow way and the words of a graph, from registers that no walk may ever reach.</summary>
    [Theory]
    [MemberData(nameof(Catalogue))]
    public void From_any_registers_a_step_stores_what_its_words_give(string name)
    {
        var seed = Seeds.Next();
        var random = new Random(seed);
        var machine = Machines.Named(name);
        var datapath = Machines.Bound(machine, Machines.Widths(machine, 5).Last());
        foreach (var cycle in Cycle.Of(datapath).DistinctBy(c => (c.Step, c.IsLastRound)))
        {
            var edge = EdgeAlone.Of(datapath, cycle.Segment, cycle.Step, cycle.IsLastRound);
            for (var i = 0; i < 12; i++)
            {
                var before = datapath.Registers.Select(r => Any(r, random)).ToList();
                var what = $"{name}, step {cycle.Step.Number} of {string.Join(' ', before)}";
                var words = Evaluated(edge.Graph, before);
                Seeds.Told(
                    seed,
                    what,
                    () =>
                    {
                        var row = SingleStep.Of(datapath, before, cycle.Address);
                        Assert.Equal(edge.Registers.Select(place => words[place]), row.Registers);
                        Assert.Equal(
                            edge.Goes is not { } goes || words[goes].IsOne,
                            SingleStep.GoesOn(datapath, before, cycle.Address)
                        );
                    }
                );
            }
        }
    }

    private static BigInteger Any(Register register, Random random)
    {
        var bytes = new byte[register.Width / 8 + 2];
        random.NextBytes(bytes);
        return Bits.Wrap(new BigInteger(bytes), register.Width);
    }

    private static List<BigInteger> Evaluated(WordGraph graph, IReadOnlyList<BigInteger> registers)
    {
        var values = new List<BigInteger>();
        foreach (var word in graph.Words)
        {
            values.Add(TimelineRun.Bits(word, graph, registers, values));
        }
        return values;
    }

    private static readonly Datapath Divider = Walks.At("divide-still-divisor", 4);

    [Fact]
    public void A_cycle_says_what_it_did_wherever_it_begins()
    {
        var row = SingleStep.Of(Divider, [0b0111_0101, 0b0011, 0b0001], new CycleAddress(1, 2, 1));
        Assert.Equal([0b1000_1010, 0b0011, 0b0011], row.Registers.Select(r => (int)r));
        Assert.Equal((2, false), (row.Cycle, row.Last));
    }

    [Theory]
    [InlineData("117 3", "3 words are needed, not 2 (Parameter 'registers')")]
    [InlineData("117 3 1 0", "3 words are needed, not 4 (Parameter 'registers')")]
    [InlineData("256 3 1", "256 does not fit in the 8 bits of R (Parameter 'registers')")]
    [InlineData("117 -1 1", "-1 does not fit in the 4 bits of D (Parameter 'registers')")]
    public void Registers_that_do_not_fit_are_refused(string registers, string message)
    {
        BigInteger[] words = [.. registers.Split(' ').Select(BigInteger.Parse)];
        var at = new CycleAddress(1, 1, 1);
        Assert.Equal(message, Assert.Throws<ArgumentException>(() => SingleStep.Of(Divider, words, at)).Message);
        Assert.Equal(message, Assert.Throws<ArgumentException>(() => SingleStep.GoesOn(Divider, words, at)).Message);
    }

    [Theory]
    [InlineData(0, 0, 1)]
    [InlineData(1, 0, 1)]
    [InlineData(1, 6, 1)]
    [InlineData(2, 1, 1)]
    [InlineData(1, 1, 2)]
    public void A_cycle_that_the_schedule_does_not_have_is_refused(int repeat, int round, int step)
    {
        var at = new CycleAddress(repeat, round, step);
        Assert.Equal(
            $"the schedule has no step {step} in round {round} of loop {repeat} (Parameter 'at')",
            Assert.Throws<ArgumentException>(() => SingleStep.Of(Divider, [117, 3, 1], at)).Message
        );
    }

    [Theory]
    [InlineData("45", "2 words are needed, not 1 (Parameter 'operands')")]
    [InlineData("1000 7", "1000 does not fit in the 4 bits of dividend (Parameter 'operands')")]
    [InlineData("7 -3", "-3 does not fit in the 4 bits of divisor (Parameter 'operands')")]
    public void Operands_that_do_not_fit_are_refused(string operands, string message)
    {
        BigInteger[] words = [.. operands.Split(' ').Select(BigInteger.Parse)];
        Assert.Equal(message, Assert.Throws<ArgumentException>(() => Walk.Of(Divider, words)).Message);
        Assert.Equal(message, Assert.Throws<ArgumentException>(() => Walk.Traced(Divider, words)).Message);
    }
}
