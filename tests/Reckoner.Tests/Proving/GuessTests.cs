using System.Numerics;
using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Execution;
using Reckoner.Invariants;
using Reckoner.Proving;
using Reckoner.Running;
using Xunit;

namespace Reckoner.Tests.Proving;

/// <summary>What is said to hold in every round is judged rightly, and whatever the answer shows is so.</summary>
public class GuessTests
{
    private static IReadOnlyList<IReadOnlyList<string>> Table =>
        MarkdownPage.Of("examples/guess-the-invariant.md").Table("Guess the invariant");

    public static TheoryData<int> Rows => [.. Enumerable.Range(0, 30)];

    [Fact]
    public void There_are_thirty_for_a_class() => Assert.Equal(30, Table.Count);

    [Theory]
    [MemberData(nameof(Rows))]
    public void Each_has_its_answer(int row)
    {
        var (machine, text, answer) = (Table[row][0], Table[row][1].Trim('`'), Table[row][2]);
        var guessed = Of(machine, text);
        Assert.Equal(answer, Said(guessed));
        AssertShown(guessed, text);
    }

    internal static Guessed Of(string name, string text) => Of(Machines.Named(name), text, () => false);

    internal static Guessed Of(IMachine machine, string text, Func<bool> isSpent)
    {
        var report = new Report(null);
        var guessed = GuessJudge.Of(machine, Machines.Bound(machine), text, report, isSpent);
        Assert.Empty(report.InOrder());
        return guessed!;
    }

    private static string Said(Guessed guessed)
    {
        var kind = guessed.Kind switch
        {
            GuessKind.False => "false",
            GuessKind.NotKept => "not enough to go on",
            GuessKind.TooWeak => "too weak",
            GuessKind.LawFails => "the law fails",
            GuessKind.Proof => "the proof",
            GuessKind.Open => "neither shown nor refuted",
            GuessKind.NotReached => "not reached",
        };
        var idle = string.Join(", ", guessed.Idle);
        if (guessed.State is not { } state)
        {
            return idle.Length == 0 ? kind : $"{kind}; not needed: {idle}";
        }
        var operands = state.Datapath.Operands.Zip(state.Operands, (o, b) => $"{o.Name} = {o.Number(b)}");
        var registers = state.Datapath.Registers.Zip(
            state.Registers,
            (r, b) => $"{r.Name} = {Numbers.Bits.Text(b, r.Width)}"
        );
        List<string> parts =
        [
            $"n = {state.Width}",
            .. operands,
            $"after {state.Round} round{(state.Round == 1 ? "" : "s")}",
            .. guessed.Kind == GuessKind.False ? [] : registers,
        ];
        return $"{kind}: {string.Join(", ", parts)}";
    }

    /// <summary>The state is one that the answer speaks of, by other ways than those by which it was found.</summary>
    internal static void AssertShown(Guessed guessed, string text)
    {
        if (guessed.Proof is { } proof)
        {
            Assert.True(Proofs.Verified(proof.Machine, proof.Certificate!).IsAccepted);
            Assert.True(proof.IsWhole);
        }
        if (guessed.State is not { } state)
        {
            return;
        }
        var loop = state.Datapath.Schedule.Single(s => s.IsLoop);
        if (guessed.Kind is GuessKind.NotKept or GuessKind.TooWeak)
        {
            Assert.NotEqual(Walked(state), state.Registers);
        }
        if (guessed.Kind == GuessKind.LawFails)
        {
            Assert.Equal(Walked(state), state.Registers);
        }
        if (guessed.Kind == GuessKind.False)
        {
            Assert.True(state.Datapath.IsGiven(state.Operands));
            Assert.Equal(Walked(state), state.Registers);
            Assert.False(Holds(state, state.Round, state.Registers, text));
            return;
        }
        Assert.True(Holds(state, state.Round, state.Registers, text));
        var execution = new Execution<BigInteger>(new NumberWords([]));
        execution.Begin(state.Registers);
        foreach (var step in loop.Steps)
        {
            execution.Take(new Cycle(0, loop, state.Round + 1, step));
        }
        if (state.After is { } after)
        {
            Assert.Equal(after, execution.Registers);
            Assert.False(Holds(state, state.Round + 1, after, text));
        }
        if (state.Fails is var (law, results))
        {
            Assert.Equal(loop.Count, state.Round + 1);
            Assert.False(ClaimJudge.Holds(law, state.Operands, results));
        }
    }

