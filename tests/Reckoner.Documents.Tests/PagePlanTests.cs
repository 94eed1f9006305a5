using Xunit;

namespace Reckoner.Documents.Tests;

public class PagePlanTests
{
    /// <summary>A page whose text is 1000 units high.</summary>
    private static readonly Paper Thousand = new(1000, 1200, 100);

    private static Strip Text(double height) => new(height, (_, _) => { });

    private static Strip Figure(double height, double least) => Text(height) with { Least = least };

    private static string Planned(params IReadOnlyList<Strip> strips) =>
        string.Join(
            ' ',
            PagePlan
                .Of(strips, Thousand)
                .Select(p =>
                    $"{p.From}-{p.To}{(p.IsAcross ? "a" : "")}{(p.GivesWay > 0 ? $"({p.GivesWay:0.##})" : "")}"
                )
        );

    [Fact]
    public void Pages_are_filled_one_after_the_other() =>
        Assert.Equal("0-2 2-4 4-5", Planned([.. Enumerable.Repeat(Text(450), 5)]));

    /// <summary>800 and a figure of 400 that may be 150 give way by half of what it may to a page of 1000.</summary>
    [Fact]
    public void A_figure_gives_way_where_that_saves_a_page() =>
        Assert.Equal("0-2(0.8)", Planned(Text(800), Figure(400, 150)));

    [Fact]
    public void A_figure_does_not_give_way_for_nothing() =>
        Assert.Equal("0-1 1-3", Planned(Text(800), Figure(400, 190), Text(500)));

    [Fact]
    public void What_stays_together_is_not_parted() =>
        Assert.Equal("0-1 1-3", Planned(Text(800), Text(100), Text(200) with { StaysWithAbove = true }));

    [Fact]
    public void What_is_longer_than_a_page_goes_on_all_the_same() =>
        Assert.Equal(
            "0-2 2-3",
            Planned(Text(500), Text(500) with { StaysWithAbove = true }, Text(500) with { StaysWithAbove = true })
        );

    [Fact]
    public void A_page_begins_where_that_is_asked_for() =>
        Assert.Equal("0-1 1-2", Planned(Text(100), Text(100) with { BeginsPage = true }));

    /// <summary>Text above a figure across stays upright, and what follows the figure stands below it.</summary>
    [Fact]
    public void A_figure_across_turns_its_page() =>
        Assert.Equal("0-1 1-3a", Planned(Text(100), Text(100) with { IsAcross = true }, Text(100)));

    /// <summary>On pages in a row the head of a table stands again, and has its room.</summary>
    [Fact]
    public void What_is_said_again_has_its_room()
    {
        var row = Text(300) with { Again = Text(200) };
        Assert.Equal("0-4 4-6 6-7", Planned(Text(100), row, row, row, row, row, row));
    }
}
