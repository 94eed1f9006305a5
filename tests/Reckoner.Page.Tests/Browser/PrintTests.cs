using Microsoft.Playwright;
using Xunit;

namespace Reckoner.Page.Tests.Browser;

/// <summary>What is on the sheet when the page is printed.</summary>
public sealed class PrintTests(Browsers browsers)
{
    /// <summary>The fields and results that something else lies on.</summary>
    private const string Covered = """
        () => [...document.querySelectorAll(".standing p, .fields input, .results span")].filter((e) => {
            const box = e.getBoundingClientRect();
            return !e.contains(document.elementFromPoint(box.left + box.width / 2, box.top + box.height / 2));
        }).map((e) => e.id || e.textContent)
        """;

    [Fact]
    public async Task Operands_and_results_are_seen_on_paper_above_the_figure()
    {
        await using var visit = await Visit.To(browsers, "machine=divide-shared-register&width.n=8&at=3");
        await visit.Judged();
        await visit.Page.EmulateMediaAsync(new() { Media = Media.Print });
        await visit.Page.EvaluateAsync("() => dispatchEvent(new Event('beforeprint'))");
        Assert.Equal("239", await visit.Page.InputValueAsync("#operand-0"));
        Assert.Empty(await visit.Page.EvaluateAsync<string[]>(Covered));
    }
}
