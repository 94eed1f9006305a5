using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Checking;
using Reckoner.Slips;
using Xunit;

namespace Reckoner.Tests.Slips;

public sealed class FailureConditionTests
{
    private static Machine Read(string name) => Machine.Read(MachineCatalogue.Find(name)!, MachineCatalogue.Find);

    /// <summary>Laws that fix the results break for exactly the operands for which a slip gives other results.</summary>
    [Theory]
    [InlineData("divide-still-divisor", 4)]
    [InlineData("multiply-shared-register", 4)]
    [InlineData("root-restoring", 6)]
    public void Laws_break_where_a_slip_shows_and_by_the_same_condition(string name, int width)
    {
        var right = Read(name).At(width).Datapath!;
        var study = SlipStudy.Of(right, InterpretedEngine.Widest, sample: null, withConditions: true);
        Assert.NotEmpty(study.Slips);
        foreach (var studied in study.Slips.Where(s => s.Exposed > 0))
        {
            var wrong = SlipStudy.Built(right, studied.Slip)!;
            var found = FailureCondition.Of(wrong, right, InterpretedEngine.Widest)!;
            Assert.Equal(
                (studied.Slip.Name, study.Cases, studied.Exposed),
                (studied.Slip.Name, found.Cases, found.Failures)
            );
            Assert.Equal(studied.When is null, found.When is null);
        }
    }

    [Fact]
    public void A_right_machine_has_no_failures_and_no_condition()
    {
        var right = Read("divide-still-divisor").At(4).Datapath!;
        Assert.Equal(
            new FailureCondition(right, 240, 0, null),
            FailureCondition.Of(right, right, InterpretedEngine.Widest)
        );
    }

    [Fact]
    public void A_model_that_breaks_the_laws_itself_is_not_taken_for_right()
    {
        var right = Read("divide-still-divisor").At(4).Datapath!;
        var wrong = SlipStudy.Built(right, Slip.Of(right.Machine).First(s => s.Kind == "loop-shorter"))!;
        var found = FailureCondition.Of(wrong, wrong, InterpretedEngine.Widest)!;
        Assert.Equal(FailureCondition.Of(wrong, null, InterpretedEngine.Widest), found);
        Assert.NotEqual(0, found.Failures);
    }

    [Fact]
    public void Too_many_operands_are_not_tried() =>
        Assert.Null(FailureCondition.Of(Read("divide-still-divisor").At(8).Datapath!, null, InterpretedEngine.Widest));
}
