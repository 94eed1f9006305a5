using System.Diagnostics;
using System.Net;
using System.Runtime.CompilerServices;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Xunit;

namespace Reckoner.Documents.Tests;

/// <summary>The site, made as whoever publishes it makes it, and looked at from its folder, without a network.</summary>
[Trait("Length", "long")]
public sealed partial class SiteTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-site-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private static string Repository([CallerFilePath] string here = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", ".."));

    private async Task<IPage> Made(string page, BrowserNewContextOptions? options = null)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "not applicable: bash");
        var start = new ProcessStartInfo(Path.Combine(Repository(), ".ci/site"), [folder]);
        using var site = Child.Start(start, TimeSpan.FromMinutes(30));
        var (status, output, errors) = site.End();
        Assert.True(status == 0, output + errors);
        var shown = await (await OneBrowser.Profile(options)).NewPageAsync();
        await shown.GotoAsync(new Uri(Path.Combine(folder, page)).ToString());
        return shown;
    }

    /// <summary>Every link leads to a file of the folder, and to a place that is in it.</summary>
    [Fact]
    public async Task Nothing_leads_nowhere_and_the_search_finds()
    {
        var page = await Made("docs/handbook/slips.html");
        var ids = Directory
            .EnumerateFiles(folder, "*.html", SearchOption.AllDirectories)
            .ToDictionary(f => f, f => Ids().Matches(File.ReadAllText(f)).Select(m => m.Groups[1].Value).ToHashSet());
        var dead =
            from file in ids.Keys
            where Path.GetFileName(file) != "page.html"
            from link in Links().Matches(File.ReadAllText(file)).Select(m => WebUtility.HtmlDecode(m.Groups[1].Value))
            where !link.Contains("://", StringComparison.Ordinal)
            let parts = link.Split('#')
            let target = parts[0].Length == 0
                ? file
                : Path.GetFullPath(Path.Combine(Path.GetDirectoryName(file)!, parts[0]))
            where Path.GetFileName(target) != "page.html"
            where !File.Exists(target) || (parts.Length > 1 && !ids[target].Contains(Uri.UnescapeDataString(parts[1])))
            select $"{Path.GetRelativePath(folder, file)}: {link}";
        Assert.Equal("", string.Join("\n", dead.Distinct()));

        await page.FillAsync("#search", "narrow register");
        var found = page.Locator("#found a");
        await found.First.WaitForAsync();
        var address = await found.First.GetAttributeAsync("href");
        await found.First.ClickAsync();
        Assert.Contains(address!.TrimStart('.', '/').Split('#')[0], page.Url, StringComparison.Ordinal);
        Assert.NotEqual("", await page.Locator("h1").First.TextContentAsync());
    }

    [Theory]
    [InlineData(ColorScheme.Light)]
    [InlineData(ColorScheme.Dark)]
    public async Task Nobody_is_shut_out(ColorScheme scheme)
    {
        var page = await Made("index.html", new() { ColorScheme = scheme });
        foreach (var path in new[] { "index.html", "docs/handbook/slips.html", "machines/divide-still-divisor.html" })
        {
            await page.GotoAsync(new Uri(Path.Combine(folder, path)).ToString());
            await page.AddScriptTagAsync(
                new() { Content = new Deque.AxeCore.Commons.BundledAxeScriptProvider().GetScript() }
            );
            var told = await page.EvaluateAsync<string>(
                "axe.run().then((r) => r.violations.map((v) => `${v.id}: ${v.nodes[0].html}`).join('\\n') || `none of ${r.passes.length > 10}`)"
            );
            Assert.Equal("none of true", told);
        }
    }

    [GeneratedRegex("(?:href|src|srcset)=\"([^\"]*)\"")]
    private static partial Regex Links();

    [GeneratedRegex("id=\"([^\"]*)\"")]
    private static partial Regex Ids();
}
