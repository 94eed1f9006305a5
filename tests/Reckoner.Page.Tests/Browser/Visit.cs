using Microsoft.Playwright;
using Reckoner.Host;
using Xunit;

[assembly: AssemblyFixture(typeof(Reckoner.Page.Tests.Browser.Browsers))]

namespace Reckoner.Page.Tests.Browser;

/// <summary>One browser and one host for all tests that visit the page.</summary>
public sealed class Browsers : IAsyncDisposable
{
    /// <summary>Milliseconds; a machine that does much else at a time needs longer, and what never comes is told all the same.</summary>
    public const int Patience = 120_000;

    private readonly SemaphoreSlim once = new(1);
    private readonly CancellationTokenSource stop = new();
    private IPlaywright? playwright;
    private IBrowser? browser;
    private Task? serving;

    public string Address { get; private set; } = "";

    /// <summary>A new profile with nothing in it.</summary>
    public async Task<IBrowserContext> Profile(Action<BrowserNewContextOptions>? set = null)
    {
        PageFolder.SkipWhenMissing();
        await once.WaitAsync(TestContext.Current.CancellationToken);
        try
        {
            await Start();
        }
        finally
        {
            once.Release();
        }
        var options = new BrowserNewContextOptions
        {
            ViewportSize = new() { Width = 1280, Height = 860 },
        };
        set?.Invoke(options);
        var profile = await browser!.NewContextAsync(options);
        profile.SetDefaultTimeout(Patience);
        return profile;
    }

    private async Task Start()
    {
        if (browser is not null)
        {
            return;
        }
        var address = new TaskCompletionSource<string>();
        serving = PageHost.Run(PageFolder.Place, 0, address.SetResult, stop.Token);
        Address = await address.Task;
        playwright = await Playwright.CreateAsync();
        Assertions.SetDefaultExpectTimeout(Patience);
        browser = await playwright.Chromium.LaunchAsync(
            new()
            {
                ExecutablePath = PageFolder.Chromium,
                // A container's user may be root, whom the sandbox refuses.
                Args = ["--no-sandbox", "--disable-gpu"],
            }
        );
    }

    public async ValueTask DisposeAsync()
    {
        if (browser is not null)
        {
            await browser.DisposeAsync();
        }
        playwright?.Dispose();
        await stop.CancelAsync();
        if (serving is not null)
        {
            await serving;
        }
        stop.Dispose();
        once.Dispose();
    }
}

/// <summary>One visitor's page, with all that it asked the network for and complained of.</summary>
internal sealed class Visit : IAsyncDisposable
{
    private Visit(IBrowserContext profile, IPage page, bool owns)
    {
        Profile = profile;
        Page = page;
        this.owns = owns;
        page.Request += (_, request) => Requests.Add(request.Url);
        page.Console += (_, message) =>
        {
            if (message.Type is "error" or "warning")
            {
                Complaints.Add(message.Text);
            }
        };
        page.PageError += (_, error) => Complaints.Add(error);
    }

    private readonly bool owns;

    public IBrowserContext Profile { get; }
    public IPage Page { get; }
    public List<string> Requests { get; } = [];
    public List<string> Complaints { get; } = [];

    public ILocator Text => Page.Locator("#text");
    public ILocator Verdict => Page.Locator(".verdict");

    /// <summary>Opens the page in a new profile, or in one that is there already.</summary>
    public static async Task<Visit> To(
        Browsers browsers,
        string fragment = "",
        IBrowserContext? profile = null,
        Action<BrowserNewContextOptions>? set = null,
        string? address = null
    )
    {
        var used = profile ?? await browsers.Profile(set);
        var visit = new Visit(used, await used.NewPageAsync(), profile is null);
        await visit.Page.GotoAsync((address ?? browsers.Address) + (fragment.Length > 0 ? "#" + fragment : ""));
        await visit.Text.WaitForAsync();
        return visit;
    }

    /// <summary>The verdict once it is about the text as it stands.</summary>
    public async Task<string> Judged()
    {
        await Page.Locator(".verdict:not(.waiting)").WaitForAsync();
        return await Verdict.InnerTextAsync();
    }

    /// <summary>Every cell's digit in a row of the figure, as it is seen.</summary>
    public Task<string> Row(int cycle) =>
        Page.EvaluateAsync<string>(
            """
            (cycle) => [...document.querySelectorAll(`.figure g[data-cycle="${cycle}"] text`)]
                .map((t) => t.textContent).join("")
            """,
            cycle
        );

    public async ValueTask DisposeAsync()
    {
        await Page.CloseAsync();
        if (owns)
        {
            await Profile.DisposeAsync();
        }
    }
}
