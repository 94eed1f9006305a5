using Microsoft.Playwright;
using Xunit;

[assembly: AssemblyFixture(typeof(Reckoner.Documents.Tests.OneBrowser))]

namespace Reckoner.Documents.Tests;

/// <summary>One browser for all tests that show a page; started by the first of them, ended behind the last.</summary>
public sealed class OneBrowser : IAsyncDisposable
{
    private static readonly Lazy<Task<(IPlaywright Driver, IBrowser Browser)>> Started = new(Start);

    /// <summary>A new profile with nothing in it and no network.</summary>
    public static async Task<IBrowserContext> Profile(BrowserNewContextOptions? options = null)
    {
        Assert.SkipWhen(Chromium.Program.Length == 0, "chromium is missing");
        options ??= new();
        options.Offline = true;
        return await (await Started.Value).Browser.NewContextAsync(options);
    }

    private static async Task<(IPlaywright Driver, IBrowser Browser)> Start()
    {
        var driver = await Playwright.CreateAsync();
        var browser = await driver.Chromium.LaunchAsync(
            new() { ExecutablePath = Chromium.Program, Args = Chromium.Arguments }
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
