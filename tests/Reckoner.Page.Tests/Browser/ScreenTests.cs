using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using Xunit;

namespace Reckoner.Page.Tests.Browser;

/// <summary>Every screen as it is read without eyes, by keyboard, on small and large devices.</summary>
[Trait("Length", "long")]
public sealed class ScreenTests(Browsers browsers)
{
    private const string Still = "machine=divide-still-divisor&width.n=5&operands=29,6&at=1";

    /// <summary>A screen: what is folded out, and how the page is opened for it.</summary>
    public static TheoryData<string, string> Screens =>
        new()
        {
            { "first", Still },
            { "machines", Still },
            { "versions", Still },
            { "slips", Still },
            { "operands", Still },
            { "share", Still },
            { "looks", Still },
            { "beside", Still + "&beside=divide-moving-divisor" },
            { "load", Still.Replace("at=1", "at=0", StringComparison.Ordinal) },
            { "results", Still.Replace("at=1", "at=7", StringComparison.Ordinal) },
        };

    private async Task<Visit> Opened(string screen, string fragment, Action<BrowserNewContextOptions>? set = null)
    {
        var visit = await Visit.Anew(browsers, fragment, set: set);
        await visit.Judged();
        if (Reckoner.Page.State.Drawers.All.Contains(screen))
        {
            await visit.Page.Locator($"#drawer-{screen}").ClickAsync();
            await visit.Page.Locator("#drawer-title").WaitForAsync();
        }
        return visit;
    }

    /// <summary>WCAG 2.2, levels A and AA, and the common practice that axe knows.</summary>
    [Theory]
    [MemberData(nameof(Screens))]
    public async Task Axe_finds_nothing(string screen, string fragment)
    {
        foreach (var scheme in new[] { ColorScheme.Light, ColorScheme.Dark })
        {
            await using var visit = await Opened(screen, fragment, o => o.ColorScheme = scheme);
            var found = await visit.Page.RunAxe();
            Assert.Equal(
                "",
                string.Join('\n', found.Violations.Select(v => $"{scheme}: {v.Id}: {v.Help}: {v.Nodes[0].Html}"))
            );
        }
    }

    [Theory]
    [MemberData(nameof(Screens))]
    public async Task What_is_heard_of_a_screen_is_this(string screen, string fragment)
    {
        await using var visit = await Opened(screen, fragment);
        // Until the verdict has reached the width on the screen, that is offered; how soon it does depends on the machine.
        await Assertions.Expect(visit.Page.Locator(".verdict-keys button")).ToHaveCountAsync(0);
        // The figure's digits are told by the notes; a list of machines changes with the catalogue.
        await visit.Page.EvaluateAsync(
            "() => document.querySelectorAll('.families section:nth-child(n+2), .families li:nth-child(n+3), .slip-list li:nth-child(n+3), option:nth-child(n+3)').forEach((e) => e.remove())"
        );
        var heard = await visit.Page.Locator("body").AriaSnapshotAsync();
        var port = new Uri(browsers.Address).Port;
        Heard.Match(screen, heard.Replace($":{port}/", ":PORT/", StringComparison.Ordinal) + "\n");
    }

    /// <summary>Browsers leave the ground away, and light letters would stand on white paper.</summary>
    [Fact]
    public async Task A_dark_page_is_printed_dark_on_light()
    {
        await using var visit = await Opened("first", Still, o => o.ColorScheme = ColorScheme.Dark);
        var html = visit.Page.Locator("html");
        await visit.Page.EvaluateAsync("() => dispatchEvent(new Event('beforeprint'))");
        await Assertions.Expect(html).ToHaveAttributeAsync("data-ground", "light");
        await visit.Page.EvaluateAsync("() => dispatchEvent(new Event('afterprint'))");
        await Assertions.Expect(html).ToHaveAttributeAsync("data-ground", "dark");
    }

    private const string Apart = """
        () => {
            const text = document.querySelector(".parted .opening").getBoundingClientRect();
            const rows = [...document.querySelectorAll(".sheet .figure g[data-cycle]")].map((g) => g.getBoundingClientRect());
            return rows.filter((r) => r.height > 0 && r.top < text.bottom - 1 && r.bottom > text.top + 1).length;
        }
        """;

