using Reckoner.Checking;
using Xunit;

namespace Reckoner.Engines.Tests;

public sealed class ParallelCheckerTests
{
    /// <summary>Large enough to be cut into several parts.</summary>
    private const int Width = 13;

    /// <summary>A fault makes it fail in many steps, so that the smallest failing operands are a matter of order too.</summary>
    private static CheckProgram Faulty()
    {
        var check = CheckProgram.Of(Machines.At("multiply-booth", Width), null, OracleUse.Written);
        var middle = check.Program.Instructions.Count / 2;
        const byte forThreeOnes = 0x80;
        return check.With(
            check.Program.With(middle, (byte)(check.Program.Instructions[middle].Function ^ forThreeOnes))
        );
    }

    [Fact]
    public void The_result_does_not_depend_on_the_threads()
    {
        var check = Faulty();
        var alone = Runs.Line(check, Runs.Engines[^1]);
        Assert.Contains("smallest", alone);
        foreach (var threads in new[] { 1, 2, 3, 8 })
        {
            var (to, counts) = ParallelChecker.Run(
                check,
                Runs.Engines[^1],
                0,
                check.Space.Steps,
                threads,
                stop: TestContext.Current.CancellationToken
            );
            Assert.Equal(check.Space.Steps, to);
            Assert.Equal(alone, Machines.Line(counts));
        }
    }

    [Fact]
    public void Progress_ends_with_everything_covered()
    {
        var check = Faulty();
        var most = 0L;
        ParallelChecker.Run(
            check,
            Runs.Engines[^1],
            3,
            check.Space.Steps,
            2,
            covered =>
            {
                lock (check)
                {
                    most = Math.Max(most, covered);
                }
            },
            TestContext.Current.CancellationToken
        );
        Assert.Equal(check.Space.Steps - 3, most);
    }

    [Fact]
    public void What_is_stopped_has_covered_a_stretch_from_the_beginning()
    {
        var check = CheckProgram.Of(Machines.At("divide-shared-register", 16), null, OracleUse.Stepped);
        using var stop = new CancellationTokenSource();
        var (to, counts) = ParallelChecker.Run(
            check,
            Runs.Engines[^1],
            5,
            check.Space.Steps,
            2,
            _ => stop.Cancel(),
            stop.Token
        );
        Assert.InRange(to, 6, check.Space.Steps - 1);
        Assert.Equal(Machines.Line(Runs.Counts(check, Runs.Engines[^1], 5, to)), Machines.Line(counts));
    }

    [Fact]
    public void What_is_stopped_before_it_begins_has_covered_nothing()
    {
        var check = Faulty();
        using var stop = new CancellationTokenSource();
        stop.Cancel();
        var (to, counts) = ParallelChecker.Run(check, Runs.Engines[0], 7, check.Space.Steps, 2, null, stop.Token);
        Assert.Equal(7, to);
        Assert.Equal("laws 0 cases, 0 failures", Machines.Line(counts));
    }
}
