using Xunit;

namespace Reckoner.Tests;

/// <summary>The judge of laws, fed with machines that break them: it must say so, and say it of the right law.</summary>
public class LawTests
{
    /// <summary>The remainder comes out twice too large, cut to four bits.</summary>
    [Theory]
    [InlineData(7, 2, false, false)]
    [InlineData(10, 3, false, true)]
    [InlineData(12, 4, true, true)]
    [InlineData(14, 15, false, true)]
    public void A_remainder_twice_too_large_breaks_the_laws_it_breaks(
        int dividend,
        int divisor,
        bool sumHolds,
        bool boundHolds
    )
    {
        var walk = Walks.Of(Walks.At("running/divide-remainder-doubled", 4), dividend, divisor);
        Assert.Equal(
            [("dividend = quotient * divisor + remainder", sumHolds), ("remainder < divisor", boundHolds)],
            walk.Claims.Select(c => (c.Claim.Text, c.Holds))
        );
        Assert.Equal(sumHolds && boundHolds, walk.Holds);
    }

    /// <summary>+ holds, - does not, . does not apply; the results of this machine are its operands.</summary>
    [Theory]
    [InlineData(3, 5, 8, "+-+-+-++")]
    [InlineData(5, 3, 8, "+-..+-++")]
    [InlineData(2, 0, 8, "+-..++-.")]
    [InlineData(1, 2, 8, "+-+-++++")]
    [InlineData(6, 6, 3, "+-.")]
    public void Claims_of_every_kind_are_judged_by_their_meaning(int a, int b, int count, string verdicts)
    {
        var walk = Walks.Of(Walks.At("running/claims-of-every-kind", 4), a, b);
        Assert.Equal(count, walk.Claims.Count);
        Assert.Equal(
            verdicts,
            string.Concat(
                walk.Claims.Select(c =>
                    !c.Applies ? '.'
                    : c.Holds ? '+'
                    : '-'
                )
            )
        );
        Assert.Equal(a != b, walk.IsGiven);
        Assert.False(walk.Holds);
    }

    /// <summary>
    /// The pair by which the flaw of a 1994 processor became known (Nicely's list of questions and answers, from Coe), scaled to
    /// 24 bits. The table with all its cells keeps the laws there, the one with five cells empty does not.
    /// </summary>
    [Fact]
    public void Five_empty_cells_of_the_table_break_the_laws_for_the_pair_that_showed_them()
    {
        Assert.True(Walks.Of(Walks.At("divide-srt-radix-4", 24), 4195835 * 2, 3145727 * 4).Holds);
        Assert.False(Walks.Of(Walks.At("divide-srt-radix-4-1994", 24), 4195835 * 2, 3145727 * 4).Holds);
    }
}
