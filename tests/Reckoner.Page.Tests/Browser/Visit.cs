using System.Collections.Concurrent;
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

    private static readonly (int Width, int Height) Window = (1280, 860);

    private readonly SemaphoreSlim once = new(1);
    private readonly ConcurrentBag<IPage> resting = [];
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
            ViewportSize = new() { Width = Window.Width, Height = Window.Height },
        };
        set?.Invoke(options);
        var profile = await browser!.NewContextAsync(options);
        profile.SetDefaultTimeout(Patience);
        return profile;
    }

    /// <summary>
    /// A page in a profile with nothing in it, to be given back. A new profile takes a new process that compiles all there is to run, three
    /// times the work of starting the page again where another visitor was before: so what he left is thrown away instead.
    /// </summary>
    public async Task<IPage> Borrow()
    {
        if (!resting.TryTake(out var page))
        {
            return await (await Profile()).NewPageAsync();
        }
        await page.EvaluateAsync("() => { localStorage.clear(); sessionStorage.clear(); }");
        await page.EmulateMediaAsync(new() { Media = Media.Null });
        await page.SetViewportSizeAsync(Window.Width, Window.Height);
        return page;
    }

    public void GiveBack(IPage page) => resting.Add(page);

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
            new() { ExecutablePath = Chromium.Program, Args = Chromium.Arguments }
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
    private readonly Func<ValueTask> end;

    /// <param name="end">What becomes of the page behind the visit.</param>
    private Visit(IPage page, Func<ValueTask> end)
    {
        Page = page;
        this.end = end;
        page.Request += Asked;
        page.Console += Said;
        page.PageError += Failed;
    }

    public IBrowserContext Profile => Page.Context;
    public IPage Page { get; }
    public List<string> Requests { get; } = [];
    public List<string> Complaints { get; } = [];

    public ILocator Text => Page.Locator("#text");
    public ILocator Verdict => Page.Locator(".verdict");

    private void Asked(object? page, IRequest request) => Requests.Add(request.Url);

    private void Said(object? page, IConsoleMessage message)
    {
        if (message.Type is "error" or "warning")
        {
            Complaints.Add(message.Text);
        }
    }

    private void Failed(object? page, string error) => Complaints.Add(error);

    /// <summary>Opens the page in a profile with nothing in it.</summary>
    public static async Task<Visit> To(Browsers browsers, string fragment)
    {
        var page = await browsers.Borrow();
        var visit = new Visit(
            page,
            () =>
            {
                browsers.GiveBack(page);
                return ValueTask.CompletedTask;
            }
        );
        await visit.Open(browsers.Address, fragment);
        return visit;
    }

    /// <summary>Opens it in a new profile, or in one that is there already, from its host or elsewhere.</summary>
    public static async Task<Visit> Anew(
        Browsers browsers,
        string fragment = "",
        IBrowserContext? profile = null,
        Action<BrowserNewContextOptions>? set = null,
        string? address = null
    )
    {
        var used = profile ?? await browsers.Profile(set);
        var page = await used.NewPageAsync();
        var visit = new Visit(page, profile is null ? used.DisposeAsync : async () => await page.CloseAsync());
        await visit.Open(address ?? browsers.Address, fragment);
        return visit;
    }

    private async Task Open(string address, string fragment)
    {
        var target = address + (fragment.Length > 0 ? "#" + fragment : "");
        if (Page.Url == "about:blank")
        {
            await Page.GotoAsync(target);
        }
        else
        {
            // Another fragment alone would be a link in the page that is there.
            await Page.EvaluateAsync("(target) => history.replaceState(null, '', target)", target);
            await Page.ReloadAsync();
        }
        await Text.WaitForAsync();
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
        Page.Request -= Asked;
        Page.Console -= Said;
        Page.PageError -= Failed;
        await end();
    }
}
