using Reckoner.Checking;
using Reckoner.Diagnostics;
using Reckoner.Page.State;
using Reckoner.Questions;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Page.Tests.State;

public sealed class JudgementTests
{
    /// <summary>Runs the gates here; a run is said to take a time for itself and one for each case.</summary>
    private sealed class Runner(double seconds, double secondsOfCase) : ICheckRunner
    {
        public TimeSpan Now { get; private set; }
        public List<int> Bits { get; } = [];
        public List<CheckProgram> Programs { get; } = [];

        public int Threads => 1;

        public Diagnostic? Refusal => null;

        public IPlaneEngine Engine(PlaneProgram program, long steps) => InterpretedEngine.Widest;

        public Task<CoveredSteps> Run(
            CheckProgram program,
            long from,
            long to,
            Action<long>? covered,
            CancellationToken stop
        )
        {
            Bits.Add(program.Space.Bits);
            Programs.Add(program);
            Now += TimeSpan.FromSeconds(seconds + secondsOfCase * Math.Pow(2, program.Space.Bits));
            var run = new CheckRun(program, InterpretedEngine.Widest);
            return Task.FromResult(new CoveredSteps(run.Run(from, to, stop), run.Counts, "here"));
        }
    }

    private static async Task<(IReadOnlyList<string> Said, Runner Runner)> Judged(
        Sheet sheet,
        double seconds,
        double secondsOfCase = 0
    )
    {
        var runner = new Runner(seconds, secondsOfCase);
        var judgement = new Judgement(runner, () => runner.Now);
        var reading = Reading.Of(sheet);
        await judgement.Run(reading, Machines.Before(sheet, reading.Machine), () => { }, CancellationToken.None);
        return ([.. judgement.Verdict!.Said(Vocabulary.English)], runner);
    }

    [Fact]
    public async Task A_right_machine_is_right_at_the_largest_width_that_takes_no_longer_than_half_a_second()
    {
        // 16 times as many cases as at 16 bits would take a second.
        var (said, runner) = await Judged(Sheet.Of("divide-still-divisor")!, 0.3, 1e-6);
        Assert.Equal([8, 16], runner.Bits);
        Assert.Equal(
            [
                "Right for all 65,280 pairs of operands inside \"given\" at n = 8.",
                "256 cases outside \"given\", what is stated holds in each.",
                "65,280 cases, each with the results of divide-moving-divisor.",
            ],
            said
        );
        var (_, quick) = await Judged(Sheet.Of("divide-still-divisor")!, 0.3, 1e-8);
        Assert.Equal([8, 16, 20, 24], quick.Bits);
    }

    [Fact]
    public async Task Where_even_the_first_width_takes_a_second_it_is_the_last()
    {
        var (said, runner) = await Judged(Sheet.Of("divide-still-divisor")!, 1);
        Assert.Equal([8], runner.Bits);
        Assert.StartsWith("Right for all 240 pairs", said[0], StringComparison.Ordinal);
    }

    /// <summary>
    /// One shift too many doubles the remainder, so every pair with a remainder is wrong. Of the 240 pairs below 16 with a divisor,
    /// the sum of floor(15 / d) + 1 over d = 1 to 15, which is 60, have none: counted by hand.
    /// </summary>
    [Fact]
    public async Task A_machine_that_shifts_once_more_is_wrong_exactly_when_something_remains()
    {
        var right = Sheet.Of("divide-still-divisor")!;
        var wrong = right with
        {
            Text = right.Text.Replace(
                "  if not last\n    R <- shl(R, 0)\n  end",
                "  R <- shl(R, 0)",
                StringComparison.Ordinal
            ),
        };
        Assert.NotEqual(right.Text, wrong.Text);
        var (said, _) = await Judged(wrong, 1);
        Assert.Equal(
            [
                "Wrong for 180 of 240 pairs of operands inside \"given\" at n = 4.",
                "Smallest: dividend = 1, divisor = 2.",
                "At n = 4 it is wrong for 180 of 240, exactly when remainder <> 0.",
                "What is stated does NOT hold in 15 of 16 cases outside \"given\".",
                "Smallest: dividend = 1, divisor = 0.",
                "In 180 of 240 cases NOT the results of divide-moving-divisor.",
                "Smallest: dividend = 1, divisor = 2.",
            ],
            said
        );
    }

    /// <summary>Seen at the first width; at the next the way is kept, and is the better one there too.</summary>
    [Theory]
    [InlineData("divide-still-divisor", OracleUse.Stepped)]
    [InlineData("multiply-shared-register", OracleUse.Written)]
    [InlineData("multiply-in-steps", OracleUse.Written)]
    [InlineData("multiply-booth", OracleUse.Stepped)]
    public async Task The_expectation_is_formed_in_the_way_that_takes_fewer_gates(string machine, OracleUse better)
    {
        var (_, runner) = await Judged(Sheet.Of(machine)!, 0, 1e-6);
        Assert.Equal([8, 16], runner.Bits);
        Assert.All(
            runner.Programs,
            program =>
            {
                var followed = CheckProgram.Followed(program.Datapath);
                var gates = Enum.GetValues<OracleUse>()
                    .ToDictionary(
                        use => use,
                        use => CheckProgram.IfGates(program.Datapath, followed, use)!.Program.Instructions.Count
                    );
                Assert.Equal(gates.Values.Min(), program.Program.Instructions.Count);
                Assert.Equal(better, gates.MinBy(g => g.Value).Key);
            }
        );
    }

    [Fact]
    public async Task A_machine_without_laws_is_not_called_right()
    {
        var sheet = Sheet.Empty with
        {
            Text =
                "machine m\nwidth n = 4 in 2..8\noperand a : n\nregister A : n loads a\nstep s\n  A <- shl(A, 0)\nresult b = A\n",
        };
        var (said, _) = await Judged(sheet, 1);
        Assert.Equal(["This description states no laws, so nothing was checked."], said);
    }
}
