using Reckoner.Costing;
using Reckoner.Page.State;
using Xunit;

namespace Reckoner.Page.Tests.State;

/// <summary>What versions cost, beside each other.</summary>
public sealed class VersionSumsTests
{
    private static readonly Sheet Start = Fragment.Read("machine=divide-shared-register&width.n=8&operands=29,6")!;

    private static async Task<VersionSums> Counted(Sheet sheet)
    {
        var reading = Reading.Of(sheet);
        var sums = new VersionSums();
        await sums.Run(
            [reading.Datapath!, .. reading.AtItsWidths(Machines.Versions(sheet, reading.Machine))],
            () => { },
            TestContext.Current.CancellationToken
        );
        return sums;
    }

    [Fact]
    public async Task The_text_stands_first_and_behind_it_what_it_follows_each_as_cost_counts_it()
    {
        var sums = await Counted(Start);
        Assert.Equal(
            [
                ("divide-shared-register", 353, 23, 207),
                ("divide-still-divisor", 447, 23, 207),
                ("divide-moving-divisor", 553, 37, 333),
            ],
            sums.Costs.Select(c => (c.Datapath.Machine.Name, c.Area, c.Clock, c.Time.Most))
        );
        Assert.All(
            sums.Costs,
            c =>
                Assert.Equal(
                    c.Paths.Select(p => p.Delay),
                    Costs.Of(c.Datapath, AdderKind.Ripple).Paths.Select(p => p.Delay)
                )
        );
    }

    [Fact]
    public async Task One_that_stands_beside_comes_before_those_that_are_followed_and_once()
    {
        var sums = await Counted(Start with { Beside = "divide-moving-divisor" });
        Assert.Equal(
            ["divide-shared-register", "divide-moving-divisor", "divide-still-divisor"],
            sums.Costs.Select(c => c.Datapath.Machine.Name)
        );
    }

    [Fact]
    public async Task Another_width_gives_other_sums_and_what_is_changed_makes_them_old()
    {
        var (before, after) = (await Counted(Start), await Counted(Start.WithWidth("n", "12")));
        Assert.All(before.Costs.Zip(after.Costs), pair => Assert.True(pair.First.Area < pair.Second.Area));
        Assert.False(after.IsOld);
        after.Age();
        Assert.True(after.IsOld);
    }
}
