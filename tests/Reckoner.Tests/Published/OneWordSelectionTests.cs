using Xunit;

namespace Reckoner.Tests;

/// <summary>
/// The digits of radix 4 for a remainder in one word: Hennessy and Patterson, appendix on computer arithmetic, figure of the quotient digits
/// (from memory; every boundary recomputed to be legal). Ranges overlap: either digit is right, so the digit of the table
/// must lie in one of them.
/// </summary>
public class OneWordSelectionTests
{
    /// <summary>The first row and the last for the digits -2 to 2, in eighths, by sixteenths of the divisor.</summary>
    [Theory]
    [InlineData(8, -12, -7, -6, -3, -2, 1, 2, 5, 6, 11)]
    [InlineData(9, -14, -8, -7, -3, -3, 2, 2, 6, 7, 13)]
    [InlineData(10, -15, -9, -8, -3, -3, 2, 2, 7, 8, 14)]
    [InlineData(11, -16, -9, -9, -3, -3, 2, 2, 8, 8, 15)]
    [InlineData(12, -18, -10, -10, -4, -4, 3, 3, 9, 9, 17)]
    [InlineData(13, -19, -11, -10, -4, -4, 3, 3, 9, 10, 18)]
    [InlineData(14, -20, -11, -11, -4, -4, 3, 3, 10, 10, 19)]
    [InlineData(15, -22, -12, -12, -4, -5, 4, 3, 11, 11, 21)]
    public void Every_digit_of_the_table_lies_in_its_published_range(int divisor, params int[] ends)
    {
        var walk = Walks.Of(Walks.At("divide-srt-radix-4-one-word", 8), 200, 200);
        var rows = walk.Rows.SelectMany(r => r.Moments).SelectMany(m => m.Values);
        var table = rows.First(v => v.Wire.Name == "q").Wire.Value.Table!;
        var digits = new HashSet<int>();
        for (var row = ends[0]; row <= ends[^1]; row++)
        {
            var digit = (int)Numbers.Bits.AsSigned(table.Cells[(row & 63) * 16 + divisor], table.Width);
            digits.Add(digit);
            Assert.InRange(row, ends[2 * digit + 4], ends[2 * digit + 5]);
        }
        Assert.Equal([-2, -1, 0, 1, 2], digits.Order());
    }
}
