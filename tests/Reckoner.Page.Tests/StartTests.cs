using Reckoner.Page.State;
using Reckoner.Page.Tests.Browser;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Page.Tests;

/// <summary>What stands there before the program runs.</summary>
public sealed class StartTests
{
    private static readonly string Html = File.ReadAllText(
        Path.Combine(PageFolder.Repository, "src/Reckoner.Page/wwwroot/index.html")
    );

    [Fact]
    public void The_sentence_without_scripts_is_that_of_the_words() =>
        Assert.Contains(
            $"<noscript>{Vocabulary.English.Say("page.no-script")}</noscript>",
            Html,
            StringComparison.Ordinal
        );

    [Fact]
    public void What_the_page_opens_with_can_be_read_in_every_language() =>
        Assert.All(
            Vocabulary.Languages,
            language => Assert.NotNull(Reading.Of(Fragment.Read(Vocabulary.Of(language)!.Say("page.start"))!).Walk)
        );

    [Fact]
    public void The_policy_lets_nothing_be_fetched_from_elsewhere()
    {
        Assert.Contains("default-src 'self' blob:;", Html, StringComparison.Ordinal);
        Assert.DoesNotContain("http://", Html, StringComparison.Ordinal);
        Assert.DoesNotContain("https://", Html, StringComparison.Ordinal);
    }
}
