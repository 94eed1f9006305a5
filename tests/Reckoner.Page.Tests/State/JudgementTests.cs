using Reckoner.Checking;
using Reckoner.Page.State;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Page.Tests.State;

public sealed class JudgementTests
{
    /// <summary>Runs the gates here; each run is said to take the time it is given.</summary>
    private sealed class Runner(TimeSpan each) : ICheckRunner
    {
        public TimeSpan Now { get; private set; }
        public List<int> Bits { get; } = [];

        public Task<IReadOnlyList<SectionCount>?> Run(
            CheckProgram program,
            Action<double>? covered,
            CancellationToken stop
        )
        {
            Bits.Add(program.Space.Bits);
            Now += each;
            var run = new CheckRun(program, InterpretedEngine.Widest);
            run.Run(0, program.Space.Steps, stop);
            return Task.FromResult<IReadOnlyList<SectionCount>?>(run.Counts);
        }
    }

    private static async Task<(IReadOnlyList<string> Said, Runner Runner)> Judged(Sheet sheet, double seconds)
    {
        var runner = new Runner(TimeSpan.FromSeconds(seconds));
        var judgement = new Judgement(runner, () => runner.Now);
        var reading = Reading.Of(sheet);
        await judgement.Run(reading, Machines.Before(sheet, reading.Machine), () => { }, CancellationToken.None);
        return ([.. judgement.Verdict!.Said(Vocabulary.English)], runner);
    }

    [Fact]
    public async Task A_right_machine_is_right_at_the_largest_width_that_takes_no_longer_than_half_a_second()
    {
        var (said, runner) = await Judged(Sheet.Of("divide-still-divisor")!, 0.061);
        Assert.Equal([8, 16, 20], runner.Bits.Take(3));
        Assert.StartsWith("Right for all ", said[0], StringComparison.Ordinal);
        var (slow, slowRunner) = await Judged(Sheet.Of("divide-still-divisor")!, 0.3);
        Assert.Equal([8], slowRunner.Bits);
        Assert.Equal(
            [
                "Right for all 240 pairs of operands inside \"given\" at n = 4.",
                "16 cases outside \"given\", what is stated holds in each.",
                "240 cases, each with the results of divide-moving-divisor.",
            ],
            slow
        );
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
        var (said, _) = await Judged(wrong, 0.3);
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

    [Fact]
    public async Task A_machine_without_laws_is_not_called_right()
    {
        var sheet = Sheet.Empty with
        {
            Text =
                "machine m\nwidth n = 4 in 2..8\noperand a : n\nregister A : n loads a\nstep s\n  A <- shl(A, 0)\nresult b = A\n",
        };
        var (said, _) = await Judged(sheet, 0.3);
        Assert.Equal(["This description states no laws, so nothing was checked."], said);
    }
}
