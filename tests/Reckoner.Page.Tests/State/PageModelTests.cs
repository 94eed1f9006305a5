using Reckoner.Checking;
using Reckoner.Page.State;
using Xunit;

namespace Reckoner.Page.Tests.State;

public sealed class PageModelTests
{
    /// <summary>Keeps the last of everything, and never answers a check.</summary>
    private sealed class Memory : IKeeper, ICheckRunner
    {
        public string Fragment { get; private set; } = "";
        public string Looks { get; private set; } = "";

        public void Keep(string fragment) => Fragment = fragment;

        public void KeepLooks(string looks) => Looks = looks;

        public Task<IReadOnlyList<SectionCount>?> Run(
            CheckProgram program,
            Action<double>? covered,
            CancellationToken stop
        ) => Task.FromResult<IReadOnlyList<SectionCount>?>(null);
    }

    private static (PageModel Model, Memory Memory) Opened(string looks = "")
    {
        var memory = new Memory();
        var start = Fragment.Read("machine=divide-still-divisor&width.n=5&operands=29,6&at=1")!;
        return (new PageModel(memory, memory, () => TimeSpan.FromHours(1), start, Looks.Read(looks)), memory);
    }

    [Fact]
    public void Every_change_is_kept_at_once()
    {
        var (model, memory) = Opened();
        using (model)
        {
            model.SetOperand(0, "30");
            Assert.Equal("machine=divide-still-divisor&width.n=5&operands=30,6&at=1", memory.Fragment);
            model.Step(2);
            Assert.Equal("machine=divide-still-divisor&width.n=5&operands=30,6&at=3", memory.Fragment);
            model.Undo();
            Assert.Equal("machine=divide-still-divisor&width.n=5&operands=29,6&at=1", memory.Fragment);
        }
    }

    [Fact]
    public void Who_predicts_first_sees_values_only_when_they_are_asked_for()
    {
        var (model, _) = Opened("predict");
        using (model)
        {
            model.LookAt(0);
            model.Step(1);
            Assert.False(model.Shown < 1 && !model.IsCovered);
            model.SetOperand(0, "30");
            Assert.Equal((0, true), (model.Shown, model.IsCovered));
            model.Reveal();
            Assert.Equal((1, false), (model.Shown, model.IsCovered));
            model.Reveal();
            Assert.Equal((2, 1, true), (model.Desk.Moment, model.Shown, model.IsCovered));
            model.Step(-1);
            Assert.False(model.IsCovered);
        }
    }

    [Fact]
    public void Looks_come_back_and_words_that_mean_nothing_are_passed_over()
    {
        var (model, memory) = Opened();
        using (model)
        {
            model.Look(new Looks("dark", IsLarge: true, Predicts: true, "en"));
            Assert.Equal("dark large predict en", memory.Looks);
            Assert.Equal(model.Looks, Looks.Read(memory.Looks));
            Assert.Equal(Looks.Usual, Looks.Read("<script> purple xx"));
        }
    }

    [Fact]
    public void A_press_on_a_bit_marks_it_and_a_second_takes_the_mark_away()
    {
        var (model, _) = Opened();
        using (model)
        {
            model.Pick("R", 3);
            Assert.Equal(("R", 3), model.Bit);
            model.Pick("R", 3);
            Assert.Null(model.Bit);
        }
    }
}
