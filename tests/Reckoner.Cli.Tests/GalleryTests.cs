using Reckoner.Tests;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>The figures of the gallery are those that its commands draw. With RECKONER_RENEW=yes they are drawn anew.</summary>
public sealed class GalleryTests
{
    private const string Gallery = "docs/handbook/gallery.md";
    private const string Drawn = "$ ./reckoner draw ";

    private static IReadOnlyList<(string Arguments, string Name)> Figures { get; } =
    [
        .. MarkdownPage
            .Of(Gallery)
            .Blocks.Select(b => b.Text.TrimEnd('\n')[Drawn.Length..].Split(" -o ./"))
            .Select(parts => (parts[0], parts[1])),
    ];

    public static IEnumerable<TheoryDataRow<string, string>> All =>
        Figures.Select(f => new TheoryDataRow<string, string>(f.Arguments, f.Name));

    [Theory]
    [MemberData(nameof(All))]
    public void A_figure_is_what_its_command_draws(string arguments, string name)
    {
        var file = MarkdownPage.FileOf($"docs/handbook/gallery/{name}");
        var drawn = Command.Line($"draw {arguments}");
        Assert.Equal((0, ""), (drawn.Status, drawn.Errors));
        if (Environment.GetEnvironmentVariable("RECKONER_RENEW") == "yes")
        {
            File.WriteAllText(file, drawn.Output);
        }
        Assert.True(File.ReadAllText(file) == drawn.Output, $"{name} is not what is drawn now");
    }

    [Fact]
    public void Every_figure_in_the_folder_stands_on_the_page() =>
        Assert.Equal(
            Figures.Select(f => f.Name).Order(StringComparer.Ordinal),
            Directory
                .EnumerateFiles(MarkdownPage.FileOf("docs/handbook/gallery"))
                .Select(Path.GetFileName)
                .Order(StringComparer.Ordinal)
        );
}
