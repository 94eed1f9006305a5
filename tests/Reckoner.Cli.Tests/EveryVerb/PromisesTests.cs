using Reckoner.Tests;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>The figures of the handbook's page about tests are those of the tests.</summary>
public class PromisesTests
{
    private static readonly MarkdownPage Page = MarkdownPage.Of("docs/handbook/promises.md");

    private static IEnumerable<string> Figures(string heading) => Page.Table(heading).Select(row => row[1]);

    [Fact]
    public void What_is_asked_of_every_machine() =>
        Assert.Equal(
            [
                $"{Verb.All.Count}",
                $"{Combination.All.Count}",
                $"{EveryVerbTests.Each}",
                $"{EveryVerbTests.Machines}",
                $"{EveryVerbTests.Hours}",
                $"{EveryVerbTests.Bound.TotalMinutes}",
            ],
            Figures("Every verb over every machine")
        );

    [Fact]
    public void What_the_twin_is_shown() =>
        Assert.Equal(
            [
                $"{OutsideTwinTests.Recorded}",
                $"{OutsideTwinTests.Few}",
                $"{OutsideTwinTests.Quick}",
                $"{OutsideTwinTests.QuickSlips}",
                $"{OutsideTwinTests.Lengthy}",
            ],
            Figures("An outside twin")
        );
}
