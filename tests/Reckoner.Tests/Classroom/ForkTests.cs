using Reckoner.Classroom;
using Reckoner.Running;
using Xunit;

namespace Reckoner.Tests.Classroom;

/// <summary>What a step asks is known without a walk; a walk comes by some of it.</summary>
public class ForkTests
{
    public static TheoryData<string> Catalogue => [.. Machines.Catalogue];

    /// <summary>A decision that a walk takes stands in its step, with the same ways; outside all others each walk takes it.</summary>
    [Theory]
    [MemberData(nameof(Catalogue))]
    public void What_a_walk_decides_stands_in_its_step(string name)
    {
        var machine = Machines.Named(name);
        var datapath = Machines.Bound(machine, Machines.Widths(machine, 5).Last());
        foreach (var operands in SampleOperands.Of(datapath, new Random(11)).Take(12))
        {
            foreach (var row in Walk.Of(datapath, operands).Rows.Where(r => r.Step is not null))
            {
                var standing = Fork.Standing(row.Step!);
                var met = Fork.Of(row);
                Assert.All(
                    met,
                    f =>
                    {
                        var its = Assert.Single(standing, s => s.Fork.IsSame(f)).Fork;
                        Assert.Equal(its.Ways.Select(w => w.Label), f.Ways.Select(w => w.Label));
                    }
                );
                Assert.All(standing.Where(s => !s.IsInside), s => Assert.Contains(met, s.Fork.IsSame));
            }
        }
    }

    [Theory]
    [InlineData("divide-still-divisor", 0)]
    [InlineData("divide-signed-floored", 1)]
    public void What_stands_within_another_decision_is_said_to(string name, int inside)
    {
        var datapath = Machines.Bound(Machines.Named(name), 5);
        Assert.Equal(inside, datapath.Steps.SelectMany(Fork.Standing).Count(s => s.IsInside));
    }
}
