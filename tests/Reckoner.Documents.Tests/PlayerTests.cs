using Microsoft.Playwright;
using Xunit;

namespace Reckoner.Documents.Tests;

/// <summary>The player's pages in a folder, for all visits.</summary>
public sealed class PlayerFolder : IDisposable
{
    private readonly Folder folder = new();

    public PlayerFolder()
    {
        folder.Write("index.html", LessonPackTests.File("index.html"));
        folder.Write("paper.html", LessonPackTests.PageWith("paper"));
    }

    public void Dispose() => folder.Dispose();

    /// <summary>The page in a new profile, at a place of it.</summary>
    public async Task<IPage> Visit(BrowserNewContextOptions options, string place = "", string file = "index.html")
    {
        var context = await OneBrowser.Profile(options);
        var page = await context.NewPageAsync();
        await page.GotoAsync(new Uri(Path.Combine(folder.Path, file)) + place);
        return page;
    }
}

/// <summary>The player of a lesson, driven in a browser without network by keys, buttons and on paper.</summary>
public sealed class PlayerTests(PlayerFolder folder) : IClassFixture<PlayerFolder>
{
    private Task<IPage> Visit(bool? javaScript = null, ViewportSize? phone = null) =>
        folder.Visit(
            new()
            {
                JavaScriptEnabled = javaScript,
                HasTouch = phone is not null,
                ViewportSize = phone ?? ViewportSize.NoViewport,
            }
        );

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

    /// <summary>The lesson in the window, as a room sees it, at a size in pixels.</summary>
    private async Task<IPage> Shown(int width = 1280, int height = 720, string place = "screen-2")
    {
        var size = new ViewportSize { Width = width, Height = height };
        var page = await folder.Visit(new() { HasTouch = true, ViewportSize = size }, "#" + place);
        await page.Locator(".frame .ways").WaitForAsync();
        return page;
    }

    /// <summary>
    /// The lesson has two screens: its text, then its block with the load, six cycles and the results. Nothing is seen before its
    /// time, and what a pointer sends leads there and back.
    /// </summary>
    [Fact]
    public async Task A_pointer_leads_through_the_lesson()
    {
        var page = await Shown(place: "screen-1");
        Assert.False(await page.Locator(".stage").IsVisibleAsync());
        await page.Keyboard.PressAsync("PageDown");
        await Assertions.Expect(page.Locator(".stage table")).ToBeVisibleAsync();
        for (var cycle = 0; cycle <= 6; cycle++)
        {
            Assert.Equal(cycle + 1, await Rows(page).CountAsync());
            Assert.Equal(
                cycle + 1,
                await page.Locator("figure g[data-cycle]:not(.later):has(rect[data-bit])").CountAsync()
            );
            Assert.DoesNotContain("quotient = 4", await Seen(page), StringComparison.Ordinal);
            await page.Keyboard.PressAsync(cycle % 2 == 0 ? "PageDown" : "ArrowRight");
        }
        Assert.Contains("quotient = 4", await Seen(page), StringComparison.Ordinal);
        await page.Keyboard.PressAsync("PageUp");
        Assert.DoesNotContain("quotient = 4", await Seen(page), StringComparison.Ordinal);
        await page.Keyboard.PressAsync("b");
        Assert.True(await page.Locator(".black").IsVisibleAsync());
        await page.Keyboard.PressAsync("PageUp");
        Assert.False(await page.Locator(".black").IsVisibleAsync());
        Assert.Equal(7, await Rows(page).CountAsync());
    }

    /// <summary>A sum by hand has no rows of cells: its digits and what is said beside them come with their cycles.</summary>
    [Fact]
    public async Task Nothing_of_a_sum_by_hand_is_seen_before_its_cycle()
    {
        const string Early = """
            () => [...document.querySelectorAll("figure g.later text")].map((t) => getComputedStyle(t).visibility)
            """;
        var page = await folder.Visit(new(), "#screen-2-1", "paper.html");
        await page.Locator(".frame .ways").WaitForAsync();
        var early = await page.EvaluateAsync<string[]>(Early);
        Assert.True(early.Length > 10, $"{early.Length} texts are still to come");
        Assert.All(early, visibility => Assert.Equal("hidden", visibility));
    }

