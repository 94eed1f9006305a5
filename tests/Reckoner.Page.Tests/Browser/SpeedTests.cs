using System.Diagnostics;
using System.Globalization;
using System.IO.Compression;
using System.Text;
using Microsoft.Playwright;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Xunit;

namespace Reckoner.Page.Tests.Browser;

/// <summary>
/// How long the page takes for what people wait for, written to artifacts/bench/page.md. Nothing is asserted about times: they
/// are the machine's as much as ours.
/// </summary>
[Trait("Length", "long")]
public sealed class SpeedTests(Browsers browsers)
{
    private readonly StringBuilder table = new("| what | took |\n|---|---|\n");

    private void Row(string what, double milliseconds) =>
        table.Append(CultureInfo.InvariantCulture, $"| {what} | {milliseconds:0} ms |\n");

    /// <summary>From an event to the frame that shows what it did.</summary>
    private const string ToNextFrame = """
        async (act) => {
            const began = performance.now();
            eval(act);
            await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
            return performance.now() - began;
        }
        """;

    private const string Step =
        "document.body.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowDown', bubbles: true }))";

    private const string Key = """
        const text = document.getElementById("text");
        text.value = text.value.endsWith(" ") ? text.value.trimEnd() : text.value + " ";
        text.dispatchEvent(new Event("input", { bubbles: true }));
        """;

    [Fact]
    public async Task What_people_wait_for_is_measured()
    {
        // Written after each, so that a run that is stopped leaves what it had.
        foreach (var measure in new[] { Size, Load, Steps, AllOperands, Keystrokes })
        {
            await measure();
            Save();
        }
        Assert.Equal(8, table.ToString().Split('\n').Length - 3);
    }

    private void Save()
    {
        var folder = Directory.CreateDirectory(Path.Combine(PageFolder.Repository, "artifacts/bench"));
        File.WriteAllText(Path.Combine(folder.FullName, "page.md"), table.ToString());
    }

    private async Task Load()
    {
        await using (await Visit.Anew(browsers)) { }
        // To make a profile is not the page's work.
        await using var profile = await browsers.Profile();
        await (await profile.NewPageAsync()).CloseAsync();
        var clock = Stopwatch.StartNew();
        await using var visit = await Visit.Anew(browsers, profile: profile);
        await visit.Page.Keyboard.PressAsync("ArrowDown");
        await visit.Page.Locator(".moment span", new() { HasText = "cycle 2 of 6" }).WaitForAsync();
        Row("first load in an empty profile, to the first step", clock.Elapsed.TotalMilliseconds);
    }

    private static async Task<double> Median(Visit visit, string act, int times)
    {
        var took = new List<double>();
        for (var i = 0; i < times; i++)
        {
            took.Add(await visit.Page.EvaluateAsync<double>(ToNextFrame, act));
        }
        took.Sort();
        return took[took.Count / 2];
    }

    private async Task Steps()
    {
        await using var visit = await Visit.Anew(browsers, "machine=divide-still-divisor&width.n=32");
        await visit.Judged();
        Row("a step at n = 32", await Median(visit, Step, 15));
    }

    private async Task Keystrokes()
    {
        var took = new List<(double Time, string Machine)>();
        await using var visit = await Visit.Anew(browsers);
        foreach (var entry in MachineCatalogue.Entries)
        {
            var machine = Machine.Read(entry.Source, MachineCatalogue.Find);
            var width = machine.At(16).Datapath is null ? "" : $"&width.{machine.Widths.First().Name}=16";
            await visit.Page.EvaluateAsync("(hash) => { location.hash = hash; }", $"machine={entry.Name}{width}&at=1");
            await Assertions.Expect(visit.Page.Locator("h1")).ToHaveTextAsync(machine.Title!.In("en"));
            took.Add((await Median(visit, Key, 5), entry.Name));
        }
        took.Sort();
        Row("a keystroke to the new walk and figure at n = 16, median over the catalogue", took[took.Count / 2].Time);
        Row($"the same, slowest machine ({took[^1].Machine})", took[^1].Time);
    }

    private async Task AllOperands()
    {
        foreach (var width in new[] { 8, 12, 16 })
        {
            await using var visit = await Visit.Anew(browsers, $"machine=divide-still-divisor&width.n={width}");
            var took = visit.Page.Locator($".verdict[data-took*='n = {width}:']");
            if (width > 12)
            {
                await visit.Judged();
                await visit.Page.GetByText($"Try every operand at n = {width}").ClickAsync();
            }
            await took.WaitForAsync(new() { Timeout = 120_000 });
            var times = (await took.GetAttributeAsync("data-took"))!.Split(';');
            var time = times.Single(t => t.StartsWith($"n = {width}:", StringComparison.Ordinal)).Split(':')[1];
            Row(
                $"every operand at n = {width}, gates and worker included",
                double.Parse(time, CultureInfo.InvariantCulture)
            );
        }
    }

    private Task Size()
    {
        var bytes = Directory
            .EnumerateFiles(PageFolder.Place, "*", SearchOption.AllDirectories)
            .Sum(f =>
            {
                using var packed = new MemoryStream();
                using (var brotli = new BrotliStream(packed, CompressionLevel.SmallestSize, leaveOpen: true))
                {
                    brotli.Write(File.ReadAllBytes(f));
                }
                return packed.Length;
            });
        table.Append(CultureInfo.InvariantCulture, $"| all files, packed with Brotli | {bytes / 1e6:0.00} MB |\n");
        return Task.CompletedTask;
    }
}
