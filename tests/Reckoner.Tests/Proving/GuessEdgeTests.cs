using System.Text.Json;
using Reckoner.Diagnostics;
using Reckoner.Invariants;
using Reckoner.Proving;
using Reckoner.Reporting;
using Xunit;
using Fact = Reckoner.Proving.Fact;

namespace Reckoner.Tests.Proving;

/// <summary>Nothing is called a proof, idle, or a state that shows something, without being that.</summary>
public class GuessEdgeTests
{
    private const string ProductLaw = "law product = multiplicand * multiplier";

    [Fact]
    public void Of_a_machine_without_laws_nothing_is_a_proof()
    {
        var guessed = GuessTests.Of(Proofs.Changed("multiply-shared-register", (ProductLaw, "")), "1 = 1", () => false);
        Assert.Equal((GuessKind.NotReached, Obstacle.NoLaws), (guessed.Kind, guessed.End!.Value.Obstacle));
    }

    /// <summary>The verifier is to see all that is called verified, also what the proof does not need.</summary>
    [Theory]
    [InlineData(
        "divide-still-divisor",
        "2^(n-i+1) * Q * divisor + R.high = dividend and R.low = 0 and R.high < 2^(n-i+1) * divisor and D = divisor"
    )]
    [InlineData(
        "divide-shared-register",
        "2^(n-i+1) * R.low * D + R.high = dividend and R.high < 2^(n-i+1) * D and D = divisor and R.low < 2^i"
    )]
    public void What_is_not_needed_is_verified_too(string name, string text)
    {
        var guessed = GuessTests.Of(name, text);
        Assert.Single(guessed.Idle);
        var certificate = JsonDocument.Parse(guessed.Proof!.Certificate!).RootElement;
        var loop = Assert.Single(certificate.GetProperty("sections")[0].GetProperty("loops").EnumerateArray());
        Assert.Equal(guessed.Formulas.Count, loop.GetProperty("head").GetProperty("facts").GetArrayLength());
    }

    /// <summary>2^60 + 1 and 2^60 are the same to arithmetic that rounds; in the states that are shown it does hold.</summary>
    [Fact]
    public void A_state_is_one_in_which_it_holds_exactly()
    {
        const string text = "multiplicand + 2^60 <= M + 2^(30n) and M <= multiplicand";
        var guessed = GuessTests.Of("multiply-shared-register", text);
        Assert.NotNull(guessed.State);
        GuessTests.AssertShown(guessed, text);
    }

    [Fact]
    public void A_state_that_its_operands_lead_to_shows_that_the_machine_is_wrong()
    {
        const string text = "2^i * P.low * multiplicand + P.high = multiplicand * multiplier and M = multiplicand";
        var wrong = Proofs.Changed("multiply-shared-register", (ProductLaw, ProductLaw + " + 1"));
        var guessed = GuessTests.Of(wrong, text, () => false);
        Assert.Equal(GuessKind.LawFails, guessed.Kind);
        GuessTests.AssertShown(guessed, text);
    }

    /// <summary>However early the time ends, that is what is said; also of what is false, where it ended before that was seen.</summary>
    [Theory]
    [InlineData(0, "P = 1")]
    [InlineData(0, "Q * M + P = multiplicand * multiplier and Q < 2^(n-i)")]
    [InlineData(20, "Q * M + P = multiplicand * multiplier and Q < 2^(n-i)")]
    public void Time_that_is_spent_is_why_it_stays_open(int calls, string text)
    {
        var guessed = GuessTests.Of(Machines.Named("multiply-moving-multiplicand"), text, () => calls-- <= 0);
        Assert.Equal((GuessKind.Open, Obstacle.Budget), (guessed.Kind, guessed.End!.Value.Obstacle));
    }

    /// <summary>It is enough for one law, and the other is one that nothing is enough for.</summary>
    [Fact]
    public void Why_it_stays_open_is_said()
    {
        var machine = Proofs.Changed(
            "multiply-shared-register",
            (ProductLaw, ProductLaw + "\nlaw ceil(multiplicand * multiplier / 3) = ceil(product / 3)")
        );
        var guessed = GuessTests.Of(
            machine,
            "2^i * P.low * multiplicand + P.high = multiplicand * multiplier and M = multiplicand",
            () => false
        );
        Assert.Equal((GuessKind.Open, Obstacle.Formula), (guessed.Kind, guessed.End!.Value.Obstacle));
    }

