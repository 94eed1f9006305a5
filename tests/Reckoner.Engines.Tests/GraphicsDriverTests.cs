using Reckoner.Checking;
using Reckoner.Diagnostics;
using Reckoner.Questions;
using Xunit;

namespace Reckoner.Engines.Tests;

/// <summary>Everything between a check and the driver's library, with a library in its place that fails as real ones do.</summary>
public sealed class GraphicsDriverTests
{
    private static CheckProgram Check { get; } =
        CheckProgram.Of(Machines.At("multiply-booth", 8), null, OracleUse.Stepped, new GateFault(40, 0x80));

    private static string Expected(long to) => Machines.Line(Runs.Counts(Check, Runs.Engines[0], 0, to));

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private static GraphicsRunner Runner(PtxDriver driver) => new(new InterpretedRunner(), isAsked: true, driver.All);

    private static CoveredSteps Run(GraphicsRunner runner, long from, long to) =>
        runner.Run(Check, from, to, null, Stop).Result;

    private static string Reason(Diagnostic? trouble)
    {
        Assert.Equal(Id.GraphicsTrouble, trouble?.Id);
        return Assert.IsType<Term>(trouble!.Facts.Single(f => f.Name == "reason").Value).Key;
    }

    [Fact]
    public void What_it_is_asked_is_what_a_check_needs()
    {
        using var driver = new PtxDriver();
        var runner = Runner(driver);
        Assert.Null(runner.Refusal);
        var covered = Run(runner, 0, Check.Space.Steps);
        Assert.Equal(("graphics processor, made here", null), (covered.Method, covered.Trouble));
        Assert.Contains("smallest", Expected(covered.To));
        Assert.Equal(Expected(Check.Space.Steps), Machines.Line(covered.Counts));
    }

    /// <summary>Without a processor, with a driver that cannot begin, and with one that is older than what is called.</summary>
    [Fact]
    public void Without_all_that_is_called_there_is_none()
    {
        PtxDriver[] drivers =
        [
            new() { Processors = 0 },
            new() { Fails = ("cuInit", 0, 100) },
            new() { Lacks = "cuMemAlloc_v2" },
        ];
        foreach (var driver in drivers)
        {
            Assert.Equal(Id.NoGraphicsProcessor, Runner(driver).Refusal?.Id);
            driver.Dispose();
        }
    }

    /// <summary>Numbers of the driver: 2 no memory, 46 and 101 no such processor, 221 and 222 a compiler too old, 719 anything else.</summary>
    [Theory]
    [InlineData("cuDevicePrimaryCtxRetain", 2, "graphics.memory")]
    [InlineData("cuMemAlloc_v2", 2, "graphics.memory")]
    [InlineData("cuDevicePrimaryCtxRetain", 46, "graphics.gone")]
    [InlineData("cuCtxSetCurrent", 101, "graphics.gone")]
    [InlineData("cuModuleLoadData", 221, "graphics.old")]
    [InlineData("cuModuleLoadData", 222, "graphics.old")]
    [InlineData("cuLaunchKernel", 719, "graphics.driver")]
    [InlineData("cuCtxSynchronize", 719, "graphics.driver")]
    public void What_fails_before_anything_is_counted_is_refused_with_the_reason(string call, int with, string reason)
    {
        using var driver = new PtxDriver { Fails = (call, 0, with) };
        var refusal = Runner(driver).Refusal;
        Assert.Equal(reason, Reason(refusal));
        if (reason == "graphics.driver")
        {
            Assert.Contains(
                ((Term)refusal!.Facts.Single(f => f.Name == "reason").Value).Facts,
                f => f.Value is "all is lost"
            );
        }
    }

    /// <summary>From any call on that it makes while it counts: what was covered before counts, and no more.</summary>
    [Theory]
    [InlineData("cuCtxSetCurrent")]
    [InlineData("cuMemsetD8_v2")]
    [InlineData("cuLaunchKernel")]
    [InlineData("cuCtxSynchronize")]
    [InlineData("cuMemcpyDtoH_v2")]
    public void Taken_away_in_the_middle_it_leaves_what_was_covered(string call)
    {
        var steps = Check.Space.Steps;
        var troubled = 0;
        for (var after = 1; ; after++)
        {
            using var driver = new PtxDriver { Fails = (call, after, 719) };
            var runner = Runner(driver);
            if (runner.Refusal is not null)
            {
                continue;
            }
            var first = Run(runner, 0, steps / 2);
            if (first.Trouble is not null)
            {
                Assert.Equal((0, "graphics.driver"), (first.To, Reason(first.Trouble)));
                Assert.All(first.Counts, c => Assert.True(c.Cases.IsZero && c.Failures.IsZero));
                continue;
            }
            Assert.Equal(Expected(steps / 2), Machines.Line(first.Counts));
            var second = Run(runner, steps / 2, steps);
            if (second.Trouble is null)
            {
                break;
            }
            troubled++;
            Assert.Equal(("graphics.driver", steps / 2), (Reason(second.Trouble), second.To));
            Assert.All(second.Counts, c => Assert.True(c.Cases.IsZero && c.Failures.IsZero && c.Smallest is null));
        }
        Assert.True(troubled > 0);
    }

    [Fact]
    public void One_that_is_asked_for_is_looked_for_at_once()
    {
        using var begun = new ManualResetEventSlim();
        IReadOnlyList<IGraphicsProcessor> Find()
        {
            begun.Set();
            return [];
        }
        _ = new GraphicsRunner(new InterpretedRunner(), isAsked: false, Find);
        Assert.False(begun.Wait(TimeSpan.FromMilliseconds(20), Stop));
        _ = new GraphicsRunner(new InterpretedRunner(), isAsked: true, Find);
        Assert.True(begun.Wait(TimeSpan.FromMinutes(1), Stop));
    }
}
