using System.Numerics;
using Reckoner.Execution;
using Reckoner.Proving;
using Xunit;

namespace Reckoner.Tests.Proving;

/// <summary>The six base machines are proved for every width, and what is said to hold in every round does.</summary>
public class ProofTests
{
    public static TheoryData<string> Base => [.. Proofs.Base];

    [Theory]
    [MemberData(nameof(Base))]
    public void Every_claim_is_proved_from_the_least_width_on(string name)
    {
        var report = Proofs.Of(name);
        Assert.Null(report.Refusal);
        Assert.Equal(2, report.Least);
        Assert.NotEmpty(report.Laws.Claims);
        Assert.All(report.Sections.SelectMany(s => s.Claims), c => Assert.True(c.IsProved, c.Claim.Text));
        Assert.True(report.IsWhole);
    }

    /// <summary>Squares; words that are added with their carries kept. Cores, signs and rounded quotients are below.</summary>
    [Theory]
    [InlineData("root-restoring")]
    [InlineData("multiply-carry-save")]
    public void So_is_every_law_of_some_others(string name) => AssertLawsProved(name);

    /// <summary>Every machine that is known to be reached; one more is welcome here, one less is a fault.</summary>
    [Theory]
    [Trait("Length", "long")]
    [InlineData("divide-adding-back")]
    [InlineData("divide-half-shift-back")]
    [InlineData("divide-long-dividend")]
    [InlineData("divide-long-dividend-sign")]
    [InlineData("divide-non-restoring")]
    [InlineData("divide-shift-first")]
    [InlineData("divide-shift-first-narrow")]
    [InlineData("divide-shift-first-sign")]
    [InlineData("divide-shift-subtract-restore")]
    [InlineData("divide-signed-euclidean")]
    [InlineData("divide-signed-floored")]
    [InlineData("divide-signed-truncating")]
    [InlineData("multiply-booth")]
    [InlineData("multiply-high-signed")]
    [InlineData("multiply-high-signed-unsigned")]
    [InlineData("multiply-high-unsigned")]
    [InlineData("multiply-in-steps")]
    [InlineData("multiply-signed-magnitude")]
    [InlineData("multiply-signed-shift-add")]
    [InlineData("root-rounded")]
    public void So_is_every_law_of_these(string name) => AssertLawsProved(name);

    private static void AssertLawsProved(string name)
    {
        var report = Proofs.Of(name);
        Assert.Null(report.Refusal);
        Assert.All(report.Laws.Claims, c => Assert.True(c.IsProved, c.Claim.Text));
    }

    [Theory]
    [InlineData(
        "divide-shared-register",
        "D = divisor",
        "2^(n-i+1) * R.low * divisor + R.high = dividend",
        "R.high <= dividend",
        "R.high < 2^(n-i+1) * divisor",
        "R.low <= 2^(i-1) - 1/2",
        "R.low <= 2^(i-1) * divisor"
    )]
    [InlineData(
        "divide-still-divisor",
        "D = divisor",
        "2^(n-i+1) * Q * divisor + R.high = dividend",
        "R.high < 2^(n-i+1) * divisor",
        "Q <= 2^(i-1) - 1/2",
        "Q <= 2^(i-1) * divisor"
    )]
    public void What_holds_in_every_round_is_what_one_writes_at_the_board(string name, params string[] expected)
    {
        var proof = Proofs.Of(name).Laws.Proofs[0];
        var said = proof.Loops[0].Head.Select(f => InvariantText.Of(f, proof.Variables));
        Assert.Equal(expected.Order(StringComparer.Ordinal), said.Order(StringComparer.Ordinal));
    }

    /// <summary>Counted on whole numbers, for all operands; it is known apart from the proof what registers hold.</summary>
    [Theory]
    [MemberData(nameof(Base))]
    public void It_holds_in_every_state_that_is_reached(string name)
    {
        var proof = Proofs.Of(name).Laws.Proofs[0];
        var loop = proof.Loops[0];
        var machine = Machines.Named(name);
        var states = 0;
        for (var n = 2; n <= 4; n++)
        {
            var datapath = Machines.Bound(machine, n);
            for (var both = 0; both < 1 << (2 * n); both++)
            {
                BigInteger[] operands = [both & ((1 << n) - 1), both >> n];
                if (!datapath.IsGiven(operands))
                {
                    continue;
                }
                var execution = new Execution<BigInteger>(new NumberWords(operands));
                execution.Load(datapath);
                var segment = datapath.Schedule[0];
                for (var i = 0; i < segment.Count; i++)
                {
                    var state = new Instance(n, i);
                    for (var o = 0; o < operands.Length; o++)
                    {
                        state[proof.Variables.Operand(datapath.Operands[o].Name)] = (double)operands[o];
                    }
                    foreach (var piece in loop.HeadPieces)
                    {
                        state[piece.Variable] = piece.Number((long)execution.Registers[piece.Register.Index], n, i);
                    }
                    Assert.All(loop.Head, f => Assert.True(f.IsSoIn(state), InvariantText.Of(f, proof.Variables)));
                    states++;
                    foreach (var step in segment.Steps)
                    {
                        execution.Take(new Cycle(0, segment, i + 1, step));
                    }
                }
            }
        }
        Assert.True(states > 500, "hardly any states were reached");
    }
}
