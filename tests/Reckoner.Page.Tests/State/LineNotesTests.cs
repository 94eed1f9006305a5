using Reckoner.Page.State;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Page.Tests.State;

public sealed class LineNotesTests
{
    private static IEnumerable<string> Told(string fragment)
    {
        var desk = new Desk(Fragment.Read(fragment)!);
        var lines = desk.Sheet.Text.Split('\n');
        return LineNotes
            .Of(desk.Walk!, desk.Moment, Vocabulary.English)
            .Select(n =>
                $"{lines[n.Line - 1].Trim()} | {n.Text}{(n.IsIdle ? " (idle)" : "")}"
                + string.Concat(n.Writes.Select(w => $" > {w}"))
            );
    }

    [Fact]
    public void A_cycle_tells_at_each_line_what_it_did_and_what_was_not_taken() =>
        Assert.Equal(
            [
                "let difference, borrow de \"geborgt\" = left - D via alu says \"too small: 0 enters\" "
                    + "de \"zu klein: 0 tritt ein\" else \"it fits: 1 enters\" de \"passt: 1 tritt ein\""
                    + " | too small: 0 enters (00000 - 00110 borrows)",
                "if not borrow | not taken; the remainder: unchanged (idle)",
                "Q <- shl(Q, not borrow) | the quotient: moved left, 0 enters > Q",
                "if not last | not the last round",
                "R <- shl(R, 0) | the remainder register: moved left, 0 enters > R",
            ],
            Told("machine=divide-still-divisor&width.n=5&operands=29,6&at=1")
        );

    [Fact]
    public void The_load_tells_the_widths_the_operands_and_what_the_registers_hold() =>
        Assert.Equal(
            [
                "width n = 8 in 2..128 | 5",
                "operand dividend de \"Dividend\" : n | 29 = 11101",
                "operand divisor de \"Divisor\" : n | 6 = 00110",
                "register R \"the remainder register\" de \"das Restregister\" : 2n loads extend(dividend) | 00000 11101 > R",
                "register D \"the divisor\" de \"der Divisor\" : n loads divisor | 00110 > D",
                "register Q \"the quotient\" de \"der Quotient\" : n loads 0 | 00000 > Q",
            ],
            Told("machine=divide-still-divisor&width.n=5&operands=29,6")
        );

    [Fact]
    public void The_results_tell_their_numbers_and_the_laws_how_they_stand() =>
        Assert.Equal(
            [
                "result quotient de \"Quotient\" = Q | 4 = 00100",
                "result remainder de \"Rest\" = left | 5 = 00101",
                "law dividend = quotient * divisor + remainder | holds: 29 = 4 * 6 + 5",
                "law remainder < divisor | holds: 5 < 6",
            ],
            Told("machine=divide-still-divisor&width.n=5&operands=29,6&at=7")
        );
}