    /// <summary>Table and figure beside each other on common lines, a band behind the row that is looked at, all of it in the picture.</summary>
    [Theory]
    [InlineData(1280, 720)]
    [InlineData(1920, 1080)]
    public async Task One_band_marks_the_row_in_table_and_figure(int width, int height)
    {
        var page = await Shown(width, height, "screen-2-3");
        var band = (await page.Locator(".band").BoundingBoxAsync())!;
        foreach (
            var it in new[] { "tr[data-cycle='3'] td >> nth=0", "figure g[data-cycle='3'] rect[data-bit] >> nth=-1" }
        )
        {
            var marked = (await page.Locator(it).BoundingBoxAsync())!;
            Assert.InRange(marked.Y + marked.Height / 2, band.Y + 0.4 * band.Height, band.Y + 0.6 * band.Height);
        }
        var table = (await page.Locator(".walked table").BoundingBoxAsync())!;
        var figure = (await page.Locator("figure svg").BoundingBoxAsync())!;
        Assert.True(table.X + table.Width < figure.X, "the table stands beside the figure");
        Assert.InRange(figure.X + figure.Width, 0, width);
        Assert.InRange(figure.Y + figure.Height, 0, (await page.Locator(".reason-now").BoundingBoxAsync())!.Y);
        var size = await page.Locator(".walked table")
            .EvaluateAsync<double>("it => parseFloat(getComputedStyle(it).fontSize)");
        Assert.InRange(size, height / 32.0, height / 20.0);
    }

    /// <summary>Predicting, the row is asked for with empty cells in both; the next key shows it.</summary>
    [Fact]
    [Trait("Length", "long")]
    public async Task A_room_predicts_before_it_sees()
    {
        var page = await Shown();
        await page.Keyboard.PressAsync("p");
        await page.Keyboard.PressAsync("PageDown");
        Assert.Equal(1, await Rows(page).CountAsync());
        Assert.Equal(3, await page.Locator(".stage input:visible").CountAsync());
        Assert.Equal(0, await page.Locator("figure g[data-cycle='1'] text:visible >> nth=1").CountAsync());
        await page.Keyboard.PressAsync("PageDown");
        Assert.Equal(2, await Rows(page).CountAsync());
        Assert.Equal(0, await page.Locator(".stage input").CountAsync());
    }

    /// <summary>Where there is no key to press a finger steps, and a word leads out, by what a tap on it sends; the text is then as it was.</summary>
    [Fact]
    [Trait("Length", "long")]
    public async Task A_finger_finds_the_way_out()
    {
        var page = await Shown();
        await Swipe(page, page.Locator(".band"), across: -120, down: 10);
        Assert.Equal(2, await Rows(page).CountAsync());
        await page.GetByRole(AriaRole.Button, new() { Name = "End presenting" }).ClickAsync();
        await Assertions.Expect(page.Locator("figcaption")).ToBeVisibleAsync();
        var svg = page.Locator("figure svg");
        Assert.StartsWith("0 0 ", await svg.GetAttributeAsync("viewBox"), StringComparison.Ordinal);
    }

    /// <summary>Who leaves the full screen by the browser's own key is back in the text, where Page Down scrolls.</summary>
    [Fact]
    [Trait("Length", "long")]
    public async Task The_block_fills_the_screen_and_gives_it_back()
    {
        var page = await Visit();
        await Button(page, "Full screen").ClickAsync();
        await page.WaitForFunctionAsync("document.fullscreenElement === document.documentElement");
        await page.Keyboard.PressAsync("PageDown");
        await page.Keyboard.PressAsync("PageDown");
        await page.Keyboard.PressAsync("PageUp");
        Assert.Equal(2, await Rows(page).CountAsync());
        await page.EvaluateAsync("document.exitFullscreen()");
        await page.WaitForFunctionAsync("document.documentElement.dataset.presenting === 'no'");
        await page.Keyboard.PressAsync("PageDown");
        Assert.Equal(2, await Rows(page).CountAsync());
    }

    /// <summary>What the screen shows in words; texts of the figure too.</summary>
    private static Task<string> Seen(IPage page) =>
        page.EvaluateAsync<string>(
            """
            [...document.querySelectorAll("body *")]
                .filter((it) => it.children.length === 0 && it.checkVisibility({ visibilityProperty: true }))
                .map((it) => it.textContent).join(" ")
            """
        );

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
