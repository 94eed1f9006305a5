using Microsoft.Playwright;
using Reckoner.Host;
using Xunit;

namespace Reckoner.Page.Tests.Browser;

/// <summary>What a person does with the page, in the system's browser.</summary>
public sealed class VisitTests(Browsers browsers)
{
    private const string Still = "machine=divide-still-divisor&width.n=5&operands=29,6&at=1";

    private static void AssertQuiet(Visit visit) => Assert.Equal("", string.Join('\n', visit.Complaints));

    [Fact]
    public async Task Typing_into_a_statement_breaks_the_machine_and_the_verdict_says_for_which_operands()
    {
        await using var visit = await Visit.To(browsers, Still);
        Assert.StartsWith("Right for all ", await visit.Judged(), StringComparison.Ordinal);

        var text = await visit.Text.InputValueAsync();
        await visit.Text.FillAsync(text.Replace("  if not last\n    R <- shl(R, 0)\n  end", "  R <- shl(R, 0)"));
        await Assertions.Expect(visit.Verdict).ToContainTextAsync("exactly when remainder <> 0.");
        Assert.Contains("Wrong for ", await visit.Judged(), StringComparison.Ordinal);

        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Walk the smallest" }).ClickAsync();
        await Assertions.Expect(visit.Page.Locator("#operand-0")).ToHaveValueAsync("1");
        await Assertions.Expect(visit.Page.Locator("#operand-1")).ToHaveValueAsync("2");
        await Assertions.Expect(visit.Page.Locator(".results")).ToContainTextAsync("a law does NOT hold");
        AssertQuiet(visit);
    }

    [Fact]
    public async Task A_syntax_slip_is_told_in_place_and_the_last_good_picture_stays_marked_as_old()
    {
        await using var visit = await Visit.To(browsers, Still);
        var row = await visit.Row(1);
        Assert.Equal("100001110100011000000", row);
        var text = await visit.Text.InputValueAsync();
        await visit.Text.FillAsync(text.Replace("left - D", "lef - D", StringComparison.Ordinal));
        await Assertions
            .Expect(visit.Page.Locator(".slips"))
            .ToContainTextAsync("Nothing is called lef here. Near: left.");
        await Assertions.Expect(visit.Page.Locator(".place")).ToHaveCountAsync(1);
        await Assertions.Expect(visit.Page.Locator(".old")).ToBeVisibleAsync();
        Assert.Equal(row, await visit.Row(1));
        await visit.Text.FillAsync(text);
        await Assertions.Expect(visit.Page.Locator(".old")).ToHaveCountAsync(0);
        AssertQuiet(visit);
    }

    [Fact]
    public async Task Arrow_keys_step_through_time_and_the_text_of_the_moment_stands_open()
    {
        await using var visit = await Visit.To(browsers, Still);
        await visit.Page.Keyboard.PressAsync("ArrowDown");
        await Assertions.Expect(visit.Page.Locator(".moment span")).ToHaveTextAsync("cycle 2 of 6");
        await visit.Page.Keyboard.PressAsync("Home");
        await Assertions.Expect(visit.Text).ToHaveValueAsync(new System.Text.RegularExpressions.Regex("^machine "));
        await visit.Page.Keyboard.PressAsync("End");
        await Assertions.Expect(visit.Text).ToHaveValueAsync(new System.Text.RegularExpressions.Regex("^result "));
        await visit.Page.Keyboard.PressAsync("PageUp");
        await Assertions.Expect(visit.Page.Locator(".moment span")).ToHaveTextAsync("cycle 6 of 6");
        AssertQuiet(visit);
    }

