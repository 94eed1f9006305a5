using Reckoner.Catalogue;
using Reckoner.Notation;
using Reckoner.Page.State;
using Xunit;

namespace Reckoner.Page.Tests.State;

public sealed class DeskTests
{
    private static readonly TimeSpan Second = TimeSpan.FromSeconds(1);

    private static Desk Opened() => new(Fragment.Read("machine=divide-still-divisor&width.n=5&operands=29,6&at=1")!);

    [Fact]
    public void The_statements_of_a_cycle_can_be_typed_over()
    {
        var desk = Opened();
        desk.Type(desk.Open.In(desk.Sheet.Text).Replace("n + 1", "n", StringComparison.Ordinal), Second);
        Assert.Equal(5, desk.Walk!.Cycles);
        Assert.False(desk.IsOld);
        Assert.Contains("repeat n\n", desk.Sheet.Text);
    }

    [Fact]
    public void A_slip_keeps_the_last_good_picture_and_marks_it_as_old()
    {
        var desk = Opened();
        var good = desk.Walk;
        var open = desk.Open.In(desk.Sheet.Text);
        desk.Type(open.Replace("= left - D", "= lef - D", StringComparison.Ordinal), Second);
        Assert.True(desk.IsOld);
        Assert.Same(good, desk.Walk);
        Assert.Equal(["unknown-name"], desk.Reading.Errors.Select(d => d.Id.Name));
        desk.Type(open, Second);
        Assert.False(desk.IsOld);
    }

    [Fact]
    public void While_a_piece_is_typed_its_borders_stay_even_when_its_first_word_goes()
    {
        var desk = Opened();
        var open = desk.Open.In(desk.Sheet.Text);
        var rest = open[1..];
        desk.Type(rest, Second);
        Assert.Equal(rest, desk.Open.In(desk.Sheet.Text));
        desk.Type(open, Second);
        Assert.Equal(open, desk.Open.In(desk.Sheet.Text));
        Assert.Equal(MachineCatalogue.Find("divide-still-divisor")!.Text, desk.Sheet.Text);
    }

    [Fact]
    public void What_is_typed_quickly_is_undone_together_and_what_is_typed_later_apart()
    {
        var desk = Opened();
        var first = desk.Sheet;
        desk.Type("repeat n", Second);
        desk.Type("repeat n + 2", Second * 1.5);
        desk.Type("repeat n + 3", Second * 9);
        desk.Undo();
        Assert.Contains("repeat n + 2", desk.Sheet.Text);
        desk.Undo();
        Assert.Equal(first, desk.Sheet);
        Assert.False(desk.CanUndo);
        desk.Redo();
        desk.Redo();
        Assert.Contains("repeat n + 3", desk.Sheet.Text);
        Assert.False(desk.CanRedo);
    }

    [Fact]
    public void Looking_elsewhere_is_nothing_to_undo()
    {
        var desk = Opened();
        desk.LookAt(3);
        Assert.False(desk.CanUndo);
        Assert.Equal(3, desk.Moment);
        desk.LookAt(1000);
        Assert.Equal(desk.LastMoment, desk.Moment);
        desk.LookAt(-1);
        Assert.Equal(0, desk.Moment);
    }

    [Fact]
    public void A_pasted_book_is_refused_and_nothing_is_lost()
    {
        var desk = Opened();
        var before = desk.Sheet;
        desk.Type(new string('x', Parser.LongestText + 1), Second);
        Assert.Equal(before, desk.Sheet);
        Assert.Equal("page.text-too-long", desk.Refused!.Key);
        desk.Type("repeat n", Second);
        Assert.Null(desk.Refused);
    }

    [Fact]
    public void An_operand_that_does_not_fit_is_told_at_its_field_and_the_picture_stays()
    {
        var desk = Opened();
        desk.Change(desk.Sheet.WithOperand(0, "32"), Second);
        var slip = Assert.Single(desk.Reading.Fields);
        Assert.Equal("dividend", slip.Field);
        Assert.Equal(
            ["32 needs 6 bits, and dividend has n = 5.", "Try n = 6, or a number from 0 to 31."],
            Reporting.DiagnosticText.Sentences(slip.Diagnostic, Words.Vocabulary.English)
        );
        Assert.True(desk.IsOld);
    }

