using System.Collections.Concurrent;
using System.Text;
using Deque.AxeCore.Commons;
using Microsoft.Playwright;
using Xunit;

namespace Reckoner.Documents.Tests;

/// <summary>A page in a browser, judged by axe: WCAG 2, levels A and AA, and the common practice that it knows.</summary>
internal static class Axe
{
    private static readonly ConcurrentBag<IPage> Resting = [];

    /// <summary>What axe finds, a line each; the empty text for nothing.</summary>
    public static async Task<string> Found(string page)
    {
        const string Told = """
            axe.run().then((r) => {
              const told = document.createElement("pre");
              told.textContent = `rules passed: ${r.passes.length}\n` + r.violations.map((v) => `${v.id}: ${v.nodes[0].html}\n`).join("");
              told.id = "told";
              document.body.append(told);
            })
            """;
        var axe = new BundledAxeScriptProvider()
            .GetScript()
            .Replace("</script>", "<\\/script>", StringComparison.Ordinal);
        var judged = page.Replace(
            "</body>",
            $"<script>{axe}</script><script>{Told}</script></body>",
            StringComparison.Ordinal
        );
        using var folder = new Folder();
        folder.Write("page.html", Encoding.UTF8.GetBytes(judged));
        // One page after the other in the same profile: they keep nothing there, and to make a profile is most of the work.
        var shown = Resting.TryTake(out var resting) ? resting : await (await OneBrowser.Profile()).NewPageAsync();
        await shown.GotoAsync(new Uri(Path.Combine(folder.Path, "page.html")).ToString());
        var answer = shown.Locator("#told");
        await answer.WaitForAsync(new() { State = WaitForSelectorState.Attached, Timeout = 120_000 });
        var told = (await answer.TextContentAsync() ?? "").Split('\n', 2);
        Resting.Add(shown);
        Assert.True(told.Length == 2, "axe did not answer");
        Assert.NotEqual("rules passed: 0", told[0]);
        return told[1];
    }
}
