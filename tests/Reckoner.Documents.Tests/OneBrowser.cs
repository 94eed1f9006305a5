using Microsoft.Playwright;
using Xunit;

[assembly: AssemblyFixture(typeof(Reckoner.Documents.Tests.OneBrowser))]

namespace Reckoner.Documents.Tests;

/// <summary>One browser for all tests that show a page; started by the first of them, ended behind the last.</summary>
public sealed class OneBrowser : IAsyncDisposable
{
    private static readonly Lazy<Task<(IPlaywright Driver, IBrowser Browser)>> Started = new(Start);

    private static string? Chromium =>
        (Environment.GetEnvironmentVariable("PATH") ?? "")
            .Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries)
            .Select(p => Path.Combine(p, "chromium"))
            .FirstOrDefault(File.Exists);

    /// <summary>A new profile with nothing in it and no network.</summary>
    public static async Task<IBrowserContext> Profile(BrowserNewContextOptions? options = null)
    {
        Assert.SkipUnless(Chromium is not null, "chromium is missing");
        options ??= new();
        options.Offline = true;
        return await (await Started.Value).Browser.NewContextAsync(options);
    }

    private static async Task<(IPlaywright Driver, IBrowser Browser)> Start()
    {
        var driver = await Playwright.CreateAsync();
        var browser = await driver.Chromium.LaunchAsync(
            new()
            {
                ExecutablePath = Chromium,
                // A container's user may be root, whom the sandbox refuses.
                Args = ["--no-sandbox", "--disable-gpu"],
            }
        );
        return (driver, browser);
    }

    public async ValueTask DisposeAsync()
    {
        if (Started.IsValueCreated)
        {
            var (driver, browser) = await Started.Value;
            await browser.DisposeAsync();
            driver.Dispose();
        }
    }
}
