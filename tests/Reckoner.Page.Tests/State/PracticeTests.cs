using Reckoner.Classroom;
using Reckoner.Page.State;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Page.Tests.State;

/// <summary>A visitor works a walk out on the page, by keys.</summary>
public sealed class PracticeTests
{
    private static Practice Begun(int from = 0)
    {
        var walk = new Desk(Fragment.Read("machine=divide-still-divisor&width.n=4&operands=13,4")!).Walk!;
        return new Practice(walk, SittingRules.Usual, from);
    }

    private static void Type(Practice practice, string keys)
    {
        foreach (var key in keys)
        {
            Assert.True(practice.Key($"{key}", Vocabulary.English), $"{key}");
        }
    }

    private static string Said(Practice practice) => practice.Said is { } said ? Vocabulary.English.Text(said) : "";

    [Fact]
    public void Keys_decide_then_write_and_a_full_row_is_judged_at_once()
    {
        var practice = Begun();
        Type(practice, "0");
        Assert.Equal("Right.", Said(practice));
        Assert.Equal(("R", 7), (practice.Cell!.Value.Register.Name, practice.Cell.Value.Place));
        Type(practice, "00011010" + "000");
        Assert.Null(practice.Sitting.Judged);
        Type(practice, "0");
        Assert.Equal("Right.", Said(practice));
        Assert.True(practice.Key("Enter", Vocabulary.English));
        Assert.Equal(2, practice.Sitting.Cycle);
        Assert.Equal(("R", 7), (practice.Cell!.Value.Register.Name, practice.Cell.Value.Place));
    }

    [Fact]
    public void A_wrong_way_is_said_with_the_right_one()
    {
        var practice = Begun();
        Type(practice, "1");
        Assert.Equal("No: too small: 0 enters (0000 - 0100 borrows).", Said(practice));
    }

    /// <summary>No arm has the number 0, and nothing is told for it.</summary>
    [Fact]
    public void A_key_of_no_arm_does_nothing()
    {
        var walk = new Desk(Fragment.Read("machine=multiply-booth&width.n=4&operands=5,3")!).Walk!;
        var practice = new Practice(walk, SittingRules.Usual, 0);
        Assert.False(practice.Sitting.Fork!.IsCondition);
        practice.Key("0", Vocabulary.English);
        Assert.Equal("", Said(practice));
        Assert.Empty(practice.Sitting.Taken);
    }

    /// <summary>What the adder gives next is no reason for how the sign falls, and not to be had for nothing.</summary>
    [Fact]
    public void A_wrong_way_gives_no_bits_away()
    {
        var walk = new Desk(Fragment.Read("machine=divide-non-restoring&width.n=4&operands=13,3")!).Walk!;
        var practice = new Practice(walk, SittingRules.Usual, 0);
        practice.Take(1 - practice.Sitting.Fork!.Falls, Vocabulary.English);
        Assert.DoesNotContain("=", Said(practice), StringComparison.Ordinal);
    }

    [Fact]
    public void A_row_that_is_right_takes_no_hint()
    {
        var practice = Begun();
        Type(practice, "0" + "00011010" + "0000");
        Assert.False(practice.Sitting.MayHint);
        practice.Sitting.TakeHint();
        Assert.Equal(0, practice.Sitting.Hints);
    }

    [Fact]
    public void A_wrong_cell_is_marked_until_it_is_mended()
    {
        var practice = Begun();
        Type(practice, "0" + "00011010" + "0001");
        Assert.Equal("1 cell is wrong. Change what is ringed, or go on with it.", Said(practice));
        var q = practice.Datapath.Registers.First(r => r.Name == "Q");
        Assert.Equal([0], Enumerable.Range(0, 4).Where(i => practice.IsWrong(q, i)));
        Assert.Equal((q, 0), practice.Cell);
        Type(practice, "0");
        Assert.Equal("Right.", Said(practice));
    }

    [Fact]
    public void Back_empties_the_cell_before_and_keys_that_mean_nothing_are_left_to_the_browser()
    {
        var practice = Begun();
        Type(practice, "001");
        Assert.True(practice.Key("Backspace", Vocabulary.English));
        var r = practice.Cell!.Value.Register;
        Assert.Equal(
            (6, null, false),
            (practice.Cell.Value.Place, practice.Sitting.Word(r)[6], practice.Sitting.Word(r)[7])
        );
        Assert.False(practice.Key("x", Vocabulary.English));
        Assert.False(practice.Key("Enter", Vocabulary.English));
    }

    [Fact]
    public void The_end_says_what_was_missed_and_what_the_own_table_comes_to()
    {
        var practice = Begun(from: 3);
        Type(practice, "0" + "11010000" + "0000");
        practice.GoOn();
        Type(practice, "1" + "10010000" + "0001");
        practice.GoOn();
        var words = Vocabulary.English;
        Assert.Equal(
            "1 of 2 rows right at once. Missed: the decision \"not borrow\" (cycle 4).",
            string.Join(' ', Reporting.SittingText.Report(practice.Report!, words))
        );
        Assert.Equal(
            "Your table comes to quotient = 1, remainder = 9; right is quotient = 3, remainder = 1.",
            words.Text(practice.Outcome("en"))
        );
    }

    [Fact]
    public void Spoken_words_are_left_out_of_the_statements() =>
        Assert.Equal(
            "  let difference, borrow = left - D via alu",
            Reporting.SittingText.Bare(
                "  let difference, borrow de \"geborgt\" = left - D via alu says \"too small\" de \"zu klein\" else \"it fits\" de \"passt\""
            )
        );
}
