using System.Numerics;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Checking;
using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Execution;
using Reckoner.Slips;
using Xunit;

namespace Reckoner.Tests.Proving;

/// <summary>Nothing that is wrong at some width is said to be proved, however many widths it is right at.</summary>
public class NeverWronglyProvedTests
{
    /// <summary>A machine with a counter of its own that spoils a register in one round, if n is large enough for that round.</summary>
    private static Machine WithCounter(string name, string loop, int bits, int spoilsAt, string spoilt) =>
        Proofs.Changed(
            name,
            ("\nunit alu", $"\nregister K : {bits} loads 0\n\nunit alu"),
            ($"\n{loop}\n", $"\n{loop}\n  if K = {spoilsAt}\n    {spoilt} <- 0\n  end\n  K <- K + 1\n  then\n")
        );

    [Theory]
    [InlineData("divide-still-divisor", "repeat n + 1", 3, 7, "D", 6)]
    [InlineData("divide-shared-register", "repeat n + 1", 4, 9, "D", 8)]
    [InlineData("multiply-shared-register", "repeat n", 3, 7, "M", 7)]
    [InlineData("multiply-still-multiplicand", "repeat n", 4, 9, "M", 9)]
    public void A_machine_that_is_right_up_to_some_width_is_not_proved(
        string name,
        string loop,
        int bits,
        int spoilsAt,
        string spoilt,
        int right
    )
    {
        var machine = WithCounter(name, loop, bits, spoilsAt, spoilt);
        Assert.All(Enumerable.Range(2, right - 1), n => Assert.True(HoldsAt(machine, n), $"it should be right at {n}"));
        Assert.False(HoldsAt(machine, right + 1), "it should be wrong further on");
        Assert.False(Proofs.Of(machine).IsWhole);
    }

    /// <summary>Whether the laws hold for operands at the corners and some between.</summary>
    private static bool HoldsAt(Machine machine, int width)
    {
        var datapath = Machines.Bound(machine, width);
        var most = (1 << width) - 1;
        int[] numbers = [0, 1, 2, 3, 5, most / 2, most - 1, most];
        return numbers
            .SelectMany(a => numbers.Select(b => (a, b)))
            .Where(p => datapath.IsGiven([p.a, p.b]))
            .All(p => Walks.Of(datapath, p.a, p.b).Holds);
    }

    [Theory]
    [InlineData("divide-sign-bit")]
    [InlineData("divide-result-early")]
    [InlineData("divide-overshoot")]
    [InlineData("multiply-carry-dropped")]
    [InlineData("multiply-carry-kept")]
    public void A_machine_that_is_wrong_on_purpose_is_not_proved(string name) => AssertNotProved(Machines.Named(name));

    public static TheoryData<string> WrongOnPurpose =>
        [.. MachineCatalogue.Entries.Where(e => e.Family == "wrong-on-purpose").Select(e => e.Name)];

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(WrongOnPurpose))]
    public void None_that_is_wrong_on_purpose_is_proved(string name) => AssertNotProved(Machines.Named(name));

    /// <summary>Some claim is not proved, and those that are hold for all operands at small widths.</summary>
    private static void AssertNotProved(IMachine machine)
    {
        var report = Proofs.Of(machine);
        Assert.Contains(report.Laws.Claims, c => !c.IsProved);
        foreach (var n in Machines.Widths(machine, upTo: 5))
        {
            var datapath = Machines.Bound(machine, n);
            foreach (var (section, claims) in report.Sections.Zip(new[] { datapath.Laws, datapath.Outside }))
            {
                foreach (var (proved, claim) in section.Claims.Zip(claims).Where(c => c.First.IsProved))
                {
                    Assert.True(HoldsForAll(datapath, claim, section == report.Laws), $"{claim.Text} at {n}");
                }
            }
        }
    }

    private static bool HoldsForAll(Datapath datapath, Claim claim, bool isInside)
    {
        var widths = datapath.Operands.Select(o => o.Width).ToList();
        for (var all = 0; all < 1 << widths.Sum(); all++)
        {
            var (operands, rest) = (new List<BigInteger>(), all);
            foreach (var width in widths)
            {
                operands.Add(rest & ((1 << width) - 1));
                rest >>= width;
            }
            if (datapath.IsGiven(operands) == isInside)
            {
                var execution = new Execution<BigInteger>(new NumberWords(operands));
                execution.Load(datapath);
                execution.Run(datapath);
                if (!ClaimJudge.Holds(claim, operands, [.. datapath.Results.Select(r => execution.Word(r.Value))]))
                {
                    return false;
                }
            }
        }
        return true;
    }

    public static TheoryData<string> Base => [.. Proofs.Base];

    /// <summary>What a slip breaks at n = 4 is not proved; a few slips that break nothing may be.</summary>
    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Base))]
    public void No_slip_that_shows_is_proved(string name)
    {
        var datapath = Machines.Bound(Machines.Named(name), 4);
        var study = SlipStudy.Of(datapath, InterpretedEngine.Widest, sample: null, withConditions: false);
        var exposed = study.Slips.Where(s => s.Exposed > 0).ToList();
        Assert.NotEmpty(exposed);
        Assert.All(
            exposed,
            slip =>
            {
                Assert.False(Proofs.Of(slip.Slip.Machine).Laws.Claims.All(c => c.IsProved), slip.Slip.Name);
            }
        );
    }
}