    /// <summary>The text stands in the gap that the figure leaves for it, whatever the size and the moment, on paper too.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(2)]
    [InlineData(7)]
    public async Task Nothing_of_the_figure_stands_where_the_text_does(int moment)
    {
        await using var visit = await Opened("first", Still.Replace("at=1", $"at={moment}", StringComparison.Ordinal));
        Assert.Equal(0, await visit.Page.EvaluateAsync<int>(Apart));
        await visit.Page.EvaluateAsync("() => dispatchEvent(new Event('beforeprint'))");
        Assert.Equal(0, await visit.Page.EvaluateAsync<int>(Apart));
    }

    [Theory]
    [InlineData(320, 640)]
    [InlineData(768, 1024)]
    [InlineData(1920, 1080)]
    [InlineData(3840, 2160)]
    public async Task Nothing_but_the_figure_is_wider_than_the_window(int width, int height)
    {
        await using var visit = await Opened(
            "first",
            Still,
            o => o.ViewportSize = new() { Width = width, Height = height }
        );
        Assert.Equal(
            width,
            await visit.Page.EvaluateAsync<int>("() => Math.max(innerWidth, document.documentElement.scrollWidth)")
        );
    }

    [Fact]
    public async Task Everything_can_be_reached_by_keyboard_and_is_seen_when_it_is()
    {
        await using var visit = await Opened("first", Still);
        var reached = new List<string>();
        for (var i = 0; i < 40; i++)
        {
            await visit.Page.Keyboard.PressAsync("Tab");
            var (name, outline) = await Focused(visit);
            if (reached.Contains(name))
            {
                break;
            }
            Assert.True(name == "body" || outline.StartsWith('3'), $"{name}: outline {outline}");
            reached.Add(name);
        }
        var wanted = new[] { "drawer-machines", "drawer-looks", "operand-0", "operand-1", "width-n", "text", "moment" };
        Assert.Equal([], wanted.Except(reached));
    }

    private static async Task<(string, string)> Focused(Visit visit)
    {
        var said = await visit.Page.EvaluateAsync<string>(
            "() => { const e = document.activeElement; if (e === document.body) return 'body|3px'; const s = getComputedStyle(e); return `${e.id || e.innerText || e.className || e.tagName.toLowerCase()}|${s.outlineStyle === 'none' ? 'none' : s.outlineWidth}`; }"
        );
        var parts = said.Split('|');
        return (parts[0], parts[1]);
    }

    [Fact]
    public async Task What_was_asked_to_be_predicted_stays_covered_until_it_is_asked_for()
    {
        await using var visit = await Opened("looks", Still);
        await visit.Page.GetByLabel("predict first").CheckAsync();
        await visit.Page.Keyboard.PressAsync("Escape");
        await visit.Page.Locator("#moment").FocusAsync();
        await visit.Page.Keyboard.PressAsync("ArrowDown");
        await Assertions.Expect(visit.Page.Locator(".moment span")).ToHaveTextAsync("cycle 2 of 6");
        // Which row it is may be seen; neither a digit of it nor, by a colour, where it will come from.
        var covered = visit.Page.Locator(".figure g[data-cycle='2'].here.veiled");
        await Assertions.Expect(covered.Locator("text").First).ToBeVisibleAsync();
        await Assertions.Expect(covered.Locator("text").Nth(1)).ToBeHiddenAsync();
        Assert.Equal(
            1,
            await covered
                .Locator("rect[data-bit]")
                .EvaluateAllAsync<int>("(cells) => new Set(cells.map((c) => getComputedStyle(c).fill)).size")
        );
        await Assertions.Expect(visit.Page.Locator(".notes li").First).ToBeHiddenAsync();
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Show", Exact = true }).ClickAsync();
        await Assertions.Expect(visit.Page.Locator(".notes li").First).ToBeVisibleAsync();
        await Assertions.Expect(visit.Page.Locator(".figure g[data-cycle='2'].veiled")).ToHaveCountAsync(0);
        await Assertions.Expect(visit.Page.Locator(".figure g[data-cycle='3'].veiled").First).ToBeHiddenAsync();
    }

    [Fact]
    public async Task A_slip_stands_beside_the_machine_and_what_differs_is_marked()
    {
        await using var visit = await Opened("slips", Still);
        await visit
            .Page.Locator(".slip-list li", new() { HasText = "goes round once less" })
            .GetByRole(AriaRole.Button, new() { Name = "Beside" })
            .ClickAsync();
        await Assertions.Expect(visit.Page.Locator(".beside")).ToContainTextAsync("hold something else in cycles: 5.");
        await visit
            .Page.Locator(".slip-list li", new() { HasText = "\"not last\" is taken in any case" })
            .Or(visit.Page.Locator(".slip-list li", new() { HasText = "\"not last\" is taken" }))
            .First.GetByRole(AriaRole.Button, new() { Name = "Beside" })
            .ClickAsync();
        await Assertions.Expect(visit.Page.Locator(".beside .differs").First).ToBeVisibleAsync();
    }

