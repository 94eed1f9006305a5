using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using Xunit;

namespace Reckoner.Page.Tests.Browser;

/// <summary>The screen on which a visitor works a walk out, in a browser.</summary>
public sealed class WorkTests(Browsers browsers)
{
    private const string Still = "machine=divide-still-divisor&width.n=4&operands=13,4";

    [Fact]
    public async Task A_cycle_is_worked_out_by_keys_and_by_touch()
    {
        await using var visit = await Visit.Anew(browsers, Still, set: o => o.HasTouch = true);
        await visit.Page.Locator("#work").TapAsync();
        await visit.Page.Locator(".strip").Nth(1).TapAsync();
        await Assertions.Expect(visit.Page.Locator(".said")).ToHaveTextAsync("Right.");
        await visit.Page.Locator(".bit-keys button").First.TapAsync();
        foreach (var key in "00110100001")
        {
            await visit.Page.Keyboard.PressAsync($"{key}");
        }
        await Assertions.Expect(visit.Page.Locator(".said")).ToContainTextAsync("wrong");
        Assert.Equal("Q, place 0: 1, wrong", await visit.Page.Locator(".cell.here").GetAttributeAsync("aria-label"));
        await Assertions.Expect(visit.Page.Locator(".cell.wrong").First).ToBeVisibleAsync();
        var found = await visit.Page.RunAxe();
        Assert.Equal("", string.Join('\n', found.Violations.Select(v => $"{v.Id}: {v.Help}: {v.Nodes[0].Html}")));
        Assert.Equal([], visit.Complaints);
        await visit.Page.Keyboard.PressAsync("Escape");
        await visit.Text.WaitForAsync();
    }
}