    /// <summary>The registers to which the operands of a state lead after as many rounds.</summary>
    private static IReadOnlyList<BigInteger> Walked(GuessState state) =>
        Walk.Of(state.Datapath, state.Operands)
            .Rows.Last(r => r.Repeat == 0 ? state.Round == 0 : r.Round == state.Round)
            .Registers;

    /// <summary>The text itself with numbers in the place of names, computed from left to right.</summary>
    private static bool Holds(GuessState state, int round, IReadOnlyList<BigInteger> registers, string text)
    {
        var variables = new Variables();
        var lifted = LiftedMachine.Of(state.Datapath.Machine);
        var loop = lifted.Datapath.Schedule.ToList().FindIndex(s => s.IsLoop);
        foreach (var operand in lifted.Datapath.Operands)
        {
            variables.Operand(operand.Name);
        }
        var usual = new Pieces(lifted, Traces.Of(lifted, OperandPart.Inside), variables).AtHead(loop, 0);
        var count = lifted.Count(lifted.Datapath.Schedule[loop]);
        var proposed = InvariantReader.Read(text, lifted, variables, usual, count, new Report(null))!;
        var exact = ExactState.Of(
            state.Width,
            round,
            variables,
            state.Datapath,
            state.Operands,
            proposed.Pieces,
            registers
        );
        return proposed.Facts.All(f => WalkHoldingTests.IsSo(InvariantText.WithNumbers(f, variables, exact)));
    }

    public static TheoryData<string> Proved => [.. Proofs.Base, "root-restoring"];

    /// <summary>What a proof prints is read back as the same, and is a proof.</summary>
    [Theory]
    [MemberData(nameof(Proved))]
    public void What_is_printed_is_a_guess_that_proves_it(string name)
    {
        var proof = Proofs.Of(name).Laws.Proofs[0];
        var printed = proof.Loops[0].NeededHead.Select(f => InvariantText.Of(f, proof.Variables)).ToList();
        var guessed = Of(name, string.Join(" and ", printed));
        Assert.Equal(printed, guessed.Formulas);
        Assert.Equal(GuessKind.Proof, guessed.Kind);
    }

    /// <summary>Of a machine that is wrong nothing is a proof: the equation of the right one, and what forbids every state.</summary>
    [Theory]
    [InlineData(
        "multiply-carry-dropped",
        "2^n * Q * multiplicand + P = 2^(n-i) * multiplicand * multiplier and M = multiplicand"
    )]
    [InlineData("multiply-carry-dropped", "1 = 1")]
    [InlineData("multiply-carry-dropped", "1 = 0")]
    [InlineData("divide-sign-bit", "R < 0")]
    public void Of_a_wrong_machine_nothing_is_a_proof(string name, string text) =>
        Assert.NotEqual(GuessKind.Proof, Of(name, text).Kind);

    [Theory]
    [Trait("Length", "long")]
    [InlineData("divide-result-early", "R >= 0")]
    public void Nor_is_it_of_another(string name, string text) => Of_a_wrong_machine_nothing_is_a_proof(name, text);

    [Theory]
    [InlineData("R.high < 2^(n-i+1) * divisor")]
    [InlineData("R[2n-1..i] + 1 <= 2^(n+1-i) * divisor")]
    [InlineData("divisor*2^(n-i+1) > R.high")]
    public void The_same_may_be_written_in_several_ways(string text) =>
        Assert.Equal(["R.high < 2^(n-i+1) * divisor"], Of("divide-shared-register", text).Formulas);

    /// <summary>What is below something need not be 1 below it where numbers are not whole: 4 is below 9/2.</summary>
    [Fact]
    public void Halves_are_compared_as_halves() =>
        Assert.Equal(
            ["1/2 * R.high <= 2^(n-i) * divisor - 1/2"],
            Of("divide-shared-register", "R.high / 2 < 2^(n-i) * divisor").Formulas
        );
}
