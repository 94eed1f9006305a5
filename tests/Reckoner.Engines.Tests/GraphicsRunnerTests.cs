using Reckoner.Checking;
using Reckoner.Diagnostics;
using Reckoner.Questions;
using Xunit;

namespace Reckoner.Engines.Tests;

/// <summary>Which processor runs what, and what becomes of a check when one fails.</summary>
public sealed class GraphicsRunnerTests
{
    private static readonly ICheckRunner Others = new InterpretedRunner();

    private static CheckProgram Failing { get; } =
        CheckProgram.Of(Machines.At("multiply-booth", 8), null, OracleUse.Stepped, new GateFault(40, 0x80));

    private static string Expected(CheckProgram check, long from, long to) =>
        Machines.Line(Runs.Counts(check, Runs.Engines[0], from, to));

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private static CoveredSteps Run(GraphicsRunner runner, CheckProgram check, CancellationToken stop) =>
        runner.Run(check, 0, check.Space.Steps, null, stop).Result;

    [Fact]
    public void One_that_is_asked_for_runs_even_what_is_short()
    {
        var runner = new GraphicsRunner(Others, isAsked: true, () => [new PtxProcessor()]);
        var covered = Run(runner, Failing, Stop);
        Assert.Null(runner.Refusal);
        Assert.Equal("graphics processor, interpreted PTX", covered.Method);
        Assert.Contains("smallest", Expected(Failing, 0, Failing.Space.Steps));
        Assert.Equal(Expected(Failing, 0, Failing.Space.Steps), Machines.Line(covered.Counts));
    }

    [Fact]
    public void Unasked_what_is_short_runs_elsewhere()
    {
        var processor = new PtxProcessor();
        var covered = Run(new GraphicsRunner(Others, isAsked: false, () => [processor]), Failing, Stop);
        Assert.StartsWith("interpreted planes, ", covered.Method);
        Assert.Equal(0, processor.Launches);
    }

    [Fact]
    public void Several_share_the_work()
    {
        PtxProcessor[] processors = [new PtxProcessor(), new PtxProcessor(), new PtxProcessor()];
        var check = CheckProgram.Of(Machines.At("divide-shared-register", 8), null, OracleUse.Stepped);
        var kernel = PtxKernel.Of(check, 0);
        var made = processors.Select(p => p.Load(kernel)).ToList();
        var (to, counts, trouble) = GraphicsCheck.Run(check, kernel, made, 0, check.Space.Steps, null, Stop);
        Assert.Null(trouble);
        Assert.Equal(check.Space.Steps, to);
        Assert.Equal(Expected(check, 0, to), Machines.Line(counts));
    }

    [Fact]
    public void None_where_one_is_asked_for_is_refused()
    {
        var runner = new GraphicsRunner(Others, isAsked: true, () => []);
        Assert.Equal(Id.NoGraphicsProcessor, runner.Refusal?.Id);
        Assert.Equal(0, runner.ReachBits);
        Assert.Null(new GraphicsRunner(Others, isAsked: false, () => []).Refusal);
    }

    [Fact]
    public void One_that_gets_a_lookup_wrong_is_refused_with_the_reason()
    {
        var wrong = new PtxProcessor { Changed = text => text.Replace(", 0x96;", ", 0x97;") };
        var runner = new GraphicsRunner(Others, isAsked: true, () => [wrong]);
        Assert.Equal(Id.GraphicsTrouble, runner.Refusal?.Id);
        Assert.Contains(runner.Refusal!.Facts, f => f.Value is Term { Key: "graphics.wrong" });
    }

    /// <summary>The trial passes, and then the kernel itself counts something else.</summary>
    [Fact]
    public void One_that_counts_otherwise_than_here_is_not_believed()
    {
        var trial = LookupTrial.Kernel.Text;
        PtxProcessor Wrong() => new() { Changed = text => text == trial ? text : text.Replace("popc.b32", "not.b32") };
        var asked = Run(new GraphicsRunner(Others, isAsked: true, () => [Wrong()]), Failing, Stop);
        Assert.Equal((0, Id.GraphicsTrouble), (asked.To, asked.Trouble?.Id));
        Assert.All(asked.Counts, c => Assert.True(c.Cases.IsZero && c.Smallest is null));
    }

    /// <summary>Whatever was covered when it went is one stretch, counted rightly, and the others add nothing behind the gap.</summary>
    [Theory]
    [InlineData(1, 0)]
    [InlineData(1, 2)]
    [InlineData(3, 1)]
    public void One_that_is_taken_away_leaves_what_was_covered(int processors, int lasts)
    {
        const int From = 3;
        var datapath = Machines.At("divide-shared-register", 12);
        var check = CheckProgram.Of(datapath, null, OracleUse.Stepped, new GateFault(200, 0x00));
        var kernel = PtxKernel.Of(check, 0);
        var made = Enumerable
            .Range(0, processors)
            .Select(i => new PtxProcessor { Lasts = i == 0 ? lasts : int.MaxValue }.Load(kernel))
            .ToList();
        var (to, counts, trouble) = GraphicsCheck.Run(check, kernel, made, From, check.Space.Steps, null, Stop, 1);
        Assert.Equal(Id.GraphicsTrouble, trouble?.Id);
        Assert.InRange(to, From, check.Space.Steps - 1);
        Assert.True(processors > 1 || (to > From) == (lasts > 0));
        Assert.Equal(Expected(check, From, to), Machines.Line(counts));
    }

    [Fact]
    public void What_is_stopped_has_covered_nothing_or_a_stretch_from_the_beginning()
    {
        using var stop = new CancellationTokenSource();
        stop.Cancel();
        var runner = new GraphicsRunner(Others, isAsked: true, () => [new PtxProcessor()]);
        var covered = Run(runner, Failing, stop.Token);
        Assert.Equal((0, null), (covered.To, covered.Trouble));
    }

    [Fact]
    public void More_is_within_reach_than_on_other_processors()
    {
        var runner = new GraphicsRunner(Others, isAsked: false, () => [new PtxProcessor()]);
        Assert.True(runner.ReachBits > 0);
        Assert.Equal(1, runner.GraphicsProcessors);
    }
}
