using System.Numerics;
using Reckoner.Binding;
using Reckoner.Checking;
using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Timelines;
using Xunit;

namespace Reckoner.Engines.Tests;

/// <summary>A divider that is wrong for one single pair of operands.</summary>
public sealed class OnePairTests
{
    private const string Text = """
        machine divide-but-for-one-pair
        title "A divider that spoils the last bit of one quotient"

        width n = 8 in 6..32

        operand dividend : n
        operand divisor : n
        given divisor > 0

        register R "the shared register" : 2n loads extend(dividend)
        register D "the divisor" : n loads divisor
        register spoils "whether the pair is there" : 1 loads dividend = 45 and divisor = 23
        part left "the remainder" = R[2n-1..n]
        part right "the quotient" = R[n-1..0]

        repeat n + 1
          let difference, borrow = left - D
          if not borrow
            left <- difference
          end
          then
          if last
            right <- shl(right, (not borrow) xor spoils)
          else
            R <- shl(R, not borrow)
          end
        end

        result quotient = right
        result remainder = left

        law dividend = quotient * divisor + remainder
        law remainder < divisor

        """;

    private static Datapath At(int width) => Machines.At(new Source("one pair", Text), width);

    [Theory]
    [InlineData(8)]
    [InlineData(9)]
    public void Every_engine_finds_the_pair(int width)
    {
        var cases = (1L << width) * ((1L << width) - 1);
        foreach (var use in Enum.GetValues<OracleUse>())
        {
            var check = CheckProgram.Of(At(width), null, use);
            Assert.All(
                Runs.Engines,
                engine => Assert.Equal($"laws {cases} cases, 1 failures, smallest 45 23", Runs.Line(check, engine))
            );
        }
    }

    [Fact]
    public void So_does_the_worker_under_node()
    {
        Node.SkipWhenMissing();
        var check = CheckProgram.Of(At(9), null, OracleUse.Stepped);
        Assert.Equal(["laws 261632 cases, 1 failures, smallest 45 23"], Node.Lines([check]));
    }

    [Fact]
    public void So_do_threads()
    {
        var check = CheckProgram.Of(At(11), null, OracleUse.Stepped);
        var (_, counts) = ParallelChecker.Run(
            check,
            Runs.Engines[^1],
            0,
            check.Space.Steps,
            threads: 2,
            stop: TestContext.Current.CancellationToken
        );
        Assert.Equal("laws 4192256 cases, 1 failures, smallest 45 23", Machines.Line(counts));
    }

    [Fact]
    public void So_does_going_word_by_word()
    {
        var datapath = At(6);
        var timeline = Timeline.Of(datapath);
        var space = new CaseSpace(datapath.Operands);
        var failing =
            from step in Enumerable.Range(0, (int)space.Steps)
            from lane in Enumerable.Range(0, space.Lanes)
            let operands = space.At(step, lane)
            where datapath.IsGiven(operands)
            let results = new TimelineRun(timeline, operands).At(timeline.Results)
            where !datapath.Laws.All(law => ClaimJudge.Holds(law, operands, results))
            select string.Join(" ", operands);
        Assert.Equal(["45 23"], failing);
    }

    [Fact]
    public void No_corner_does()
    {
        var datapath = At(8);
        var corners = new OperandSample(datapath, count: 0, seed: 1).Operands().ToList();
        Assert.True(corners.Count > 100);
        Assert.Equal(0, Failures(datapath, corners));
        Assert.Equal(0, Failures(datapath, [.. OperandCorners.Of(datapath)]));
        Assert.Equal(1, Failures(datapath, [.. corners, [45, 23]]));
    }

    private static BigInteger Failures(Datapath datapath, IReadOnlyList<BigInteger[]> operands)
    {
        var check = CheckProgram.Of(datapath, null, OracleUse.Written);
        return Checker.Sample(check, Runs.Engines[0], operands).Sections[0].Count.Failures;
    }
}
