using Reckoner.Page.State;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Page.Tests.State;

public sealed class StatementMarkTests
{
    private static Dictionary<string, StatementMark> Marks(string fragment)
    {
        var desk = new Desk(Fragment.Read(fragment)!);
        return LineNotes
            .Of(desk.Walk!, desk.Moment, Vocabulary.English)
            .Where(n => n.Writes.Count > 0)
            .ToDictionary(
                n => desk.Sheet.Text.Split('\n')[n.Line - 1].Trim(),
                n => StatementMark.Of(n.Writes, desk.Walk!.Datapath)
            );
    }

    /// <summary>R of 10 bits, D and Q of 5: a gap is a twenty-fifth of the 20 bits.</summary>
    [Fact]
    public void A_mark_stands_where_the_bits_lie_among_the_registers()
    {
        var marks = Marks("machine=divide-still-divisor&width.n=5&operands=29,6&at=4");
        Assert.Equal("M0 0h10M10.8 0h5M16.6 0h5", marks["R <- shl(R, 0)"].Track);
        Assert.Equal("M0 0h5", marks["left <- difference"].Written);
        Assert.Equal("M0 0h10", marks["R <- shl(R, 0)"].Written);
        Assert.Equal("M16.6 0h5", marks["Q <- shl(Q, not borrow)"].Written);
        Assert.Equal(21.6, marks["R <- shl(R, 0)"].Width, 6);
    }

    [Fact]
    public void A_single_bit_and_a_row_of_registers_have_theirs()
    {
        Assert.EndsWith(
            "h1",
            Marks("machine=divide-non-restoring&width.n=4&operands=13,3&at=2")["Q[0] <- not (A < 0)"].Written
        );
        Assert.Equal(
            3,
            Marks("machine=multiply-booth&width.n=4&operands=5,3&at=1")["A:Q:before <- shr(A:Q:before, A[n])"]
                .Written.Count(c => c == 'M')
        );
    }
}
