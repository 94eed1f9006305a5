using System.Numerics;
using Reckoner.Numbers;
using Reckoner.Running;
using Xunit;

namespace Reckoner.Tests;

/// <summary>What a walk keeps besides the results: rows, moments, and what every adder saw and gave.</summary>
public class WalkTests
{
    public static TheoryData<string> All => [.. Machines.Catalogue];

    private static IEnumerable<Walk> Sample(string machine)
    {
        var datapath = Walks.At(machine);
        return SampleOperands.Of(datapath, new Random(1)).Take(20).Select(operands => Walk.Of(datapath, operands));
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Rows_are_the_load_and_then_one_per_clock_edge_each_beginning_where_the_last_ended(string machine)
    {
        foreach (var walk in Sample(machine))
        {
            Assert.Equal(Enumerable.Range(0, walk.Rows.Count), walk.Rows.Select(r => r.Cycle));
            Assert.InRange(walk.Cycles, 0, walk.Datapath.MostCycles);
            Assert.True(walk.Datapath.MayStopEarly || walk.Cycles == walk.Datapath.MostCycles);
            Assert.Null(walk.Rows[0].Step);
            foreach (var (before, row) in walk.Rows.Zip(walk.Rows.Skip(1)))
            {
                Assert.Equal(before.Registers, row.Before);
                Assert.Equal(row.Registers, row.Moments[^1].Registers);
                Assert.Equal(Enumerable.Range(1, row.Moments.Count), row.Moments.Select(m => m.Moment));
                Assert.Equal([row.Moments[^1]], row.Moments.Where(m => m.Stored));
            }
        }
    }

    [Theory]
    [MemberData(nameof(All))]
    public void The_last_round_of_a_loop_of_fixed_count_and_no_other_is_the_last(string machine)
    {
        foreach (var walk in Sample(machine))
        {
            foreach (var segment in walk.Datapath.Schedule.Where(s => s.IsLoop))
            {
                var rows = walk.Rows.Where(r => r.Repeat == segment.Repeat).ToList();
                Assert.All(
                    rows,
                    row => Assert.Equal(segment.While is null ? row.Round == segment.Count : null, row.Last)
                );
                var rounds = rows.GroupBy(r => r.Round).ToList();
                Assert.Equal(Enumerable.Range(1, rounds.Count), rounds.Select(r => r.Key));
                Assert.All(rounds, r => Assert.Equal(segment.Steps, r.Select(row => row.Step!)));
            }
            Assert.All(walk.Rows.Where(r => r.Repeat == 0), row => Assert.Equal((0, null), (row.Round, row.Last)));
        }
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Every_adder_tells_its_sum_its_carry_and_the_same_subtraction_as_an_addition(string machine)
    {
        var told = 0;
        foreach (var sum in Sample(machine).SelectMany(w => w.Rows).SelectMany(r => r.Moments).SelectMany(Sums))
        {
            var size = BigInteger.One << sum.Width;
            var right = sum.Subtracts ? sum.Complement + 1 : sum.Right;
            Assert.Equal(size - 1, sum.Right + sum.Complement);
            Assert.Equal(sum.Bits, (sum.Left + right) % size);
            // The carry out of the addition; a borrow is the carry turned over.
            Assert.Equal(sum.GivesCarry, sum.Left + right >= size != sum.Subtracts);
            Assert.Equal(sum.Bits, Bits.Wrap(sum.Exact, sum.Width));
            told++;
        }
        Assert.NotEqual(0, told);
    }

    private static IEnumerable<Summed> Sums(MomentOfWalk moment) => moment.Happenings.OfType<Summed>();

    /// <summary>29 / 6 at 5 bits: the walk that the first page of the project shows.</summary>
    [Fact]
    public void Named_values_stand_with_their_moment_and_keep_what_they_were_across_then()
    {
        var walk = Walks.Of(Walks.At("divide-still-divisor", 5), 29, 6);
        var fourth = walk.Rows[4];
        Assert.Equal(
            [("difference", 1), ("borrow", 0)],
            fourth.Moments[0].Values.Select(v => (v.Wire.Name, (int)v.Bits))
        );
        Assert.Equal(fourth.Moments[0].Values, fourth.Moments[1].Values);
        // R stands as 00001 10000 between the moments: the difference is kept and not yet moved.
        Assert.Equal(0b00001_01000, fourth.Moments[0].Registers[0]);
        Assert.Equal(0b00010_10000, fourth.Moments[1].Registers[0]);
        Assert.Equal(0b00010_10000, fourth.Registers[0]);
    }
}
