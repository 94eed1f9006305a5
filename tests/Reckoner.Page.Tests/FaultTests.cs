using System.Diagnostics;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Rendering;
using Reckoner.Catalogue;
using Reckoner.Page.Parts;
using Reckoner.Page.State;
using Xunit;

namespace Reckoner.Page.Tests;

/// <summary>What breaks says so in its place and takes nothing with it; and nothing that is typed breaks anything.</summary>
public sealed partial class FaultTests
{
    /// <summary>A part that breaks at some texts.</summary>
    private sealed class Breaking : PagePart
    {
        protected override void BuildRenderTree(RenderTreeBuilder builder)
        {
            if (Model.Desk.Sheet.Text.Contains("breaks", StringComparison.Ordinal))
            {
                throw new InvalidOperationException("planted");
            }
            builder.AddContent(0, "the part itself");
        }
    }

    private static RenderFragment Guarding<T>(string instead)
        where T : IComponent =>
        builder =>
        {
            builder.OpenComponent<Guarded>(0);
            builder.AddComponentParameter(
                1,
                nameof(Guarded.ChildContent),
                (RenderFragment)(
                    b =>
                    {
                        b.OpenComponent<T>(0);
                        b.CloseComponent();
                    }
                )
            );
            builder.AddComponentParameter(2, nameof(Guarded.Instead), (RenderFragment)(b => b.AddContent(0, instead)));
            builder.CloseComponent();
        };

    private static Sheet Text(string text) => Sheet.Empty with { Text = text };

    [Fact]
    public async Task A_part_that_breaks_says_so_and_the_next_change_tries_it_again()
    {
        await using var drawn = await Drawn.Of(Text("machine a"), Guarding<Breaking>("what is kept"));
        Assert.Equal("the part itself", await drawn.After(_ => { }));
        foreach (var turn in new[] { "once", "and again" })
        {
            var broken = await drawn.After(m => m.Begin(Text($"machine breaks {turn}")));
            Assert.Contains("role=\"alert\"", broken, StringComparison.Ordinal);
            Assert.Contains("(planted)", broken, StringComparison.Ordinal);
            Assert.Contains("what is kept", broken, StringComparison.Ordinal);
            Assert.DoesNotContain("the part itself", broken, StringComparison.Ordinal);
            Assert.Equal($"machine breaks {turn}", drawn.Model.Desk.Sheet.Text);
            Assert.Equal("the part itself", await drawn.After(m => m.Begin(Text("machine a"))));
        }
    }

    /// <summary>Every part of the screen stands behind a boundary of its own; the head has nothing but words and keys.</summary>
    [Fact]
    public async Task Each_part_of_the_screen_is_guarded()
    {
        var screen = await File.ReadAllTextAsync(
            Path.Combine(Sources(), "src/Reckoner.Page/Parts/Screen.razor"),
            TestContext.Current.CancellationToken
        );
        var bare = Boundary().Replace(screen, "");
        Assert.Equal(["DrawerKeys"], Part().Matches(bare).Select(m => m.Groups[1].Value));
        Assert.True(Boundary().Count(screen) >= 6);
    }

    private static string Sources([System.Runtime.CompilerServices.CallerFilePath] string here = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", ".."));

    [GeneratedRegex("<Guarded>.*?</Guarded>", RegexOptions.Singleline)]
    private static partial Regex Boundary();

    [GeneratedRegex("<([A-Z][A-Za-z]+) ?/>")]
    private static partial Regex Part();

    [Fact]
    public Task Nothing_that_is_typed_breaks_a_part() => Typing(TimeSpan.FromSeconds(4), seed: 1);

    [Fact]
    [Trait("Length", "long")]
    public Task Nothing_that_is_typed_for_ten_minutes_breaks_a_part() =>
        Typing(TimeSpan.FromMinutes(10), seed: Environment.TickCount);

    /// <summary>Types into the machines of the catalogue, a slip after the other, and looks at what every part then shows.</summary>
    private static async Task Typing(TimeSpan time, int seed)
    {
        var random = new Random(seed);
        var names = MachineCatalogue.Names.ToList();
        var clock = Stopwatch.StartNew();
        var typed = 0;
        RenderFragment screen = builder =>
        {
            builder.OpenComponent<Screen>(0);
            builder.CloseComponent();
        };
        while (clock.Elapsed < time)
        {
            var name = names[random.Next(names.Count)];
            await using var drawn = await Drawn.Of(Text(MachineCatalogue.Find(name)!.Text), screen);
            for (var i = 0; i < 25 && clock.Elapsed < time; i++)
            {
                var (text, expected) = ("", "");
                var shown = await drawn.After(model =>
                {
                    if (random.Next(3) == 0)
                    {
                        model.LookAt(random.Next(model.Desk.LastMoment + 1));
                    }
                    var whole = model.Desk.Reading.Machine.Description.Source.Text;
                    var open = model.Desk.Open;
                    text = Slipped(whole[open.Start..open.End], random);
                    expected = whole[..open.Start] + text + whole[open.End..];
                    model.Type(text);
                });
                var where = $"{name}, seed {seed}, keystroke {i}:\n{expected}";
                Assert.False(shown.Contains("class=\"fault\"", StringComparison.Ordinal), where);
                Assert.Contains("id=\"text\"", shown, StringComparison.Ordinal);
                var now = drawn.Model.Desk.Reading.Machine.Description.Source.Text;
                Assert.True(now == expected || drawn.Model.Desk.Refused is not null, where);
                typed++;
            }
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{typed} texts typed, seed {seed}");
        Assert.InRange(typed, 5, int.MaxValue);
    }

    /// <summary>A character or word left out, doubled, exchanged or put in.</summary>
    private static string Slipped(string text, Random random)
    {
        string[] odd =
        [
            "",
            " ",
            "\n",
            "then\n",
            "end\n",
            "step x\n",
            "repeat 3\n",
            "if ",
            "<- ",
            "(",
            ")",
            "0",
            "999999",
            "\"",
            "n",
            "ä",
            "--",
        ];
        var at = random.Next(text.Length + 1);
        var length = Math.Min(random.Next(12), text.Length - at);
        return random.Next(3) switch
        {
            0 => text[..at] + text[(at + length)..],
            1 => string.Concat(text.AsSpan(0, at + length), text.AsSpan(at)),
            _ => text[..at] + odd[random.Next(odd.Length)] + text[(at + length)..],
        };
    }
}
