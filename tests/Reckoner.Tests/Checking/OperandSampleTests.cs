using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Reporting;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>The operands of a sample, and what is said of one that was stopped.</summary>
public class OperandSampleTests
{
    private static IEnumerable<string> Corners(string machine, int width) =>
        new OperandSample(Walks.At(machine, width), count: 0, seed: 1).Operands().Select(Pair);

    private static string Pair(IEnumerable<BigInteger> operands) => string.Join(' ', operands);

    /// <summary>0, 1, all ones, the largest and the most negative of signed words, all crossed.</summary>
    [Theory]
    [InlineData("divide-shared-register")]
    [InlineData("multiply-booth")]
    public void Every_sample_has_the_ends_of_the_operands(string machine)
    {
        BigInteger[] ends = [0, 1, 0x7FFF_FFFF_FFFF_FFFF, 0x8000_0000_0000_0000, ulong.MaxValue];
        var expected = from a in ends from b in ends select Pair([a, b]);
        Assert.Empty(expected.Except(Corners(machine, 64)));
    }

    [Fact]
    public void Every_sample_has_the_powers_of_two_and_their_neighbours_beside_the_ends()
    {
        BigInteger[] ends = [0, 1, ulong.MaxValue];
        var powers = Enumerable.Range(1, 63).SelectMany(k => Around(BigInteger.One << k));
        var expected = from power in powers from end in ends from pair in Both(power, end) select pair;
        Assert.Empty(expected.Except(Corners("divide-shared-register", 64)));
    }

    /// <summary>Divisors that are the dividend, one above it and one below.</summary>
    [Fact]
    public void Every_sample_has_equal_operands_and_those_one_apart()
    {
        var powers = Enumerable.Range(1, 63).Select(k => BigInteger.One << k);
        var expected = from power in powers from near in Around(power) from pair in Both(power, near) select pair;
        Assert.Empty(expected.Except(Corners("divide-shared-register", 64)));
    }

    private static BigInteger[] Around(BigInteger number) => [number - 1, number, number + 1];

    private static string[] Both(BigInteger a, BigInteger b) => [Pair([a, b]), Pair([b, a])];

    [Theory]
    [InlineData("divide-shared-register", 64)]
    [InlineData("multiply-two-widths", 8)]
    [InlineData("root-restoring", 64)]
    public void No_corner_stands_twice_and_each_fits(string machine, int width)
    {
        var datapath = Walks.At(machine, width);
        var corners = new OperandSample(datapath, count: 0, seed: 1).Operands().ToList();
        Assert.Equal(corners.Count, corners.Select(Pair).Distinct().Count());
        Assert.All(
            corners,
            c => Assert.All(datapath.Operands, o => Assert.InRange(c[o.Index].GetBitLength(), 0, o.Width))
        );
    }

    [Fact]
    public void A_sample_is_as_large_as_asked_and_its_seed_decides_it()
    {
        var datapath = Walks.At("divide-shared-register", 32);
        List<string> Of(int seed) => [.. new OperandSample(datapath, 5000, seed).Operands().Select(Pair)];
        Assert.Equal(5000, Of(1).Count);
        Assert.Equal(Of(1), Of(1));
        Assert.True(Of(1).Except(Of(2)).Count() > 2000);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_stopped_sample_says_how_many_were_tried(bool inWords)
    {
        var datapath = Walks.At("divide-shared-register", 16);
        using var stop = new CancellationTokenSource();
        var sample = new OperandSample(datapath, 100_000, 1).Operands();
        void Tell(long tried) => stop.Cancel();
        var result = inWords
            ? Checker.Sample(new WordCheck(datapath, null), sample, Tell, stop.Token)
            : Checker.Sample(
                CheckProgram.Of(datapath, null, OracleUse.Written),
                InterpretedEngine.Widest,
                sample,
                Tell,
                stop.Token
            );
        var tried = inWords ? 64 : PlaneMemory.Lanes;
        Assert.Equal((false, tried), (result.Complete, result.Tried));
        Assert.Equal(tried, result.Sections.Take(2).Aggregate(BigInteger.Zero, (sum, s) => sum + s.Count.Cases));
        var said = Said(
            new CheckReport(result, null, null, 0, (1, 100_000)),
            datapath,
            Walks.At("divide-shared-register", 17)
        );
        Assert.Equal(
            $"Stopped after {Vocabulary.English.Say("check.times", ("cases", tried))} of a sample of 100,000 (seed 1).",
            said[2].Split(" It went")[0]
        );
        Assert.Equal("Not begun: n = 16 to n = 17.", said[^2]);
    }

    [Fact]
    public void Averages_that_are_stopped_are_said_to_be_missing()
    {
        var datapath = Walks.At("divide-shared-register", 11);
        using var stop = new CancellationTokenSource();
        Assert.Throws<OperationCanceledException>(() =>
            Averages.Of(datapath, InterpretedEngine.Widest, _ => stop.Cancel(), stop.Token)
        );
        var program = CheckProgram.Of(datapath, null, OracleUse.Written);
        var run = new CheckRun(program, InterpretedEngine.Widest);
        var steps = program.Space.Steps;
        Assert.Equal(steps, run.Run(0, steps, CancellationToken.None));
        var result = Checker.Result(program, run.Counts, "", (0, steps), isComplete: true);
        var check = new CheckReport(result, null, null, 0, null) { AreAveragesStopped = true };
        Assert.False(check.IsComplete);
        Assert.Equal(
            ["Every operand was covered.", "   The averages were broken off."],
            [Said(check)[2], Said(check)[^2]]
        );
    }

    private static string[] Said(CheckReport check, params Datapath[] notBegun) =>
        DocumentText.Of(CheckDocument.Of([check], notBegun, Vocabulary.English), 80).Split('\n');
}
