using Reckoner.Tests;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>
/// What README and handbook show as printed is printed. With RECKONER_RENEW=yes the pages are written anew instead, and the
/// tests fail all the same: what changed is to be read before it is kept.
/// </summary>
public sealed class ConsoleBlockTests
{
    public static IEnumerable<TheoryDataRow<string>> Blocks =>
        ConsoleBlock.All.Select(b => new TheoryDataRow<string>($"{b}"));

    [Fact]
    public void There_is_something_to_run() => Assert.NotEmpty(ConsoleBlock.All);

    [Theory]
    [MemberData(nameof(Blocks))]
    public void A_command_prints_what_the_page_shows(string place)
    {
        var block = ConsoleBlock.All.Single(b => $"{b}" == place);
        using var run = new ConsoleBlock(block);
        var printed = run.Printed();
        if (printed != block.Text && Environment.GetEnvironmentVariable("RECKONER_RENEW") == "yes")
        {
            Renew(block, printed);
        }
        Assert.True(block.Text == printed, $"{place} shows something else than is printed:\n{printed}");
    }

    private static void Renew(CodeBlock block, string printed)
    {
        var file = MarkdownPage.FileOf(block.Page.Path);
        var fence = $"```{block.Info}\n";
        var text = File.ReadAllText(file).ReplaceLineEndings("\n");
        File.WriteAllText(file, text.Replace(fence + block.Text, fence + printed, StringComparison.Ordinal));
    }

    [Fact]
    public void The_walk_of_the_README_is_the_command_that_it_tells_to_type()
    {
        var page = MarkdownPage.Of("README.md");
        var shown = page.Blocks.First(b => b.Kind == "console").Text.Split('\n')[0]["$ ".Length..];
        Assert.Contains(shown, page.InlineCode);
    }
}
