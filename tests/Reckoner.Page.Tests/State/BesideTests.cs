using Reckoner.Page.State;
using Reckoner.Questions;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Page.Tests.State;

/// <summary>Another machine beside that of the sheet; operands that show something; codes and handouts.</summary>
public sealed class BesideTests
{
    private static readonly Means Means = new(new InterpretedRunner(), () => TimeSpan.Zero);

    private static readonly Sheet Start = Fragment.Read("machine=divide-still-divisor&width.n=5&operands=29,6")!;

    private static (Reading Own, Reading Other) Both(string beside)
    {
        var sheet = Start with { Beside = beside };
        var own = Reading.Of(sheet);
        return (own, Reading.Of(sheet, Machines.Beside(sheet, own.Machine)!));
    }

    [Fact]
    public void A_machine_beside_itself_differs_in_nothing()
    {
        var (own, other) = Both("divide-still-divisor");
        Assert.Empty(Differences.Between(own.Walk!, other.Walk!));
        Assert.All(
            Differences.InHardware(own.Datapath!, other.Datapath!, Vocabulary.English),
            row => Assert.Equal(row.First, row.Second)
        );
    }

    [Fact]
    public void The_next_version_needs_less_hardware_and_the_table_says_where()
    {
        var (own, other) = Both("divide-shared-register");
        Assert.Equal(
            [
                ("register bits", 20, 15),
                ("bits of adders and other units", 5, 5),
                ("bits chosen between two words", 15, 10),
                ("cycles at most", 6, 6),
            ],
            Differences
                .InHardware(own.Datapath!, other.Datapath!, Vocabulary.English)
                .Select(r => (r.What, (int)r.First, (int)r.Second))
        );
    }

    [Fact]
    public void A_slip_of_the_machine_differs_from_the_cycle_on_in_which_it_acts()
    {
        var (own, other) = Both("slip:guard-dropped-not-last");
        Assert.Equal([new Differences.Bits(6, "R")], Differences.Between(own.Walk!, other.Walk!));
    }

    [Fact]
    public void A_name_that_is_no_machine_and_no_slip_stands_for_nothing()
    {
        Assert.Null(Machines.Beside(Start with { Beside = "no-such" }, Reading.Of(Start).Machine));
        Assert.Null(Machines.Beside(Start with { Beside = "slip:no-such" }, Reading.Of(Start).Machine));
    }

    [Fact]
    public void Operands_are_chosen_by_a_condition_and_a_wrong_one_is_told()
    {
        var datapath = Reading.Of(Start).Datapath!;
        var chosen = Chosen.Of(datapath, "remainder = 0 and dividend = 30", Vocabulary.English, Means);
        Assert.All(chosen.Operands, o => Assert.Equal("30", o.Operands[0]));
        Assert.NotEmpty(chosen.Operands);
        Assert.Empty(Chosen.Of(datapath, "quotient > 31", Vocabulary.English, Means).Operands);
        Assert.Empty(Chosen.Of(datapath, "what happens", Vocabulary.English, Means).Operands);
        Assert.Contains(
            "nothing called",
            Chosen.Of(datapath, "what happens", Vocabulary.English, Means).Said,
            StringComparison.Ordinal
        );
    }

    /// <summary>ISO/IEC 18004: version v has 4 v + 17 squares a side, and a finder of 7 in three corners.</summary>
    [Fact]
    public void A_square_code_has_the_size_and_the_finders_of_its_standard_or_is_none()
    {
        var code = SquareCode.Of("machine=divide-still-divisor")!;
        Assert.Equal(0, (code.Size - 17) % 4);
        foreach (var (x, y) in new[] { (0, 0), (code.Size - 7, 0), (0, code.Size - 7) })
        {
            Assert.All(
                Enumerable.Range(0, 7),
                i => Assert.Contains($"M{x + i} {y}h", code.Path, StringComparison.Ordinal)
            );
            Assert.DoesNotContain($"M{x + 1} {y + 1}h", code.Path, StringComparison.Ordinal);
        }
        Assert.NotNull(SquareCode.Of(new string('x', SquareCode.MostBytes)));
        Assert.Null(SquareCode.Of(new string('x', SquareCode.MostBytes + 1)));
    }

    [Fact]
    public void A_lesson_holds_what_is_on_the_screen()
    {
        const string Expected = """
            ---
            title: Division: the remainder moves, the divisor stays
            machine: divide-still-divisor
            width: n=5
            operands: 29 6
            language: en
            ---

            # Division: the remainder moves, the divisor stays

            ```reckoner
            walk
            draw weave
            compare divide-still-divisor divide-still-divisor --slip loop-longer-repeat
            ```

            """;
        var beside = Start with { Beside = "slip:loop-longer-repeat" };
        Assert.Equal(Expected, Handout.Lesson(Reading.Of(beside), "weave", Vocabulary.English));
    }

    [Fact]
    public void A_machine_of_ones_own_stands_in_the_lesson_with_the_file_that_it_belongs_into()
    {
        var own = Start with { Text = Start.Text.Replace("n + 1", "n + 2", StringComparison.Ordinal) };
        var text = Handout.Lesson(Reading.Of(own), "table", Vocabulary.English);
        Assert.Contains("machine: divide-still-divisor.machine\n", text, StringComparison.Ordinal);
        Assert.Contains("```text\nmachine divide-still-divisor\n", text, StringComparison.Ordinal);
        Assert.EndsWith("```reckoner\nwalk\ndraw table\n```\n", text, StringComparison.Ordinal);
    }
}
