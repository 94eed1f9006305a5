using System.Numerics;
using Reckoner.Catalogue;
using Reckoner.Checking;
using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Proving;
using Reckoner.Slips;
using Xunit;

namespace Reckoner.Tests.Proving;

/// <summary>Nothing that is wrong at some width is said to be proved, however many widths it is right at.</summary>
public class NeverWronglyProvedTests
{
    [Theory]
    [InlineData("divide-sign-bit")]
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
            if (
                datapath.IsGiven(operands) == isInside
                && !ClaimJudge.Holds(claim, operands, Trials.Results(datapath, operands))
            )
            {
                return false;
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
