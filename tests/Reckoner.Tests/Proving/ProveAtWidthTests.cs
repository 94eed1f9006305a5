using System.Numerics;
using Reckoner.Binding;
using Reckoner.Claims;
using Reckoner.Proving;
using Reckoner.Questions;
using Xunit;

namespace Reckoner.Tests.Proving;

/// <summary>What is said of one width is so there, by a proof for every width or by every operand, and never more than that.</summary>
public class ProveAtWidthTests
{
    private static ProofReport Of(Machine machine, string? width)
    {
        var asked = width is null
            ? new AskedMachine(machine)
            : new AskedMachine(machine) { Widths = AskedWidths.Read(width) };
        var begin = Environment.TickCount64;
        var means = new Means(
            new InterpretedRunner(),
            () => TimeSpan.FromMilliseconds(Environment.TickCount64 - begin)
        );
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
}
