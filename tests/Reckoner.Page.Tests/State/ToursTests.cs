using Reckoner.Page.State;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Page.Tests.State;

/// <summary>What a visitor may begin with is there, in every language, with what it wants to show.</summary>
public sealed class ToursTests
{
    public static TheoryData<string, string> All => [.. Tours.All.Select(t => (t.Key, t.Link))];

    [Theory]
    [MemberData(nameof(All))]
    public void A_tour_opens_on_a_walk_and_what_stands_beside_it(string key, string link)
    {
        var sheet = Fragment.Read(link)!;
        var reading = Reading.Of(sheet);
        Assert.True(reading.Walk!.Holds);
        Assert.Equal(sheet.View, Views.Of(sheet.View, reading.Walk).Name);
        Assert.InRange(sheet.Moment, 0, reading.Walk.Cycles);
        Assert.All(Vocabulary.Languages, l => Assert.True(Vocabulary.Of(l)!.Knows(key)));
        if (sheet.Beside.Length > 0)
        {
            var other = Reading.Of(sheet, Machines.Beside(sheet, reading.Machine)!).Walk!;
            Assert.Equal(Machines.SlipOf(sheet.Beside) is null, other.Results.SequenceEqual(reading.Walk.Results));
        }
    }
}
