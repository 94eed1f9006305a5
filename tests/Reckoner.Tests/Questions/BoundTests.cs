using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Questions;
using Reckoner.Reporting;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>Whatever takes long has an estimate, a budget, progress and an end.</summary>
public class BoundTests
{
    private static readonly Means Usual = new(new InterpretedRunner(), () => TimeSpan.Zero);

    /// <summary>Few operands, and as many rounds as there are numbers of so many bits.</summary>
    private const string Rounds = """
        machine many-rounds

        width n = 4 in 2..17

        operand a : n
        operand b : n

        register A "a" : n loads a
        register B "b" : n loads b

        repeat 2^n
          A <- A + B
        end

        result r = A

        law r = a
        """;

    /// <summary>A step of many moments, each of which can be done wrongly in several ways.</summary>
    private static string Moments(int count) =>
        $"""
            machine many-moments

            width n = 4 in 2..16

            operand a : n
            operand b : n

            register A "a" : n loads a
            register B "b" : n loads b

            step go
              {string.Join(
                "\nthen\n  ",
                Enumerable.Range(0, count).Select(i => i % 2 == 0 ? "A <- A + B" : "B <- B - A")
            )}

            result r = A

            law 0 <= r
            """;

    private static Datapath At(string text, int width) => Machines.Bound(Machines.Of(text), width);

    private static string Said<T>(Answer<T> answer)
        where T : class =>
        string.Join('\n', answer.Refusals.SelectMany(f => DiagnosticText.Sentences(f.Diagnostic, Vocabulary.English)));

    [Fact]
    public async Task Few_cases_through_very_many_gates_are_refused_with_the_parts_that_would_do()
    {
        AskedMachine asked = At(Rounds, 8);
        var whole = (await new CheckQuestion(asked).Ask(Usual)).Data!.Checks[0].Result;
        var gates = whole.Gates!.Value.Count;
        Assert.InRange(gates, 1000, 1_000_000);
        var budget = Budget.Usual with { GateRuns = 5 * gates };
        var question = new CheckQuestion(asked) { Budget = budget };
        var refused = Said(await question.Ask(Usual));
        // 16 steps, of which 5 may be run at once.
        Assert.StartsWith(
            $"65,536 cases at n = 8, each through {gates} gates, would take",
            refused.Replace($"{gates:N0}", $"{gates}", StringComparison.Ordinal),
            StringComparison.Ordinal
        );
        Assert.Contains("one of 4 parts after the other", refused, StringComparison.Ordinal);
        for (var k = 1; k <= 4; k++)
        {
            Assert.True((await (question with { Part = new(k, 4) }).Ask(Usual)).IsGiven);
        }
    }

    [Fact]
    public void Many_cycles_are_judged_by_structure_where_the_wiring_of_each_would_take_too_long()
    {
        Assert.True(new IdleQuestion(At(Rounds, 5)).Ask(Usual).Data!.IsExhaustive);
        Assert.False(new IdleQuestion(At(Rounds, 10)).Ask(Usual).Data!.IsExhaustive);
    }

    [Fact]
    public void Very_many_slips_are_refused_with_their_number()
    {
        var (few, many) = (At(Moments(20), 4), At(Moments(1200), 4));
        Assert.True(
            new SlipsQuestion(few) { AsksConditions = false }
                .Ask(Usual)
                .IsGiven
        );
        const string Refused = @"^Its [0-9,]+ slips at n = 4, each of some [0-9,]+ gates, would take";
        Assert.Matches(Refused, Said(new SlipsQuestion(many).Ask(Usual)));
        Assert.Matches(Refused, Said(new OperandsQuestion(many, ChosenFor.ExposingAll).Ask(Usual)));
        Assert.Matches(Refused, Said(new OperandsQuestion(many, ChosenFor.TellingApart).Ask(Usual)));
        Assert.True(
            new OperandsQuestion(many, ChosenFor.Showing) { Showing = "a = 3" }
                .Ask(Usual)
                .IsGiven
        );
    }

    [Fact]
    [Trait("Length", "long")]
    public async Task More_gates_than_are_made_are_a_finding_and_no_fault()
    {
        var machine = At(Rounds, 17);
        Assert.StartsWith(
            "At this width the machine, laid out cycle by cycle, takes more than 4,194,304 gates",
            Said(await new CheckQuestion(machine).Ask(Usual)),
            StringComparison.Ordinal
        );
        Assert.True(new IdleQuestion(machine).Ask(Usual).IsGiven);
    }

    [Fact]
    public void A_graph_makes_so_many_gates_and_no_more()
    {
        var graph = new GateGraph(8) { Most = 3 };
        for (var i = 1; i <= 3; i++)
        {
            graph.And(GateGraph.Input(0), GateGraph.Input(i));
        }
        // One that is there already is none more.
        Assert.Equal(graph.Gates.Count, graph.And(GateGraph.Input(0), GateGraph.Input(1)) >= 0 ? 3 : 0);
        Assert.Equal(
            3,
            Assert.Throws<GatesBeyondRoomException>(() => graph.And(GateGraph.Input(0), GateGraph.Input(4))).Most
        );
    }

    /// <summary>Is told how far a question is, and stops it as soon as it is.</summary>
    private sealed class Stopper : IWatch, IDisposable
    {
        private readonly CancellationTokenSource source = new();

        public List<long> Told { get; } = [];

        public (long From, long To) Stretch { get; private set; }

        public Means Means => Usual with { Watch = this, Stop = source.Token };

        public Action<long> Begin(long casesEach, long from, long to)
        {
            Stretch = (from, to);
            return done =>
            {
                Told.Add(done);
                source.Cancel();
            };
        }

        public void End() { }

        public void Dispose() => source.Dispose();
    }

    [Fact]
    public void Questions_over_all_operands_tell_how_far_they_are_and_end_when_they_are_stopped()
    {
        var machine = Walks.At("divide-still-divisor", 4);
        using var idle = new Stopper();
        Assert.Throws<OperationCanceledException>(() => new IdleQuestion(machine).Ask(idle.Means));
        Assert.Equal((0, 6), idle.Stretch);
        Assert.Equal([1], idle.Told);

        using var slips = new Stopper();
        Assert.Throws<OperationCanceledException>(() =>
            new SlipsQuestion(At(Moments(400), 4)) { AsksConditions = false }.Ask(slips.Means)
        );
        Assert.InRange(Assert.Single(slips.Told), 1, slips.Stretch.To - 1);

        var stopped = new CancellationToken(canceled: true);
        Assert.Throws<OperationCanceledException>(() =>
            new OperandsQuestion(machine, ChosenFor.ExposingAll).Ask(Usual with { Stop = stopped })
        );
    }
}
