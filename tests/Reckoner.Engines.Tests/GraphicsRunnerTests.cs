using Reckoner.Checking;
using Reckoner.Datapaths;
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
        // Each waits in its first launch until all have begun theirs.
        using var met = new Barrier(3);
        List<PtxProcessor> processors =
        [
            .. Enumerable
                .Range(0, met.ParticipantCount)
                .Select(_ => new PtxProcessor
                {
                    Begins = launch => Assert.True(launch > 0 || met.SignalAndWait(TimeSpan.FromMinutes(1))),
                }),
        ];
        var check = CheckProgram.Of(Machines.At("divide-shared-register", 8), null, OracleUse.Stepped);
        var kernel = PtxKernel.Of(check, 0);
        var made = processors.Select(p => p.Load(kernel)).ToList();
        var (to, counts, trouble) = GraphicsCheck.Run(check, kernel, made, 0, check.Space.Steps, null, Stop, 1);
        Assert.Null(trouble);
        Assert.Equal(check.Space.Steps, to);
        Assert.All(processors, p => Assert.True(p.Launches > 0));
        Assert.True(processors.Sum(p => p.Launches) > processors.Count);
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

    /// <summary>A call of a driver cannot be broken off: whoever stops does not wait for it, and the end of the process does.</summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void What_is_stopped_while_a_driver_works_does_not_wait_for_it(bool isTrial)
    {
        using var stop = new CancellationTokenSource();
        using var goOn = new ManualResetEventSlim();
        var trial = LookupTrial.Kernel.Text;
        var loaded = 0;
        void Wait(PtxKernel kernel)
        {
            if (kernel.Text == trial == isTrial)
            {
                stop.Cancel();
                Assert.True(goOn.Wait(TimeSpan.FromMinutes(1)));
                Interlocked.Increment(ref loaded);
            }
        }
        var runner = new GraphicsRunner(Others, isAsked: true, () => [new PtxProcessor { Loads = Wait }]);
        var covered = Run(runner, Failing, stop.Token);
        Assert.Equal((0, null, 0), (covered.To, covered.Trouble, loaded));
        Assert.All(covered.Counts, c => Assert.True(c.Cases.IsZero && c.Smallest is null));
        DriverWork.Finish(TimeSpan.FromMilliseconds(1));
        Assert.Equal(0, loaded);
        goOn.Set();
        DriverWork.Finish(TimeSpan.FromMinutes(1));
        Assert.Equal(1, loaded);
        // What was made ready meanwhile is there for the next who asks.
        Assert.Equal(Failing.Space.Steps, Run(runner, Failing, Stop).To);
        Assert.Equal(1, loaded);
    }

    /// <summary>It is asked by one thread at a time: another check waits until what was left behind is done.</summary>
    [Fact]
    public void Another_check_waits_for_what_was_left_behind()
    {
        using var stop = new CancellationTokenSource();
        var trial = LookupTrial.Kernel.Text;
        var (now, most) = (0, 0);
        void Count(PtxKernel kernel)
        {
            if (kernel.Text == trial)
            {
                return;
            }
            most = Math.Max(most, Interlocked.Increment(ref now));
            stop.Cancel();
            Thread.Sleep(50);
            Interlocked.Decrement(ref now);
        }
        var runner = new GraphicsRunner(Others, isAsked: true, () => [new PtxProcessor { Loads = Count }]);
        Assert.Equal(0, Run(runner, Failing, stop.Token).To);
        var other = CheckProgram.Of(Machines.At("divide-shared-register", 6), null, OracleUse.Stepped);
        Assert.Equal(other.Space.Steps, Run(runner, other, Stop).To);
        Assert.Equal(1, most);
    }

    [Fact]
    public void What_is_stopped_on_its_way_has_covered_what_was_launched()
    {
        using var stop = new CancellationTokenSource();
        var datapath = Machines.At("divide-shared-register", 9);
        var check = CheckProgram.Of(datapath, null, OracleUse.Stepped, new GateFault(100, 0x00));
        var kernel = PtxKernel.Of(check, 0);
        using var made = new PtxProcessor { Begins = launch => Assert.True(launch < 3) }.Load(kernel);
        void Covered(long steps)
        {
            if (steps > 1)
            {
                stop.Cancel();
            }
        }
        var (to, counts, trouble) = GraphicsCheck.Run(
            check,
            kernel,
            [made],
            0,
            check.Space.Steps,
            Covered,
            stop.Token,
            1
        );
        Assert.Null(trouble);
        Assert.InRange(to, 2, check.Space.Steps - 1);
        Assert.Contains("smallest", Expected(check, 0, to));
        Assert.Equal(Expected(check, 0, to), Machines.Line(counts));
    }

    /// <summary>It tells of failures, and marks nothing, or all the other rows.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void Failures_that_are_not_where_it_says_are_trouble(int turned)
    {
        var check = CheckProgram.Of(
            Machines.At("multiply-booth", 7),
            null,
            OracleUse.Stepped,
            FailingInSome(Machines.At("multiply-booth", 7))
        );
        var kernel = PtxKernel.Of(check, 0);
        var processor = new PtxProcessor
        {
            Told = o => o with { Marks = [.. o.Marks.Select(mark => (byte)(turned * (1 - mark)))] },
        };
        using var made = processor.Load(kernel);
        var (to, counts, trouble) = GraphicsCheck.Run(check, kernel, [made], 0, check.Space.Steps, null, Stop);
        Assert.Equal(Id.GraphicsTrouble, trouble?.Id);
        Assert.Contains(trouble!.Facts, f => f.Value is Term { Key: "graphics.wrong" });
        Assert.Equal(0, to);
        Assert.All(counts, c => Assert.True(c.Failures.IsZero && c.Smallest is null));
    }

    /// <summary>The first fault with which some steps fail and others do not.</summary>
    private static GateFault FailingInSome(Datapath datapath) =>
        Enumerable
            .Range(0, 200)
            .Select(gate => new GateFault(gate, 0x80))
            .First(fault =>
            {
                var check = CheckProgram.Of(datapath, null, OracleUse.Stepped, fault);
                var failing = Enumerable
                    .Range(0, (int)check.Space.Steps)
                    .Count(step => !Runs.Counts(check, Runs.Engines[0], step, step + 1)[0].Failures.IsZero);
                return failing > 0 && failing < check.Space.Steps;
            });

    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    public void A_fault_of_our_own_reaches_whoever_asked(int processors)
    {
        var check = CheckProgram.Of(Machines.At("divide-shared-register", 8), null, OracleUse.Stepped);
        var kernel = PtxKernel.Of(check, 0);
        var made = Enumerable
            .Range(0, processors)
            .Select(_ => new PtxProcessor { Begins = _ => throw new InvalidOperationException("ours") }.Load(kernel))
            .ToList();
        var thrown = Assert.Throws<AggregateException>(() =>
            GraphicsCheck.Run(check, kernel, made, 0, check.Space.Steps, null, Stop, 1)
        );
        Assert.All(thrown.InnerExceptions, e => Assert.IsType<InvalidOperationException>(e));
    }

    /// <summary>Covers whatever it is asked for at once, and counts nothing.</summary>
    private sealed class Idle : ICheckRunner
    {
        public int Threads => 1;

        public Diagnostic? Refusal => null;

        public IPlaneEngine Engine(PlaneProgram program, long steps) => InterpretedEngine.Widest;

        public Task<CoveredSteps> Run(
            CheckProgram program,
            long from,
            long to,
            Action<long>? covered,
            CancellationToken stop
        ) => Task.FromResult(new CoveredSteps(to, CheckRun.Nothing(program), "idle"));
    }

    private static CheckProgram BeyondOthers { get; } =
        CheckProgram.Of(Machines.At("divide-shared-register", 18), null, OracleUse.Stepped);

    private static GraphicsRunner NotBelieved(bool isAsked)
    {
        var trial = LookupTrial.Kernel.Text;
        return new GraphicsRunner(
            new Idle(),
            isAsked,
            () => [new PtxProcessor { Changed = text => text == trial ? text : text.Replace("popc.b32", "not.b32") }]
        );
    }

    /// <summary>
    /// What is within the others' reach they do, at once or turn by turn; beyond it the trouble is told instead of hours begun in
    /// silence.
    /// </summary>
    [Fact]
    public async Task Unasked_one_that_is_not_believed_hands_over_what_others_can_do_and_no_more()
    {
        var check = BeyondOthers;
        var most = (long)Budget.Usual.Cases / check.Space.Lanes;
        Assert.True(check.Space.Steps > most);
        async Task<(long To, Id? Trouble)> Asked(GraphicsRunner runner, long from, long to) =>
            Told(await runner.Run(check, from, to, null, Stop));
        Assert.Equal((most, null), await Asked(NotBelieved(isAsked: false), 0, most));
        Assert.Equal((0, Id.GraphicsTrouble), await Asked(NotBelieved(isAsked: false), 0, most + 1));
        var turns = NotBelieved(isAsked: false);
        Assert.Equal((most - 64, null), await Asked(turns, 0, most - 64));
        Assert.Equal((most, null), await Asked(turns, most - 64, most));
        Assert.Equal((most, Id.GraphicsTrouble), await Asked(turns, most, most + 1));
        // Another check has what others try at once to itself.
        Assert.Null((await turns.Run(Failing, 0, Failing.Space.Steps, null, Stop)).Trouble);
    }

    private static (long To, Id? Trouble) Told(CoveredSteps covered) => (covered.To, covered.Trouble?.Id);

    /// <summary>What turns out when its speed is measured counts too: then nothing more is in reach than on others.</summary>
    [Fact]
    public async Task One_that_is_not_believed_when_it_is_measured_gives_no_estimate()
    {
        var clock = TimeSpan.Zero;
        TimeSpan Clock() => clock += TimeSpan.FromSeconds(1);
        var right = new GraphicsRunner(new Idle(), isAsked: false, () => [new PtxProcessor()]);
        Assert.True(right.StepsASecond(Failing, Clock, Stop) > 0);
        foreach (var isAsked in new[] { false, true })
        {
            var runner = NotBelieved(isAsked);
            Assert.True(runner.ReachBits > 0);
            Assert.Null(runner.StepsASecond(BeyondOthers, Clock, Stop));
            Assert.Equal((0, 0), (runner.ReachBits, runner.GraphicsProcessors));
            // One that was asked for is not replaced in silence.
            var (_, trouble) = Told(await runner.Run(BeyondOthers, 0, 1 << 20, null, Stop));
            Assert.Equal(isAsked ? Id.GraphicsTrouble : null, trouble);
        }
    }

    [Fact]
    public void More_is_within_reach_than_on_other_processors()
    {
        var runner = new GraphicsRunner(Others, isAsked: false, () => [new PtxProcessor()]);
        Assert.True(runner.ReachBits > 0);
        Assert.Equal(1, runner.GraphicsProcessors);
    }
}