    [Theory]
    [InlineData("1")]
    [InlineData("1000000000000000000000")]
    [InlineData("five")]
    [InlineData("-3")]
    public void A_width_that_cannot_be_is_told_at_its_field(string width)
    {
        var desk = Opened();
        desk.Change(desk.Sheet.WithWidth("n", width), Second);
        Assert.Equal("n", Assert.Single(desk.Reading.Fields).Field);
        Assert.Empty(desk.Reading.Errors);
        Assert.True(desk.IsOld);
    }

    [Fact]
    public void A_loop_too_long_to_unroll_is_told_and_the_picture_stays()
    {
        var desk = Opened();
        desk.Type("repeat 1000000000\n  Q <- shl(Q, 0)\nend", Second);
        Assert.Contains("too-many-operations", desk.Reading.Errors.Select(d => d.Id.Name));
        Assert.NotNull(desk.Walk);
    }

    [Fact]
    public void Operands_that_nobody_named_are_inside_given_in_every_machine()
    {
        foreach (var entry in MachineCatalogue.Entries)
        {
            var desk = new Desk(Sheet.Of(entry.Name)!);
            Assert.True(desk.Walk is { IsGiven: true }, entry.Name);
        }
    }

    [Theory]
    [InlineData("machine=divide-still-divisor&width.n=5&operands=99,6&at=3", "dividend = 29, divisor = 6, n = 5", 6)]
    [InlineData("machine=divide-still-divisor&width.n=5&operands=29,x&at=3", "dividend = 29, divisor = 6, n = 5", 6)]
    [InlineData("machine=divide-still-divisor&width.n=1&operands=300,6", "dividend = 239, divisor = 6, n = 8", 9)]
    [InlineData("machine=divide-still-divisor&width.n=zwei&operands=29,6", "dividend = 29, divisor = 6, n = 8", 9)]
    public void A_link_with_a_wrong_number_shows_the_rest_and_says_what_is_seen(
        string fragment,
        string numbers,
        int cycles
    )
    {
        var desk = new Desk(Fragment.Read(fragment)!);
        Assert.Single(desk.Reading.Fields);
        Assert.Equal((true, cycles), (desk.IsOld, desk.Walk!.Cycles));
        Assert.Equal(
            $"An operand or width does not fit, so the figure shows {numbers}.",
            Words.Vocabulary.English.Text(desk.Instead!)
        );
        desk.Change(desk.Sheet with { Operands = ["7", "3"], Widths = desk.Sheet.Widths.Clear() }, Second);
        Assert.Null(desk.Instead);
        desk.Change(desk.Sheet.WithOperand(0, "x"), Second);
        Assert.Equal("page.old", desk.Instead!.Key);
    }

    [Fact]
    public void A_reload_in_the_middle_of_a_slip_shows_the_machine_that_the_text_began_as()
    {
        var desk = Opened();
        desk.Type("repeat n + ", Second);
        var again = new Desk(Fragment.Read(Fragment.Of(desk.Sheet))!);
        Assert.Equal((6, false), (again.Walk!.Cycles, again.IsOfText));
        Assert.Equal(("page.old-origin", desk.Sheet), (again.Instead!.Key, again.Sheet));
    }

    [Fact]
    public void The_picture_of_another_machine_does_not_stand_in_for_one_that_is_opened()
    {
        var desk = Opened();
        desk.Replace(Sheet.Of("root-restoring")! with { Operands = ["x"] }, Second);
        Assert.Equal("root-restoring", desk.Walk!.Datapath.Machine.Name);
        desk.Replace(Sheet.Empty with { Text = "machine m\nwidth" }, Second);
        Assert.Null(desk.Walk);
        desk.Undo();
        desk.Undo();
        Assert.False(desk.IsOld);
    }

    [Fact]
    public void Without_a_walk_there_is_the_load_alone()
    {
        var desk = new Desk(Sheet.Empty with { Text = "machine m\nwidth", Moment = 3 });
        Assert.Null(desk.Walk);
        Assert.Equal(0, desk.LastMoment);
        Assert.Equal(0, desk.Moment);
    }
}