    /// <summary>A statement, a bit or a cycle that is picked in one place is picked in all.</summary>
    [Fact]
    public async Task What_is_picked_anywhere_is_picked_everywhere()
    {
        await using var visit = await Visit.To(browsers, Still);
        var note = visit.Page.Locator(".notes [aria-current=true]");
        await visit.Text.PressAsync("Control+Home");
        await Assertions.Expect(note).ToHaveCountAsync(0);
        await visit.Text.PressAsync("ArrowDown");
        await Assertions.Expect(note).ToContainTextAsync("borrows");
        await visit.Page.Locator(".figure [data-cycle='3'] [data-register=Q][data-bit='0']").ClickAsync();
        await Assertions.Expect(visit.Page.Locator(".moment span")).ToHaveTextAsync("cycle 3 of 6");
        await Assertions.Expect(note).ToContainTextAsync("the quotient: moved left");
        await Assertions.Expect(visit.Page.Locator(".figure .picked")).ToHaveCountAsync(7);
        await Assertions
            .Expect(visit.Page.Locator(".strokes .strong"))
            .ToHaveAttributeAsync("d", new System.Text.RegularExpressions.Regex("^M"));
        AssertQuiet(visit);
    }

    [Fact]
    public async Task The_datapath_is_a_reading_of_the_same_cycle()
    {
        await using var visit = await Visit.To(browsers, Still + "&view=datapath");
        await visit.Page.Locator(".figure [data-register=Q][data-bit='0']").First.ClickAsync();
        await Assertions.Expect(visit.Page.Locator(".figure [data-register=Q].picked")).ToHaveCountAsync(3);
        await visit
            .Page.Locator(".figure rect[data-line]")
            .First.ClickAsync(
                new()
                {
                    Position = new() { X = 4, Y = 4 },
                }
            );
        await Assertions.Expect(visit.Page.Locator(".figure rect[data-line].picked")).Not.ToHaveCountAsync(0);
        await Assertions.Expect(visit.Page.Locator(".notes [aria-current=true]").First).ToBeVisibleAsync();
        AssertQuiet(visit);
    }

    [Fact]
    public async Task So_is_the_table()
    {
        await using var visit = await Visit.To(browsers, Still + "&view=table");
        await visit.Page.Locator(".figure [data-cycle='5'] text").First.ClickAsync();
        await Assertions.Expect(visit.Page.Locator(".moment span")).ToHaveTextAsync("cycle 5 of 6");
        await Assertions.Expect(visit.Page.Locator(".figure g.here")).ToHaveAttributeAsync("data-cycle", "5");
        AssertQuiet(visit);
    }

    [Fact]
    public async Task Every_reading_of_the_walk_is_a_press_away_and_the_title_stands_there_once()
    {
        await using var visit = await Visit.To(browsers, Still);
        var readings = visit.Page.GetByRole(AriaRole.Group, new() { Name = "Read as" });
        foreach (var name in new[] { "datapath", "sum by hand", "table", "what was saved", "weave" })
        {
            var button = readings.GetByRole(AriaRole.Button, new() { Name = name });
            await button.ClickAsync();
            await Assertions.Expect(button).ToHaveAttributeAsync("aria-pressed", "true");
            await Assertions
                .Expect(
                    visit
                        .Page.GetByText("Division: the remainder moves, the divisor stays", new() { Exact = true })
                        .Filter(new() { Visible = true })
                )
                .ToHaveCountAsync(name == "what was saved" ? 2 : 1);
        }
        AssertQuiet(visit);
    }

    [Fact]
    public async Task A_link_with_an_operand_that_does_not_fit_shows_a_figure_and_says_which()
    {
        await using var visit = await Visit.To(browsers, Still.Replace("29,6", "99,6", StringComparison.Ordinal));
        await Assertions.Expect(visit.Page.Locator("#slip-dividend")).ToContainTextAsync("99 needs 7 bits");
        await Assertions
            .Expect(visit.Page.Locator(".old"))
            .ToHaveTextAsync(
                "An operand or width does not fit, so the figure shows dividend = 29, divisor = 6, n = 5."
            );
        Assert.Equal("100001110100011000000", await visit.Row(1));
        await visit.Page.Locator("#operand-0").FillAsync("9");
        await Assertions.Expect(visit.Page.Locator(".old")).ToHaveCountAsync(0);
        AssertQuiet(visit);
    }

