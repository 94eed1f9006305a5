using System.Diagnostics;
using Xunit;

namespace Reckoner.Tests.Layers;

/// <summary>The program in examples/library, which uses the core as anybody's program would.</summary>
public class SampleTests
{
    private static readonly MarkdownPage Page = MarkdownPage.Of("docs/handbook/library.md");

    [Fact]
    public void It_prints_what_the_handbook_shows()
    {
        var folder = AppContext.BaseDirectory.Replace("Reckoner.Tests", "Reckoner.Sample", StringComparison.Ordinal);
        var ended = Child.Run(new ProcessStartInfo("dotnet", [Path.Combine(folder, "Reckoner.Sample.dll")]));
        Assert.Equal((0, "", Shown("printed")), (ended.Status, ended.Errors, ended.Output.ReplaceLineEndings("\n")));
    }

    [Fact]
    public void Its_text_stands_in_the_handbook() =>
        Assert.Equal(
            File.ReadAllText(Sources.File("examples/library/Program.cs")).ReplaceLineEndings("\n"),
            Shown("csharp")
        );

    private static string Shown(string kind) => Page.Blocks.Single(b => b.Kind == kind).Text;
}