    /// <summary>What was looked at for one round is not missing for the next.</summary>
    [Fact]
    public void States_of_every_round_are_looked_at()
    {
        const int few = 40;
        var machine = LiftedMachine.Of(Machines.Named("multiply-shared-register"));
        var (variables, loop) = (new Variables(), machine.Datapath.Schedule.Single(s => s.IsLoop));
        var usual = new Pieces(machine, Traces.Of(machine, OperandPart.Inside), variables).AtHead(0, 0);
        var proposed = InvariantReader.Read("1 = 1", machine, variables, usual, machine.Count(loop), new Report(null))!;
        var states = new StateSearch(
            Machines.Bound(Machines.Named("multiply-shared-register"), 3),
            3,
            variables,
            proposed,
            few
        );
        Assert.All(Enumerable.Range(0, 3), round => Assert.InRange(states.At(round).Count(), 1, few));
    }

    [Fact]
    public void Where_there_is_nothing_JSON_says_null()
    {
        var state = JsonDocument
            .Parse(GuessJson.Of(GuessTests.Of("divide-shared-register", "R = dividend")))
            .RootElement.GetProperty("state");
        Assert.Equal(JsonValueKind.Null, state.GetProperty("after").ValueKind);
        Assert.Equal(JsonValueKind.Null, state.GetProperty("results").ValueKind);
    }

    [Fact]
    public void The_sign_of_a_register_and_its_bits_are_not_spoken_of_together() =>
        Assert.Equal("invariant-places", Refused("divide-non-restoring", "[A < 0] = A[n]"));

    [Fact]
    public void All_bits_of_a_register_are_the_register() =>
        Assert.Equal(GuessKind.TooWeak, GuessTests.Of("divide-shared-register", "R[2n-1..0] = R").Kind);

    /// <summary>Short to write, and without end to multiply out.</summary>
    [Theory]
    [InlineData("((((((((3^4)^4)^4)^4)^4)^4)^4)^4)^4 = R")]
    [InlineData("((((2^n + 2^i + 1)^4)^4)^4)^4 = R")]
    [InlineData("(2^(900n) + 1)^4 = R")]
    public void What_grows_too_large_is_refused(string text) =>
        Assert.Equal("invariant-form", Refused("divide-shared-register", text));

    [Fact]
    public void Nothing_longer_is_taken_for_a_number() =>
        Assert.Equal("invariant-form", Refused("divide-shared-register", new string('9', 1900) + " = R"));

    [Theory]
    [InlineData("abs(R) = R", "invariant-name")]
    [InlineData("R <> D", "invariant-form")]
    public void Only_what_is_documented_is_read(string text, string refusal) =>
        Assert.Equal(refusal, Refused("divide-shared-register", text));

    private static string Refused(string name, string text)
    {
        var report = new Report(null);
        var machine = Machines.Named(name);
        Assert.Null(GuessJudge.Of(machine, Machines.Bound(machine), text, report, () => false));
        return Assert.Single(report.InOrder()).Id.Name;
    }

    /// <summary>No sum has what was put in the place of a variable, nor what ended a path: they are noted where that happens.</summary>
    [Fact]
    public void What_fixes_a_variable_or_ends_a_path_is_noted()
    {
        var variables = new Variables();
        var (x, y) = (Form.Variable(variables.Of("x")), Form.Variable(variables.Of("y")));
        var exploration = new Exploration(new Region(2, null), variables, new Allowance(() => false));
        var ends = exploration.Walk(
            [],
            path =>
            {
                path.KnowOf(0, Fact.NotNegative(x));
                path.Know(Fact.Zero(y - 3));
                path.KnowOf(1, Fact.Zero(x - y));
                path.KnowOf(2, Fact.NotNegative(x - 3));
                path.KnowOf(3, Fact.Zero(x - 4));
                return 0;
            }
        );
        Assert.Empty(ends);
        Assert.Equal([1, 3], exploration.Decisive.Order());
    }
}
