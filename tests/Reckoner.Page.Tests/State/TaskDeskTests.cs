using Reckoner.Classroom;
using Reckoner.Page.State;
using Xunit;

namespace Reckoner.Page.Tests.State;

/// <summary>A task on the page: from its link to the code that the command reads.</summary>
public sealed class TaskDeskTests
{
    private const string Link = "machine=divide-still-divisor&width.n=4&task=decisions&sums=2&hints=no";

    [Fact]
    public void A_link_that_sets_a_task_says_the_same_again()
    {
        var sheet = Fragment.Read(Link)!;
        Assert.Equal(new Assignment(new SittingRules(Filling.Decisions, HasHints: false), 2), sheet.Task);
        Assert.Equal(Link, Fragment.Of(sheet));
        Assert.NotEqual(sheet, sheet with { Task = null });
    }

    [Fact]
    public void A_number_sum_by_sum_comes_to_a_code_that_says_how_it_went()
    {
        var set = TaskLink.Read("#" + Link)!;
        var desk = new TaskDesk(set);
        Assert.Equal("page.task-number-wrong", desk.Begin(" - "));
        Assert.Null(desk.Begin("47 11-b"));
        Assert.Equal(("4711B", 1, null), (desk.Number, desk.Sum, desk.Code));
        for (var sum = 1; sum <= 2; sum++)
        {
            Assert.Equal(sum, desk.Sum);
            var sitting = desk.Put().Sitting;
            Assert.Equal(set.For("4711B")![sum - 1], sitting.Walk.Operands);
            while (sitting.Fork is { } fork)
            {
                // In the first sum, the first decision is missed.
                sitting.Take(sum == 1 && sitting.Cycle == 1 ? 1 - fork.Falls : fork.Falls);
                sitting.GoOn();
            }
            desk.Finish(SittingReport.Of(sitting, new Lapses(set.Datapath)), sitting.Walk.Cycles);
        }
        var read = TaskCode.Read(set, desk.Code!);
        Assert.Equal([new SumDone(1, 1, 0, CauseKind.Decision), new SumDone(0, 0, 0, null)], read.Sums);
    }
}
