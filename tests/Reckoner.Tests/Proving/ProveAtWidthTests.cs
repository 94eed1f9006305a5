using System.Numerics;
using Reckoner.Binding;
using Reckoner.Claims;
using Reckoner.Proving;
using Reckoner.Questions;
using Reckoner.Reporting;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests.Proving;

/// <summary>What is said of one width is so there, by a proof for every width or by every operand, and never more than that.</summary>
public class ProveAtWidthTests
{
    private static ProofReport Of(Machine machine, string? width, bool isStopped = false)
    {
        var asked = width is null
            ? new AskedMachine(machine)
            : new AskedMachine(machine) { Widths = AskedWidths.Read(width) };
        var begin = Environment.TickCount64;
        var means = new Means(new InterpretedRunner(), () => TimeSpan.FromMilliseconds(Environment.TickCount64 - begin))
        {
            Stop = new CancellationToken(isStopped),
        };
        return new ProveQuestion(asked) { TriesUsual = true }
            .Ask(means)
            .Data!;
    }

    [Fact]
    public void What_is_proved_for_every_width_is_so_at_each()
    {
        var report = Of(Machines.Named("multiply-shared-register"), "64");
        Assert.True(report is { IsShown: true, IsWhole: true });
        Assert.True(report.At is { IsAsked: true, Holds: true, Tried: null });
        Assert.Null(Of(Machines.Named("multiply-shared-register"), null).At);
    }

    /// <summary>Booth's rounds are half as many as digits, rounded up, which has no place in a proof for every width.</summary>
    [Theory]
    [InlineData("5", 1024, true)]
    [InlineData(null, 65536, false)]
    public void What_is_not_is_tried_with_every_operand(string? width, int cases, bool isShown)
    {
        var report = Of(Machines.Named("multiply-booth-radix-4"), width);
        Assert.Equal(
            (true, (BigInteger?)cases, isShown, isShown),
            (report.At!.Holds, report.At.Tried, report.At.IsAsked, report.IsShown)
        );
        Assert.All(report.Laws.Claims, c => Assert.True(c is { IsProved: false, Fails: null }));
    }

    /// <summary>A counter of three bits is right up to 6 and wrong at 7: at each of the two that is what is said.</summary>
    [Theory]
    [InlineData("6", true)]
    [InlineData("7", false)]
    public void A_machine_that_is_right_up_to_a_width_is_shown_to_be_so_there_and_no_further(string width, bool isRight)
    {
        var report = Of(RightUpToTests.RightBefore(7), width);
        Assert.Equal((isRight, isRight), (report.At!.Holds, report.IsShown));
        var fails = Assert.Single(report.Laws.Claims, c => !c.IsProved).Fails!;
        Assert.Equal(7, fails.Width);
        Assert.False(ClaimJudge.Holds(fails.Datapath.Laws[0], fails.Operands, fails.Results));
    }

    /// <summary>Operands that are tried at random do not meet one pair of many; all of them do.</summary>
    [Fact]
    public void What_fails_for_one_pair_alone_is_shown_with_that_pair()
    {
        var machine = Proofs.Changed(
            "multiply-shared-register",
            (
                "law product = multiplicand * multiplier",
                "law product = multiplicand * multiplier\nlaw multiplicand <> 2^8 - 93 or multiplier <> 2^8 - 71"
            )
        );
        var report = Of(machine, "8");
        var wrong = report.Laws.Claims[1];
        Assert.Equal([163, 185], wrong.Fails!.Operands.Select(o => (int)o));
        Assert.True(report.At is { Holds: false });
        Assert.True(report.Laws.Claims[0] is { IsProved: true, Fails: null });
    }

    [Fact]
    public void Of_too_many_operands_nothing_is_said()
    {
        var report = Of(Machines.Named("multiply-booth-radix-4"), "64");
        Assert.True(report.At is { Holds: null, Tried: null });
        Assert.Equal(BigInteger.One << 128, report.At!.Cases);
        Assert.False(report.IsShown);
    }

    [Fact]
    public void Of_a_machine_that_claims_nothing_nothing_is_proved()
    {
        var machine = Proofs.Changed("multiply-shared-register", ("law product = multiplicand * multiplier", ""));
        Assert.True(Of(machine, null) is { IsWhole: false, IsShown: false, At: null });
        Assert.True(Of(machine, "5") is { IsWhole: false, IsShown: false, At: null });
    }

    /// <summary>What was stopped says nothing of how much there would have been to try.</summary>
    [Fact]
    public void What_is_stopped_is_not_complete_and_says_nothing_of_the_width()
    {
        var report = Of(Machines.Named("multiply-booth-radix-4"), "8", isStopped: true);
        Assert.True(report is { At: null, IsComplete: false, IsShown: false });
    }

    /// <summary>Two laws fail, each for one pair: those of the first do not break the second, which is then not known to hold.</summary>
    [Fact]
    public void A_claim_that_other_operands_would_break_is_said_not_to_be_looked_at()
    {
        const string law = "law product = multiplicand * multiplier";
        var machine = Proofs.Changed(
            "multiply-shared-register",
            (
                law,
                law
                    + "\nlaw multiplicand <> 2^8 - 93 or multiplier <> 2^8 - 71"
                    + "\nlaw multiplicand <> 2^8 - 92 or multiplier <> 2^8 - 70"
            )
        );
        var report = Of(machine, "8");
        Assert.Equal([false, false, true], report.Laws.Claims.Select(c => c.IsUnseen));
        var text = DocumentText.Of(ProofDocument.Of(report, Vocabulary.Of("en")!), 80);
        Assert.Contains("not looked at alone  multiplicand <> 2^8 - 92", text, StringComparison.Ordinal);
        Assert.DoesNotContain("not proved  multi", text, StringComparison.Ordinal);
    }

    /// <summary>2^16 cases go word by word, and each of them takes 40 cycles.</summary>
    [Theory]
    [InlineData(8, true)]
    [InlineData(16, false)]
    public void Words_are_tried_where_all_their_cycles_are_few(int width, bool isTried)
    {
        var machine = Machines.Of(
            """
            machine powers
            width n = 4 in 2..16
            operand word : n
            register A : n loads word
            repeat 40
              A[0] <- A[0]
            end
            result same = A
            law 2^same = 2^word
            """
        );
        var means = new Means(new InterpretedRunner(), () => TimeSpan.Zero);
        var (cases, result) = TriedAll.Of(Machines.Bound(machine, width), means);
        Assert.Equal((BigInteger.One << width, isTried ? true : null), (cases, result?.NothingFailed));
    }
}