    [Fact]
    public async Task Operands_that_show_something_are_walked_when_they_are_pressed()
    {
        await using var visit = await Opened("operands", Still);
        await visit.Page.GetByLabel("They are to show").FillAsync("remainder = 0 and borrow happens exactly 2 times");
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Choose" }).ClickAsync();
        await visit.Page.Locator(".choices button").First.ClickAsync();
        await Assertions.Expect(visit.Page.Locator(".results")).ToContainTextAsync("remainder 0");
        await visit.Page.GetByLabel("They are to show").FillAsync("nonsense happens");
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Choose" }).ClickAsync();
        await Assertions.Expect(visit.Page.Locator(".drawer")).ToContainTextAsync("decides nothing called");
    }

    [Fact]
    public async Task Figures_and_texts_are_saved_as_files()
    {
        await using var visit = await Opened("share", Still);
        foreach (
            var (button, name, start) in new[]
            {
                ("Save the description", "divide-still-divisor.machine", "machine divide-still-divisor"),
                ("Save the figure as SVG", "divide-still-divisor-weave.svg", "<svg "),
                ("Save the figure as PNG", "divide-still-divisor-weave.png", "\u0089PNG"),
                ("Save as a lesson", "divide-still-divisor.md", "---\ntitle: Division"),
            }
        )
        {
            var download = await visit.Page.RunAndWaitForDownloadAsync(() =>
                visit.Page.GetByRole(AriaRole.Button, new() { Name = button }).ClickAsync()
            );
            Assert.Equal(name, download.SuggestedFilename);
            var bytes = await File.ReadAllBytesAsync(
                (await download.PathAsync())!,
                TestContext.Current.CancellationToken
            );
            Assert.StartsWith(start, System.Text.Encoding.Latin1.GetString(bytes), StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task A_file_is_opened_if_it_is_a_text_and_refused_in_a_sentence_if_not()
    {
        await using var visit = await Opened("machines", Still);
        var input = visit.Page.Locator("#file");
        await input.SetInputFilesAsync(
            new FilePayload
            {
                Name = "a.png",
                MimeType = "image/png",
                Buffer = [0x89, 0x50, 0, 1],
            }
        );
        await Assertions
            .Expect(visit.Page.Locator(".slip"))
            .ToContainTextAsync("a.png is no text, so it was not opened.");
        await Assertions
            .Expect(visit.Page.Locator("h1"))
            .ToHaveTextAsync("Division: the remainder moves, the divisor stays");
        await input.SetInputFilesAsync(
            new FilePayload
            {
                Name = "big",
                MimeType = "text/plain",
                Buffer = new byte[3_000_000],
            }
        );
        await Assertions.Expect(visit.Page.Locator(".slip")).ToContainTextAsync("big is longer than 2,000,000 bytes");
        await input.SetInputFilesAsync(
            new FilePayload
            {
                Name = "m.machine",
                MimeType = "text/plain",
                Buffer =
                    "machine m\ntitle \"Mine\"\nwidth n = 4 in 2..8\noperand a : n\nregister A : n loads a\nstep s\n  A <- shl(A, 0)\nresult b = A\nlaw b = b\n"u8.ToArray(),
            }
        );
        await Assertions.Expect(visit.Page.Locator("h1")).ToHaveTextAsync("Mine");
        await visit.Page.Keyboard.PressAsync("Control+z");
        await Assertions
            .Expect(visit.Page.Locator("h1"))
            .ToHaveTextAsync("Division: the remainder moves, the divisor stays");
    }

    [Fact]
    public async Task A_pasted_book_is_refused_in_a_sentence_and_the_text_stays()
    {
        await using var visit = await Opened("first", Still);
        var text = await visit.Text.InputValueAsync();
        await visit.Text.FillAsync(new string('x', 3_000_000));
        await Assertions.Expect(visit.Page.Locator(".standing .slip")).ToContainTextAsync("at most 200,000 are read");
        await Assertions.Expect(visit.Text).ToHaveValueAsync(text);
    }
}
