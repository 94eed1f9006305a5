using System.Net;
using System.Numerics;
using System.Text;
using System.Text.RegularExpressions;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Documents.Lessons;
using Reckoner.Drawing;
using Reckoner.Notation;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Documents.Tests;

/// <summary>The files of a lesson pack, read by programs from outside.</summary>
public class LessonPackTests
{
    private const string Text = """
        ---
        machine: divide-still-divisor
        width: 5
        operands: 29 6
        licence: CC BY 4.0
        ---

        # A lesson

        Some *words*, a [page](https://example.org/) and a table:

        | case | what |
        |---|---|
        | a | b |

        ```reckoner
        walk
        draw weave
        ```
        """;

    private static readonly AnsweredLesson Lesson = Answered();

    private static AnsweredLesson Answered()
    {
        var lesson = LessonReader.Read(new Source("lesson.md", Text)).Lesson!;
        var datapath = Machine
            .Read(MachineCatalogue.Find("divide-still-divisor")!, MachineCatalogue.Find)
            .At(new Dictionary<string, BigInteger> { ["n"] = 5 })
            .Datapath!;
        var walk = Walk.Of(datapath, [29, 6]);
        var document = WalkDocument.Of(walk, HouseStyle.None, Vocabulary.English, oneByOne: false).Document!;
        Answer[] answers =
        [
            new WalkAnswer(walk, document),
            new WalkFigure(View.All[0], Figure.Of(walk, Vocabulary.English)),
        ];
        return new AnsweredLesson(
            lesson,
            Vocabulary.English,
            [new AnsweredBlock(lesson.Blocks[0], answers)],
            [],
            new Dictionary<string, byte[]>()
        );
    }

    private static byte[] File(string name) => LessonPack.Files(Lesson).Single(f => f.Path == name).Bytes;

    private static string Page => Encoding.UTF8.GetString(File("index.html"));

    private static string Read(string name, string program, params string[] arguments)
    {
        using var folder = new Folder();
        var file = folder.Write("it.pdf", File(name));
        return Program.Run(
            folder.Path,
            program,
            [.. arguments, file, .. program == "pdftotext" ? ["-"] : (string[])[]]
        );
    }

    [Fact]
    public void Axe_finds_nothing_in_the_page() => Assert.Equal("", Axe.Found(Page));

    /// <summary>The check itself, on a page that is wrong on purpose.</summary>
    [Fact]
    public void A_player_without_names_on_its_buttons_is_found_wanting() =>
        Assert.Contains(
            "button-name",
            Axe.Found(Page.Replace("textContent: say(key)", "textContent: \"\"", StringComparison.Ordinal)),
            StringComparison.Ordinal
        );

    [Theory]
    [InlineData("handout.pdf")]
    [InlineData("handout-blank.pdf")]
    [InlineData("key.pdf")]
    public void Papers_are_tagged(string name) => Assert.Matches("Tagged: +yes", Read(name, "pdfinfo"));

    /// <summary>Poppler's pdftotext finds the registers of every cycle in the order in which the page lists them.</summary>
    [Theory]
    [InlineData("handout.pdf")]
    [InlineData("key.pdf")]
    public void Every_register_stands_in_the_papers_in_reading_order(string name)
    {
        var words = Regex.Replace(Read(name, "pdftotext"), @"\s+", " ");
        var values = Regex
            .Matches(Page, "<td data-register=\"[^\"]*\"><code>([^<]*)</code>")
            .Select(m => WebUtility.HtmlDecode(m.Groups[1].Value))
            .ToList();
        Assert.Equal(21, values.Count);
        var at = 0;
        foreach (var value in values)
        {
            var found = words.IndexOf(value, at, StringComparison.Ordinal);
            Assert.True(found >= 0, $"{value} is not behind {words[..at]}");
            at = found + value.Length;
        }
    }

    [Fact]
    public void The_blank_paper_gives_nothing_away()
    {
        var words = Regex.Replace(Read("handout-blank.pdf", "pdftotext"), @"\s+", " ");
        Assert.Contains("00000 11101", words, StringComparison.Ordinal);
        Assert.DoesNotContain("00001 11010", words, StringComparison.Ordinal);
        Assert.DoesNotContain("quotient = 4", words, StringComparison.Ordinal);
        Assert.Contains("quotient = ____", words, StringComparison.Ordinal);
    }
}
