using Reckoner.Catalogue;
using Reckoner.Notation;
using Reckoner.Page.State;
using Xunit;

namespace Reckoner.Page.Tests.State;

public sealed class CutTests
{
    private static List<string> Pieces(string text)
    {
        var source = new Source("text", text);
        return [.. Cut.Of(Parser.Read(source).Description).Pieces.Select(p => p.In(source.Text))];
    }

    [Fact]
    public void What_stands_above_the_schedule_is_of_the_load_what_stands_below_of_the_results() =>
        Assert.Equal(
            [
                "machine m\nwidth n = 4 in 2..8\noperand a : n\nregister A : n loads a",
                "-- twice\nrepeat 2\n  A <- shl(A, 0)\nend",
                "step out\n  A <- shr(A, 0)",
                "result b = A\nlaw b = b",
            ],
            Pieces(
                """
                machine m
                width n = 4 in 2..8
                operand a : n
                register A : n loads a

                -- twice
                repeat 2
                  A <- shl(A, 0)
                end

                step out
                  A <- shr(A, 0)


                result b = A
                law b = b

                """
            )
        );

    [Theory]
    [InlineData("")]
    [InlineData("\n\n")]
    [InlineData("nothing of the kind")]
    public void A_text_without_schedule_is_one_piece(string text) => Assert.Single(Pieces(text));

    [Fact]
    public void The_pieces_of_every_machine_hold_its_whole_text()
    {
        foreach (var entry in MachineCatalogue.Entries)
        {
            var words = string.Join(' ', Pieces(entry.Source.Text))
                .Split((char[])[' ', '\n'], StringSplitOptions.RemoveEmptyEntries);
            Assert.Equal(entry.Source.Text.Split((char[])[' ', '\n'], StringSplitOptions.RemoveEmptyEntries), words);
        }
    }

    [Fact]
    public void Every_cycle_of_every_machine_opens_the_piece_that_drives_it()
    {
        foreach (var entry in MachineCatalogue.Entries)
        {
            var desk = new Desk(Sheet.Of(entry.Name)!);
            Assert.NotNull(desk.Walk);
            for (var cycle = 1; cycle <= desk.Walk.Cycles; cycle++)
            {
                desk.LookAt(cycle);
                var step = desk.Walk.Rows[cycle].Step!;
                var source = desk.Good!.Machine.Description.Source;
                var open = desk.Open.In(source.Text);
                Assert.True(
                    step.Source == source
                        ? step.Line >= desk.Open.FirstLine && step.Line < desk.Open.FirstLine + open.Split('\n').Length
                        : open.StartsWith("core", StringComparison.Ordinal)
                            || open.StartsWith("--", StringComparison.Ordinal),
                    $"{entry.Name}, cycle {cycle}: {open}"
                );
            }
        }
    }
}
