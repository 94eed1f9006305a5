using Xunit;

namespace Reckoner.Documents.Tests;

/// <summary>Tables to be filled in: every digit has a box, and no box stands over another or beyond the line.</summary>
public class BoxLayoutTests
{
    private const double Room = 641;

    private static (Grid Grid, Filling Filling) Registers(params string[] digits)
    {
        var grid = new Grid(
            null,
            ["cycle", .. digits.Select((_, i) => $"R{i}")],
            [
                ["1", .. digits],
            ]
        );
        return (grid, new Filling(Enumerable.Range(1, digits.Length).ToHashSet(), [new HashSet<int>()], false));
    }

    /// <summary>The divider of 5 bits has boxes of 5 mm and more on one line.</summary>
    [Fact]
    public void A_row_of_twenty_digits_is_a_line()
    {
        var (grid, filling) = Registers("00000 11101", "00110", "00000");
        var layout = BoxLayout.Of(grid, filling, Room, 14);
        Assert.Equal(1, layout.Lines);
        Assert.InRange(layout.Unit, 19, 26);
        Assert.Equal([5, 5], layout.Runs(layout.Columns[1], "00000 11101").Select(r => r.Count));
    }

    [Theory]
    [InlineData("0000 1011", "1", "0")]
    [InlineData("00000000 11001000", "0000011100000000", "00000000")]
    [InlineData("0101010101010101010101010101010101010101010101010101010101010101", "1", "01")]
    [InlineData("01010101010101010101010101010", "01010101010101010101010101", "0101010101")]
    public void Every_digit_has_a_box_of_its_own(params string[] digits)
    {
        var (grid, filling) = Registers(digits);
        var layout = BoxLayout.Of(grid, filling, Room, 14);
        var runs = digits.SelectMany((d, i) => layout.Runs(layout.Columns[i + 1], d)).ToList();
        Assert.Equal(digits.Sum(d => BoxLayout.Digits(d).Length), runs.Sum(r => r.Count));
        Assert.All(runs, r => Assert.InRange(r.Left + r.Count * layout.Unit, 0, Room + 0.1));
        Assert.All(runs, r => Assert.InRange(r.Line, 0, layout.Lines - 1));
        foreach (var line in runs.GroupBy(r => r.Line))
        {
            var places = line.OrderBy(r => r.Left).ToList();
            Assert.All(
                places.Zip(places.Skip(1)),
                p => Assert.True(p.First.Left + p.First.Count * layout.Unit <= p.Second.Left, $"{p}")
            );
        }
    }

    /// <summary>What is no digit, such as a mark, stands behind the boxes.</summary>
    [Fact]
    public void Marks_have_no_box()
    {
        Assert.Equal("00010110", BoxLayout.Digits("0001 0110 *"));
        Assert.Equal("*", BoxLayout.Behind("0001 0110 *"));
    }
}
