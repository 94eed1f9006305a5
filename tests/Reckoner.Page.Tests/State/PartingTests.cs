using Reckoner.Checking;
using Reckoner.Diagnostics;
using Reckoner.Page.State;
using Reckoner.Questions;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Page.Tests.State;

public sealed class PartingTests
{
    private static Sheet Edited(string machine, string stretch, string other)
    {
        var sheet = Sheet.Of(machine)!;
        Assert.Contains(stretch, sheet.Text, StringComparison.Ordinal);
        return sheet with { Text = sheet.Text.Replace(stretch, other, StringComparison.Ordinal) };
    }

    /// <summary>A round too few fails as soon as there is a quotient: at the lowest width, long before the one on the screen.</summary>
    [Fact]
    public void The_narrowest_width_that_fails_is_walked()
    {
        var reading = Reading.Of(Edited("divide-still-divisor", "repeat n + 1", "repeat n"));
        var (datapath, operands) = Parting.Narrowest(reading)!.Value;
        Assert.Equal(2, datapath.Widths[0].Value);
        Assert.False(Running.Walk.Of(datapath, operands).Holds);
    }

    [Fact]
    public void A_right_machine_has_none() =>
        Assert.Null(Parting.Narrowest(Reading.Of(Sheet.Of("divide-still-divisor")!)));

    /// <summary>The fault of the rotating machine is the bit that comes back: the first row that differs is the one it enters.</summary>
    [Fact]
    public void The_first_row_in_which_they_part_is_named_with_both_values()
    {
        var sheet = Edited("multiply-booth", "shr(A:Q:before, A[n])", "shr(A:Q:before, 0)")
            .WithWidth("n", "4")
            .WithOperand(0, "3")
            .WithOperand(1, "-1");
        var wrong = Reading.Of(sheet).Walk!;
        var right = Reading.Of(sheet with { Text = Sheet.Of("multiply-booth")!.Text }).Walk!;
        var (moment, said) = Parting.Of(wrong, right);
        Assert.Equal(1, moment);
        Assert.Equal(
            "In cycle 1, A holds 01110 here and 11110 in multiply-booth: there they part.",
            Vocabulary.English.Text(said)
        );
    }

    [Fact]
    public void A_link_that_was_cut_off_at_its_text_cannot_be_read()
    {
        Assert.Null(Fragment.Read("text=AAAA"));
        Assert.Null(Fragment.Read("machine=divide-still-divisor&text=AAAA"));
        var emptied = Sheet.Of("divide-still-divisor")! with { Text = "" };
        Assert.Equal("", Fragment.Read(Fragment.Of(emptied))!.Text);
    }

    /// <summary>With one key: uncover, then go on; without predicting it only goes on.</summary>
    [Theory]
    [InlineData("predict", "1 covered; 1 seen; 2 covered; 2 seen")]
    [InlineData("", "1 seen; 2 seen; 3 seen; 4 seen")]
    public void A_presenters_key_uncovers_first(string looks, string expected)
    {
        var start = Fragment.Read("machine=divide-still-divisor&width.n=5&operands=29,6&at=1")!;
        using var model = new PageModel(
            new Nothing(),
            new Nothing(),
            () => TimeSpan.FromHours(1),
            start,
            Looks.Read(looks)
        );
        var seen = new List<string>();
        for (var press = 0; press < 4; press++)
        {
            seen.Add($"{model.Desk.Moment} {(model.IsCovered ? "covered" : "seen")}");
            model.GoOn();
        }
        Assert.Equal(expected, string.Join("; ", seen));
    }

    private sealed class Nothing : IKeeper, ICheckRunner
    {
        public void Keep(string fragment) { }

        public void KeepLooks(string looks) { }

        public int Threads => 1;

        public Diagnostic? Refusal => null;

        public IPlaneEngine Engine(PlaneProgram program, long steps) => InterpretedEngine.Widest;

        public Task<CoveredSteps> Run(
            CheckProgram program,
            long from,
            long to,
            Action<long>? covered,
            CancellationToken stop
        ) => Task.FromResult(new CoveredSteps(from, new WordCheck(program.Datapath, null).Nothing, "never"));
    }
}
