using Reckoner.Page.State;
using Reckoner.Styles;
using Xunit;

namespace Reckoner.Page.Tests.State;

/// <summary>The figure that the text stands in is drawn at every width, narrow cells and wide ones.</summary>
public sealed class RowsWithTextTests
{
    [Theory]
    [InlineData(2)]
    [InlineData(5)]
    [InlineData(16)]
    [InlineData(32)]
    [InlineData(64)]
    [InlineData(128)]
    public void The_parted_figure_is_drawn(int width)
    {
        var walk = new Desk(Fragment.Read($"machine=divide-still-divisor&width.n={width}&operands=3,2")!).Walk!;
        var figure = Views.Figure(Views.Parted, walk, 1, Looks.Usual, HouseStyle.None, walk.Cycles);
        var drawn = Assert.Single(Views.Parted.Draws(figure));
        var usual = Assert.Single(Views.Parted.Draws(figure with { LargestRow = null }));
        // Cells fill more of a near row, so that the last one may end later by a part of itself.
        const double Cell = 30;
        Assert.True(drawn.Height < usual.Height + Cell / 2, $"{drawn.Height} > {usual.Height}");
        Assert.True(width != 5 || drawn.Height < 0.8 * usual.Height, $"{drawn.Height} of {usual.Height}");
    }
}
