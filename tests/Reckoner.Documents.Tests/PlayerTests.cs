using Microsoft.Playwright;
using Xunit;

namespace Reckoner.Documents.Tests;

/// <summary>The player of a lesson, driven in a browser without network by keys, buttons and on paper.</summary>
public sealed class PlayerTests : IAsyncLifetime
{
    private static string Chromium =>
        (Environment.GetEnvironmentVariable("PATH") ?? "")
            .Split(Path.PathSeparator)
            .Select(p => Path.Combine(p, "chromium"))
            .First(File.Exists);

    private readonly Folder folder = new();
    private IPlaywright? playwright;
    private IBrowser? browser;

    public async ValueTask InitializeAsync()
    {
        folder.Write("index.html", LessonPackTests.File("index.html"));
        playwright = await Playwright.CreateAsync();
        browser = await playwright.Chromium.LaunchAsync(
            new()
            {
                ExecutablePath = Chromium,
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
        folder.Dispose();
    }

    private async Task<IPage> Visit(bool? javaScript = null, ViewportSize? phone = null)
    {
        var context = await browser!.NewContextAsync(
            new()
            {
                Offline = true,
                JavaScriptEnabled = javaScript,
                HasTouch = phone is not null,
                ViewportSize = phone ?? ViewportSize.NoViewport,
            }
        );
        var page = await context.NewPageAsync();
        await page.GotoAsync(new Uri(Path.Combine(folder.Path, "index.html")).ToString());
        return page;
    }

    private static ILocator Rows(IPage page) => page.Locator(".stage tr[data-cycle]:not(.later)");

    private static ILocator Button(IPage page, string name) => page.GetByRole(AriaRole.Button, new() { Name = name });

    /// <summary>Also behind the last cycle the keys are heard: the button that brought one there keeps the focus.</summary>
    [Fact]
    public async Task Keys_step_through_the_cycles()
    {
        var page = await Visit();
        Assert.Equal(1, await Rows(page).CountAsync());
        await Button(page, "Next cycle").ClickAsync();
        Assert.Equal(2, await Rows(page).CountAsync());
        foreach (
            var (key, rows) in new[] { ("ArrowRight", 3), ("ArrowLeft", 2), ("End", 7), ("Home", 1), ("ArrowRight", 2) }
        )
        {
            await page.Keyboard.PressAsync(key);
            Assert.Equal(rows, await Rows(page).CountAsync());
        }
    }

    /// <summary>A presenter's remote sends Page Down and Page Up; outside of the full screen those scroll the page.</summary>
    [Fact]
    [Trait("Length", "long")]
    public async Task The_block_fills_the_screen_and_gives_it_back()
    {
        var page = await Visit();
        await Button(page, "Full screen").ClickAsync();
        await page.WaitForFunctionAsync("document.fullscreenElement?.className === 'stage'");
        await page.Keyboard.PressAsync("PageDown");
        await page.Keyboard.PressAsync("PageDown");
        await page.Keyboard.PressAsync("PageUp");
        Assert.Equal(2, await Rows(page).CountAsync());
        await page.Keyboard.PressAsync("f");
        await page.WaitForFunctionAsync("document.fullscreenElement === null");
        await page.Keyboard.PressAsync("PageDown");
        Assert.Equal(2, await Rows(page).CountAsync());
    }

    /// <summary>What is wider than the screen is scrolled by the same finger, so there a swipe does not step.</summary>
    [Fact]
    [Trait("Length", "long")]
    public async Task A_finger_steps_through_the_cycles()
    {
        var page = await Visit(phone: new() { Width = 390, Height = 844 });
        var free = page.Locator(".stage .now").First;
        await Swipe(page, free, across: -120, down: 10);
        await Swipe(page, free, across: -120, down: 10);
        Assert.Equal(3, await Rows(page).CountAsync());
        await Swipe(page, free, across: 120, down: -10);
        Assert.Equal(2, await Rows(page).CountAsync());
        await Swipe(page, free, across: -30, down: 0);
        await Swipe(page, free, across: -80, down: 70);
        Assert.Equal(2, await Rows(page).CountAsync());
        var figure = page.Locator(".stage figure .wide").First;
        Assert.True(await figure.EvaluateAsync<bool>("it => it.scrollWidth > it.clientWidth"));
        await Swipe(page, figure, across: -120, down: 0);
        Assert.Equal(2, await Rows(page).CountAsync());
    }

    /// <summary>By the browser's own touch input, from the middle of an element.</summary>
    private static async Task Swipe(IPage page, ILocator from, int across, int down)
    {
        await from.ScrollIntoViewIfNeededAsync();
        var box = (await from.BoundingBoxAsync())!;
        var session = await page.Context.NewCDPSessionAsync(page);
        var (x, y) = (box.X + box.Width / 2, box.Y + box.Height / 2);
        await Touch("touchStart", (x, y));
        await Touch("touchMove", (x + across / 2, y + down / 2));
        await Touch("touchMove", (x + across, y + down));
        await Touch("touchEnd");
        await session.DetachAsync();

        Task Touch(string type, params (float X, float Y)[] points) =>
            session.SendAsync(
                "Input.dispatchTouchEvent",
                new()
                {
                    ["type"] = type,
                    ["touchPoints"] = points
                        .Select(p => new Dictionary<string, object> { ["x"] = p.X, ["y"] = p.Y })
                        .ToArray(),
                }
            );
    }

    [Fact]
    [Trait("Length", "long")]
    public async Task What_was_predicted_is_told_apart_from_what_came()
    {
        var page = await Visit();
        await Button(page, "Predict first").ClickAsync();
        await Button(page, "Next cycle").ClickAsync();
        Assert.Equal(1, await Rows(page).CountAsync());
        Assert.Equal(3, await page.Locator(".stage input").CountAsync());
        await page.Keyboard.TypeAsync("0000111010");
        await page.Keyboard.PressAsync("Tab");
        await page.Keyboard.TypeAsync("111");
        await page.Keyboard.PressAsync("Enter");
        Assert.Equal(2, await Rows(page).CountAsync());
        Assert.Equal(["as predicted", "predicted: 111"], await page.Locator(".guess").AllInnerTextsAsync());
    }

    /// <summary>Even amid a prediction: no field, no button, every register.</summary>
    [Fact]
    [Trait("Length", "long")]
    public async Task Printing_shows_every_cycle_however_far_one_has_stepped()
    {
        var page = await Visit();
        await Button(page, "Predict first").ClickAsync();
        await Button(page, "Next cycle").ClickAsync();
        await page.EmulateMediaAsync(new() { Media = Media.Print });
        Assert.Equal(21, await page.Locator("td[data-register] code:visible").CountAsync());
        Assert.Equal(0, await page.Locator("input:visible, button:visible").CountAsync());
    }

    [Fact]
    [Trait("Length", "long")]
    public async Task Without_script_everything_is_there_and_no_button()
    {
        var page = await Visit(javaScript: false);
        Assert.Equal(21, await page.Locator("td[data-register] code:visible").CountAsync());
        Assert.Equal(0, await page.Locator("button").CountAsync());
    }
}
