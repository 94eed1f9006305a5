using Reckoner.Checking;
using Reckoner.Diagnostics;
using Reckoner.Questions;
using Xunit;

namespace Reckoner.Tests;

/// <summary>How much may be asked of questions, and what is answered where it is too much.</summary>
public class QuestionLimitTests
{
    /// <summary>Hears what is begun.</summary>
    private sealed class Begun : IWatch
    {
        public int Count { get; private set; }

        public Action<long> Begin(long casesEach, long from, long to)
        {
            Count++;
            return _ => { };
        }

        public void End() { }
    }

    private static readonly Means Means = new(new InterpretedRunner(), () => TimeSpan.Zero);

    private const string Powers = """
        machine powers
        width n = 4 in 2..16
        operand word : n
        register A : n loads word
        step keep
          A[0] <- A[0]
        result same = A
        law 3^same = 3^word
        """;

    /// <summary>The law cannot become gates at 8 bits, and word by word 2^8 cases are more than this budget has.</summary>
    [Theory]
    [InlineData("3..8")]
    [InlineData("8")]
    public async Task A_range_whose_last_width_goes_word_by_word_is_refused_before_anything_is_tried(string widths)
    {
        var begun = new Begun();
        var question = new CheckQuestion(new AskedMachine(Machines.Of(Powers)) { Widths = widths })
        {
            Budget = new Budget(CaseBits: 20, WordCaseBits: 7),
        };
        var answer = await question.Ask(Means with { Watch = begun });
        Assert.Equal("too-many-cases", Assert.Single(answer.Refusals).Diagnostic.Id.Name);
        Assert.Equal(0, begun.Count);
    }

    [Fact]
    public async Task A_range_within_the_budget_of_words_is_covered_word_by_word_where_it_must_be()
    {
        var question = new CheckQuestion(new AskedMachine(Machines.Of(Powers)) { Widths = "3..8" })
        {
            Budget = new Budget(CaseBits: 20, WordCaseBits: 8),
        };
        var answer = await question.Ask(Means);
        Assert.Equal([8, 16, 32, 64, 128, 256], answer.Data!.Checks.Select(c => (int)c.Result.Sections[0].Count.Cases));
        Assert.Equal("word by word", answer.Data.Checks[^1].Result.Method);
    }

    /// <summary>Runs what it is asked for as the core alone does, and counts how often it is told to prepare.</summary>
    private sealed class Preparing : ICheckRunner
    {
        private readonly InterpretedRunner core = new();

        public int Prepared { get; private set; }

        public int Threads => 1;

        public Diagnostic? Refusal => null;

        public int ReachBits => 1;

        public void Prepare() => Prepared++;

        public IPlaneEngine Engine(PlaneProgram program, long steps) => core.Engine(program, steps);

        public Task<CoveredSteps> Run(
            CheckProgram program,
            long from,
            long to,
            Action<long>? covered,
            CancellationToken stop
        ) => core.Run(program, from, to, covered, stop);
    }

    /// <summary>To begin a graphics processor takes longer than most checks: only what is more than others try at once is told of.</summary>
    [Theory]
    [InlineData(8, 0, true)]
    [InlineData(7, 1, true)]
    [InlineData(6, 1, false)]
    public async Task What_has_a_wider_reach_is_told_to_prepare_where_more_is_asked(
        int bits,
        int prepared,
        bool covered
    )
    {
        var runner = new Preparing();
        var question = new CheckQuestion(Walks.At("divide-still-divisor", 4))
        {
            Budget = new Budget(CaseBits: bits, WordCaseBits: bits),
        };
        var answer = await question.Ask(Means with { Runner = runner });
        Assert.Equal(
            (prepared, covered),
            (Math.Min(1, runner.Prepared), answer.Data?.Checks is [{ Result.Complete: true }])
        );
    }

    [Fact]
    public void More_operands_than_can_be_kept_are_not_drawn()
    {
        var slips = new SlipsQuestion(Walks.At("divide-still-divisor", 4));
        var most = SlipsQuestion.MostSampled;
        Assert.Equal(most, (slips with { Sample = new DrawnSample(1, most) }).Sample!.Value.Count);
        Assert.Throws<ArgumentOutOfRangeException>(() => slips with { Sample = new DrawnSample(1, most + 1) });
        var operands = new OperandsQuestion(Walks.At("divide-still-divisor", 4), ChosenFor.Showing);
        most = OperandsQuestion.MostSampled;
        Assert.Equal(most, (operands with { Sample = most }).Sample);
        Assert.Throws<ArgumentOutOfRangeException>(() => operands with { Sample = most + 1 });
        Assert.Throws<ArgumentOutOfRangeException>(() => operands with { Sample = 0 });
    }

    /// <summary>A search that is not made is an answer with nothing found; what is refused says why.</summary>
    [Fact]
    public void Whoever_asks_where_a_machine_fails_gets_an_answer_or_a_reason()
    {
        var wide = new FailureQuestion(Walks.At("divide-still-divisor", 8)).Ask(Means);
        Assert.Null(wide.Data!.Found);
        Assert.NotNull(new FailureQuestion(Walks.At("divide-still-divisor", 4)).Ask(Means).Data!.Found);
        var none = new FailureQuestion(new AskedMachine(Machines.Of(Powers)) { Widths = 99 }).Ask(Means);
        Assert.Equal("width-out-of-range", Assert.Single(none.Refusals).Diagnostic.Id.Name);
    }
}
