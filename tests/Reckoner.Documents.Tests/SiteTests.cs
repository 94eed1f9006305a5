using System.Diagnostics;
using System.Net;
using System.Runtime.CompilerServices;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Xunit;

namespace Reckoner.Documents.Tests;

/// <summary>The site, made once as whoever publishes it makes it.</summary>
public sealed class MadeSite : IDisposable
{
    public MadeSite()
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }
        var start = new ProcessStartInfo(Path.Combine(Repository(), ".ci/site"), [Folder]);
        using var site = Child.Start(start, TimeSpan.FromMinutes(30));
        var (status, output, errors) = site.End();
        Assert.True(status == 0, output + errors);
    }

    public string Folder { get; } = Directory.CreateTempSubdirectory("reckoner-site-").FullName;

    private static string Repository([CallerFilePath] string here = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", ".."));

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}

/// <summary>The site looked at from its folder, without a network.</summary>
[Trait("Length", "long")]
public sealed partial class SiteTests(MadeSite site) : IClassFixture<MadeSite>
{
    private const string Program = "page.html";

    private readonly string folder = site.Folder;

    private string Address(string page) => new Uri(Path.Combine(folder, page)).ToString();

    private async Task<IPage> Shown(string page, BrowserNewContextOptions? options = null)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "not applicable: bash");
        var shown = await (await OneBrowser.Profile(options)).NewPageAsync();
        await shown.GotoAsync(Address(page));
        return shown;
    }

    /// <summary>
    /// Every link leads to a file of the folder, and to a place that is in it; into the page, to a machine of the catalogue. The page
    /// is one file, which leads nowhere but into itself.
    /// </summary>
    [Fact]
    public async Task Nothing_leads_nowhere()
    {
        var page = await Shown("index.html");
        var texts = Directory
            .EnumerateFiles(folder, "*.html", SearchOption.AllDirectories)
            .ToDictionary(f => f, f => Outside().Replace(File.ReadAllText(f), ""));
        var ids = texts.ToDictionary(
            t => t.Key,
            t => Ids().Matches(t.Value).Select(m => m.Groups[1].Value).ToHashSet()
        );
        var dead =
            from file in texts.Keys
            from link in Links().Matches(texts[file]).Select(m => WebUtility.HtmlDecode(m.Groups[1].Value))
            where !link.Contains("://", StringComparison.Ordinal) && !link.StartsWith("data:", StringComparison.Ordinal)
            let parts = link.Split('#')
            let target = parts[0] is "" or "./"
                ? file
                : Path.GetFullPath(Path.Combine(Path.GetDirectoryName(file)!, parts[0]))
            where !File.Exists(target) || (parts.Length > 1 && !IsPlace(target, Uri.UnescapeDataString(parts[1])))
            select $"{Path.GetRelativePath(folder, file)}: {link}";
        Assert.Equal("", string.Join("\n", dead.Distinct()));
        var machines = Directory.EnumerateFiles(Path.Combine(folder, "machines"), "*.html").Count() - 1;
        Assert.Equal(Reckoner.Catalogue.MachineCatalogue.Names.Count(), machines);
        await page.CloseAsync();

        bool IsPlace(string target, string place) =>
            target == Path.Combine(folder, Program)
                ? place.StartsWith("machine=", StringComparison.Ordinal)
                    && File.Exists(Path.Combine(folder, "machines", place["machine=".Length..] + ".html"))
                : ids[target].Contains(place);
    }

    [Fact]
    public async Task What_is_looked_for_is_found()
    {
        var page = await Shown("docs/handbook/slips.html");
        await page.FillAsync("#search", "narrow register");
        var found = page.Locator("#found a");
        await found.First.WaitForAsync();
        var address = await found.First.GetAttributeAsync("href");
        await found.First.ClickAsync();
        Assert.Contains(address!.TrimStart('.', '/').Split('#')[0], page.Url, StringComparison.Ordinal);
        Assert.NotEqual("", await page.Locator("h1").First.TextContentAsync());
    }

    [Fact]
    public async Task A_press_opens_a_machine_in_the_page()
    {
        var page = await Shown("machines/multiply-booth.html");
        await page.Locator($"main a[href*='{Program}']").ClickAsync();
        await page.Locator(".figure").First.WaitForAsync(new() { Timeout = 120_000 });
        Assert.EndsWith("#machine=multiply-booth", page.Url.Split('&')[0], StringComparison.Ordinal);
        // Some of the description stands folded, and what can be changed in a field.
        var shown = await page.EvaluateAsync<string>(
            "document.body.textContent + [...document.querySelectorAll('textarea')].map((t) => t.value).join('\\n')"
        );
        Assert.Contains("machine multiply-booth\n", shown, StringComparison.Ordinal);
    }

    /// <summary>On paper there is what is read, whole, and nothing that is pressed.</summary>
    [Fact]
    public async Task Paper_has_no_frame()
    {
        var page = await Shown("docs/handbook/command.html");
        Assert.True(await page.Locator("nav").IsVisibleAsync());
        await page.EmulateMediaAsync(new() { Media = Media.Print });
        Assert.False(await page.Locator("nav").IsVisibleAsync());
        Assert.False(await page.Locator("search").IsVisibleAsync());
        var cut = await page.EvaluateAsync<int>(
            "[...document.querySelectorAll('pre')].filter((p) => p.scrollWidth > p.clientWidth + 1).length"
        );
        Assert.Equal(0, cut);
    }

    [Theory]
    [InlineData(ColorScheme.Light)]
    [InlineData(ColorScheme.Dark)]
    public async Task Nobody_is_shut_out(ColorScheme scheme)
    {
        var page = await Shown("index.html", new() { ColorScheme = scheme });
        string[] paths =
        [
            "index.html",
            "docs/handbook/slips.html",
            "docs/handbook/command.html",
            "docs/handbook/gallery.html",
            "machines/index.html",
            "machines/divide-still-divisor.html",
        ];
        foreach (var path in paths)
        {
            await page.GotoAsync(Address(path));
            await page.AddScriptTagAsync(
                new() { Content = new Deque.AxeCore.Commons.BundledAxeScriptProvider().GetScript() }
            );
            var told = await page.EvaluateAsync<string>(
                "axe.run().then((r) => r.violations.map((v) => `${v.id}: ${v.nodes[0].html}`).join('\\n') || `none of ${r.passes.length > 10}`)"
            );
            Assert.Equal($"{path}: none of true", $"{path}: {told}");
        }
    }

    /// <summary>What a page does, and how it looks, is no link.</summary>
    [GeneratedRegex("<(script|style)\\b.*?</\\1>", RegexOptions.Singleline)]
    private static partial Regex Outside();

    [GeneratedRegex("(?:href|src|srcset)=\"([^\"]*)\"")]
    private static partial Regex Links();

    [GeneratedRegex("id=\"([^\"]*)\"")]
    private static partial Regex Ids();
}