    [Theory]
    [Trait("Length", "long")]
    [InlineData(390, 844)]
    public Task So_it_is_on_a_larger_one(int width, int height) =>
        On_a_phone_everything_is_done_by_touch_and_notes_stand_below_their_lines(width, height);

    /// <summary>A phone: fingers only, and all there is to read stands within its width.</summary>
    [Theory]
    [InlineData(320, 640)]
    public async Task On_a_phone_everything_is_done_by_touch_and_notes_stand_below_their_lines(int width, int height)
    {
        await using var visit = await Visit.Anew(
            browsers,
            Still,
            set: o => (o.HasTouch, o.IsMobile, o.ViewportSize) = (true, true, new() { Width = width, Height = height })
        );
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "later" }).TapAsync();
        await Assertions.Expect(visit.Page.Locator(".moment span")).ToHaveTextAsync("cycle 2 of 6");
        var line = visit.Page.Locator(".read [data-row='5']");
        await Assertions.Expect(line.Locator("code")).ToHaveTextAsync("Q <- shl(Q, not borrow)");
        await Assertions.Expect(line.Locator("p")).ToHaveTextAsync("the quotient: moved left, 0 enters");
        var beyond = await visit.Page.EvaluateAsync<double>(
            "() => Math.max(...[...document.querySelectorAll('.read :is(code, p)')].map((e) => e.getBoundingClientRect().right)) - innerWidth"
        );
        Assert.True(beyond <= 0, $"{beyond} beyond the window");

        await visit.Page.Locator(".figure [data-cycle='3'] [data-register=R][data-bit='8']").TapAsync();
        await Assertions.Expect(visit.Page.Locator(".moment span")).ToHaveTextAsync("cycle 3 of 6");
        await Assertions.Expect(visit.Page.Locator(".figure .picked")).ToHaveCountAsync(7);
        await Assertions.Expect(visit.Page.Locator(".read p.here")).ToHaveCountAsync(1);

        await line.TapAsync();
        await Assertions.Expect(visit.Text).ToBeFocusedAsync();
        await visit.Page.Keyboard.TypeAsync(" -- ours");
        Assert.Contains(
            "Q <- shl(Q, not borrow) -- ours\n",
            await visit.Text.InputValueAsync(),
            StringComparison.Ordinal
        );
        await Assertions
            .Expect(visit.Page.Locator(".notes li:visible"))
            .ToHaveTextAsync(["the quotient: moved left, 0 enters", "the remainder register: moved left, 0 enters"]);
        AssertQuiet(visit);
    }

    [Fact]
    public async Task A_reload_in_the_middle_of_a_word_loses_nothing_and_a_new_tab_finds_the_last_work()
    {
        await using var visit = await Visit.To(browsers, Still);
        await visit.Text.PressAsync("Control+End");
        await visit.Text.PressSequentiallyAsync("\n-- half a wor");
        var address = visit.Page.Url;
        await visit.Page.ReloadAsync();
        await Assertions
            .Expect(visit.Text)
            .ToHaveValueAsync(new System.Text.RegularExpressions.Regex("-- half a wor$"));
        Assert.Equal(address, visit.Page.Url);

        await using var again = await Visit.Anew(browsers, profile: visit.Profile);
        Assert.EndsWith("-- half a wor", await again.Text.InputValueAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_link_opens_in_a_clean_profile_with_everything_as_it_was()
    {
        await using var visit = await Visit.To(browsers, Still);
        await visit.Text.FillAsync("repeat n\n  Q <- shl(Q, 1)\nend");
        await visit.Page.Keyboard.PressAsync("Escape");
        var row = await visit.Row(2);
        await using var other = await Visit.Anew(browsers, address: visit.Page.Url);
        Assert.Equal("repeat n\n  Q <- shl(Q, 1)\nend", await other.Text.InputValueAsync());
        Assert.Equal(row, await other.Row(2));
    }

    /// <summary>A key that is held down changes more than browsers write into an address; it follows all the same.</summary>
    [Fact]
    public async Task The_address_follows_however_quickly_one_steps()
    {
        await using var visit = await Visit.To(browsers, Still);
        await visit.Page.EvaluateAsync(
            """
            () => {
                window.writes = 0;
                const replace = history.replaceState.bind(history);
                history.replaceState = (...what) => { window.writes++; replace(...what); };
                for (let i = 0; i < 81; i++) {
                    const key = i % 2 ? "ArrowUp" : "ArrowDown";
                    document.body.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true }));
                }
            }
            """
        );
        await Assertions.Expect(visit.Page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex("at=2$"));
        var writes = await visit.Page.EvaluateAsync<int>("() => window.writes");
        Assert.InRange(writes, 1, 60);
        AssertQuiet(visit);
    }

    [Theory]
    [Trait("Length", "long")]
    [InlineData("machine=<script>alert(1)</script>")]
    [InlineData("machine=divide-still-divisor&width.n=128&at=99999999999")]
    public Task So_is_this_one(string fragment) => A_hostile_link_is_text_and_the_page_stays_alive(fragment);

    [Theory]
    [InlineData("text=<img src=x onerror=alert(1)>")]
    [InlineData("machine=divide-still-divisor&operands=<b>1</b>,2&beside=<i>")]
    public async Task A_hostile_link_is_text_and_the_page_stays_alive(string fragment)
    {
        await using var visit = await Visit.To(browsers, fragment);
        Assert.Equal(0, await visit.Page.Locator("img, b:has-text('1'):not(.results b), i, #page script").CountAsync());
        await visit.Page.Locator("#operand-0").FillAsync("29");
        await visit.Page.Locator("#operand-1").FillAsync("6");
        await visit.Page.Locator("#operand-1").BlurAsync();
        await visit.Page.Keyboard.PressAsync("End");
        await Assertions.Expect(visit.Page.Locator(".moment span")).ToHaveTextAsync("results");
        AssertQuiet(visit);
    }

    [Fact]
    public async Task Nothing_is_asked_of_the_network_but_the_pages_own_files()
    {
        await using var visit = await Visit.Anew(browsers, Still);
        await visit.Judged();
        Assert.True(visit.Requests.Count > 20, $"{visit.Requests.Count} requests seen");
        Assert.All(
            visit.Requests,
            url =>
                Assert.True(
                    url.StartsWith(browsers.Address, StringComparison.Ordinal)
                        || url.StartsWith("blob:" + browsers.Address, StringComparison.Ordinal)
                        || url == "data:,",
                    url
                )
        );
    }

    [Fact]
    public async Task The_single_file_opens_from_the_disk_with_the_network_off()
    {
        PageFolder.SkipWhenMissing();
        var file = Path.Combine(Path.GetTempPath(), $"reckoner-{Path.GetRandomFileName()}.html");
        await File.WriteAllTextAsync(file, SingleFile.Of(PageFolder.Place), TestContext.Current.CancellationToken);
        try
        {
            await using var visit = await Visit.Anew(
                browsers,
                Still,
                set: o => o.Offline = true,
                address: new Uri(file).AbsoluteUri
            );
            Assert.StartsWith("Right for all ", await visit.Judged(), StringComparison.Ordinal);
            await visit.Text.FillAsync("repeat n\n  Q <- shl(Q, 1)\nend");
            await visit.Page.ReloadAsync();
            await Assertions.Expect(visit.Text).ToHaveValueAsync("repeat n\n  Q <- shl(Q, 1)\nend");
            Assert.All(visit.Requests, url => Assert.False(url.StartsWith("http", StringComparison.Ordinal), url));
            AssertQuiet(visit);
        }
        finally
        {
            File.Delete(file);
        }
    }
}
