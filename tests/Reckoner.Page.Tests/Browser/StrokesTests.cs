using System.Text.Json;
using Microsoft.Playwright;
using Xunit;

namespace Reckoner.Page.Tests.Browser;

/// <summary>What joins a statement to bits lies over exactly the bits that it wrote, at every size.</summary>
public sealed class StrokesTests(Browsers browsers)
{
    private static readonly (int Width, int Height)[] Windows =
    [
        (1920, 1080),
        (1280, 800),
        (1024, 768),
        (768, 1024),
        (390, 844),
    ];

    /// <summary>Each stroke's spans against the cells of the row that is looked at, as they are on the screen; what is off by a pixel.</summary>
    private const string Off = """
        () => {
            const row = document.querySelector(".parted .figure .here");
            const off = [];
            let spans = 0;
            for (const path of document.querySelectorAll(".strokes path")) {
                const matrix = path.getScreenCTM();
                const drawn = [...path.getAttribute("d").matchAll(/M([\d.-]+) ([\d.-]+)H([\d.-]+)/g)];
                const bits = path.dataset.bits.split(" ").map((b) => b.split(":"));
                if (drawn.length !== bits.length) off.push(`${path.dataset.bits}: ${drawn.length} spans`);
                drawn.forEach(([, from, y, to], i) => {
                    const [register, high, low] = bits[i];
                    const own = [...row.querySelectorAll(`[data-register="${register}"][data-bit]`)]
                        .filter((c) => Number(c.dataset.bit) <= Number(high) && Number(c.dataset.bit) >= Number(low))
                        .map((c) => c.getBoundingClientRect());
                    const at = (x) => new DOMPoint(Number(x), Number(y)).matrixTransform(matrix);
                    const left = Math.min(...own.map((c) => c.left));
                    const right = Math.max(...own.map((c) => c.right));
                    spans++;
                    const isOver = Math.abs(at(from).x - left) <= 1.5 && Math.abs(at(to).x - right) <= 1.5;
                    if (own.length !== high - low + 1 || !isOver || at(from).y > own[0].top + 1)
                        off.push(`${register}:${high}:${low} from ${at(from).x} to ${at(to).x}, cells ${left} to ${right}`);
                });
            }
            return JSON.stringify({ off, spans });
        }
        """;

    private sealed record Found(string[] Off, int Spans);

    private static async Task<Found> Look(IPage page) =>
        JsonSerializer.Deserialize<Found>(await page.EvaluateAsync<string>(Off), JsonSerializerOptions.Web)!;

    [Theory]
    [Trait("Length", "long")]
    [InlineData("machine=divide-still-divisor&width.n=5&operands=29,6", 4)]
    [InlineData("machine=divide-non-restoring&width.n=8&operands=201,12", 3)]
    [InlineData("machine=multiply-in-steps&width.n=4&operands=11,13", 1)]
    public Task So_it_does_in_more_machines(string fragment, int cycle) =>
        A_stroke_lies_over_exactly_the_bits_that_its_statement_wrote(fragment, cycle);

    [Theory]
    [InlineData("machine=multiply-booth&width.n=8&operands=119,24", 4)]
    [InlineData("machine=divide-shared-register&width.n=16&operands=50001,123", 9)]
    public async Task A_stroke_lies_over_exactly_the_bits_that_its_statement_wrote(string fragment, int cycle)
    {
        await using var visit = await Visit.To(browsers, $"{fragment}&at={cycle}");
        foreach (var (width, height) in Windows)
        {
            await visit.Page.SetViewportSizeAsync(width, height);
            await visit
                .Page.Locator(".strokes path")
                .First.WaitForAsync(new() { State = WaitForSelectorState.Attached });
            foreach (var isLarge in new[] { false, true })
            {
                await visit.Page.EvaluateAsync(
                    "(size) => { document.documentElement.dataset.size = size; }",
                    isLarge ? "large" : "usual"
                );
                foreach (var scrolled in new[] { 0, 240 })
                {
                    var found = await Scrolled(visit.Page, scrolled);
                    Assert.True(found.Spans > 0, $"{fragment} at {width}: no strokes");
                    Assert.Empty(found.Off);
                }
            }
        }
    }

    /// <summary>What is drawn once the page has come to rest: a window that changes is laid out again some frames later.</summary>
    private static async Task<Found> Scrolled(IPage page, int left)
    {
        for (var tries = 0; ; tries++)
        {
            await page.EvaluateAsync(
                "async (x) => { document.querySelector('.scroll').scrollLeft = x; for (let i = 0; i < 4; i++) await new Promise(requestAnimationFrame); }",
                left
            );
            var found = await Look(page);
            if (tries == 20 || (found.Spans > 0 && found.Off.Length == 0))
            {
                return found;
            }
        }
    }

    /// <summary>Nothing of the figure is drawn through the statements or their notes: what lies behind them is covered.</summary>
    [Fact]
    public async Task No_thread_runs_through_the_text()
    {
        await using var visit = await Visit.To(browsers, "machine=divide-still-divisor&width.n=5&operands=29,6&at=4");
        var covered = await visit.Page.EvaluateAsync<bool>(
            """
            () => {
                const opening = document.querySelector(".parted .opening");
                const box = opening.getBoundingClientRect();
                const seen = getComputedStyle(opening).backgroundColor;
                const points = [0.05, 0.3, 0.6, 0.95].map((x) => document.elementFromPoint(box.left + box.width * x, box.top + box.height / 2));
                return !/, 0\)$|transparent/.test(seen) && points.every((p) => opening.contains(p));
            }
            """
        );
        Assert.True(covered);
    }
}
