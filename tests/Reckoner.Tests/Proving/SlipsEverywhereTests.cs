using Reckoner.Checking;
using Reckoner.Claims;
using Reckoner.Proving;
using Reckoner.Questions;
using Reckoner.Slips;
using Xunit;

namespace Reckoner.Tests.Proving;

/// <summary>What is said of a slip for every width is so at the widths that can be tried to the end.</summary>
public class SlipsEverywhereTests
{
    /// <summary>At the least width much shows nothing that is wrong further on.</summary>
    [Theory]
    [InlineData("divide-shared-register")]
    public void What_is_said_of_every_width_is_so(string name) => IsSo(name);

    [Theory]
    [Trait("Length", "long")]
    [InlineData("multiply-still-multiplicand")]
    public void So_is_what_is_said_of_more_machines(string name) => IsSo(name);

    private static void IsSo(string name)
    {
        var (right, means) = (Machines.Named(name), new Means(new InterpretedRunner(), () => TimeSpan.Zero));
        var study = new SlipsQuestion(Machines.Bound(right, 2)) { Proves = true, AsksConditions = false }
            .Ask(means)
            .Data!;
        var harmless = study.Slips.Where(s => s.Smallest is null).ToList();
        Assert.NotEmpty(harmless);
        Assert.All(study.Slips, s => Assert.Equal(s.Smallest is null, s.Everywhere is not null));
        Assert.Contains(harmless, s => s.Everywhere!.IsProved || s.Everywhere.WrongAt is not null);
        var wider = new[] { 3, 4, 5 }.Select(n => Shown(right, n)).ToList();
        foreach (var slip in harmless)
        {
            var (everywhere, where) = (slip.Everywhere!, slip.Slip.Name);
            Assert.False(everywhere.IsProved && wider.Any(shown => shown.Contains(where)), where);
            if (everywhere.WrongAt is { } datapath)
            {
                Assert.True(datapath.IsGiven(everywhere.WrongFor));
                Assert.Equal(Trials.Results(datapath, everywhere.WrongFor), everywhere.Results);
                Assert.Contains(datapath.Laws, l => !ClaimJudge.Holds(l, everywhere.WrongFor, everywhere.Results));
            }
        }
    }

    /// <summary>The slips that some operand shows at a width.</summary>
    private static HashSet<string> Shown(Binding.Machine machine, int n) =>
        [
            .. SlipStudy
                .Of(Machines.Bound(machine, n), InterpretedEngine.Widest, sample: null, withConditions: false)
                .Slips.Where(s => s.Exposed > 0)
                .Select(s => s.Slip.Name),
        ];
}
