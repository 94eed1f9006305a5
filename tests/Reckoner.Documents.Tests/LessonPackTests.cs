using System.Net;
using System.Numerics;
using System.Text;
using System.Text.RegularExpressions;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Documents.Lessons;
using Reckoner.Drawing;
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

    private static readonly AnsweredLesson Lesson = Answered("weave");

    private static AnsweredLesson Answered(string view)
    {
        var lesson = LessonReader.Read(new Source("lesson.md", Text)).Lesson!;
        var walk = Divided("divide-still-divisor");
        var document = WalkDocument.Of(walk, HouseStyle.None, Vocabulary.English, oneByOne: false).Document!;
        RequestAnswer[] answers =
        [
            new WalkAnswer(walk, document),
            new WalkFigure(View.All.First(v => v.Name == view), Figure.Of(walk, Vocabulary.English)),
        ];
        return new AnsweredLesson(
            lesson,
            Vocabulary.English,
            [new AnsweredBlock(lesson.Blocks[0], answers)],
            [],
            new Dictionary<string, byte[]>()
        );
    }

    private static Walk Divided(string machine) =>
        Walk.Of(
            Machine
                .Read(MachineCatalogue.Find(machine)!, MachineCatalogue.Find)
                .At(new Dictionary<string, BigInteger> { ["n"] = 5 })
                .Datapath!,
            [29, 6]
        );

    internal static byte[] File(string name) => File(Lesson, name);

    /// <summary>The same lesson with another figure beside its table.</summary>
    internal static byte[] PageWith(string view) => File(Answered(view), "index.html");

    private static byte[] File(AnsweredLesson lesson, string name) =>
        LessonPack.Files(lesson).Single(f => f.Path == name).Bytes;

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
    public async Task Axe_finds_nothing_in_the_page() => Assert.Equal("", await Axe.Found(Page));

    /// <summary>The check itself, on a page that is wrong on purpose.</summary>
    [Fact]
    public async Task A_player_without_names_on_its_buttons_is_found_wanting() =>
        Assert.Contains(
            "button-name",
            await Axe.Found(Page.Replace("textContent: say(key)", "textContent: \"\"", StringComparison.Ordinal)),
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
        // In a key each digit has a box of its own.
        var words = Regex.Replace(Read(name, "pdftotext", "-raw"), @"\s+", "");
        var values = Regex
            .Matches(Page, "<td data-register=\"[^\"]*\"><code>([^<]*)</code>")
            .Select(m => WebUtility.HtmlDecode(m.Groups[1].Value).Replace(" ", "", StringComparison.Ordinal))
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
        var words = Regex.Replace(Read("handout-blank.pdf", "pdftotext", "-raw"), @"\s+", " ");
        Assert.Contains("0 0 0 0 0 1 1 1 0 1", words, StringComparison.Ordinal);
        Assert.DoesNotContain("1 0 0 0 0 1 1 1 0 1 0", words, StringComparison.Ordinal);
        Assert.DoesNotContain("quotient = 4", words, StringComparison.Ordinal);
        Assert.Contains("quotient = ____", words, StringComparison.Ordinal);
    }

    /// <summary>
    /// The table of a comparison holds the registers of the walks that are to be filled in. 29 by 6: the quotient is 4, and after the
    /// first round R is 00001 11010.
    /// </summary>
    [Fact]
    public void A_blank_comparison_gives_nothing_away()
    {
        var reading = LessonReader.Read(
            new Source("lesson.md", "---\nmachine: any\n---\n\n# A\n\n```reckoner\ncompare\n```\n")
        );
        string[] machines = ["divide-still-divisor", "divide-shared-register"];
        var walks = machines.Select(Divided).ToList();
        var document = CompareDocument.Of(
            Measuring.Comparison.Of([.. walks.Select(w => w.Datapath)]),
            walks,
            HouseStyle.None,
            Vocabulary.English
        );
        var block = new AnsweredBlock(reading.Lesson!.Blocks[0], [new ReportAnswer([document]) { IsToFill = true }]);
        var images = new Dictionary<string, byte[]>();
        var files = LessonPack.Files(new AnsweredLesson(reading.Lesson!, Vocabulary.English, [block], [], images));
        var (blank, key) = (Words("handout-blank.pdf"), Words("key.pdf"));
        Assert.Contains("1 R 0 0 0 0 1 1 1 0 1 0", key, StringComparison.Ordinal);
        Assert.DoesNotContain("R 0 0 0 0 1 1 1 0 1 0", blank, StringComparison.Ordinal);
        Assert.Contains("0 0 0 0 0 1 1 1 0 1", blank, StringComparison.Ordinal);
        Assert.Contains("quotient 4 4 remainder", key, StringComparison.Ordinal);
        Assert.Contains("quotient remainder", blank, StringComparison.Ordinal);

        string Words(string name)
        {
            using var folder = new Folder();
            var file = folder.Write("it.pdf", files.Single(f => f.Path == name).Bytes);
            return Regex.Replace(Program.Run(folder.Path, "pdftotext", "-layout", file, "-"), @"\s+", " ");
        }
    }

    /// <summary>Lists keep their numbers, and what stands in an item besides paragraphs stands on paper too.</summary>
    [Fact]
    public void Nothing_that_stands_in_a_list_is_lost_on_paper()
    {
        const string text = """
            ---
            machine: any
            ---

            # A

            3. first
               - inner
            4. second

               ```
               code
               ```

               > quoted
            5. third

               | h |
               |---|
               | cell |
            """;
        var reading = LessonReader.Read(new Source("lesson.md", text));
        var images = new Dictionary<string, byte[]>();
        var files = LessonPack.Files(new AnsweredLesson(reading.Lesson!, Vocabulary.English, [], [], images));
        using var folder = new Folder();
        var file = folder.Write("it.pdf", files.Single(f => f.Path == "handout.pdf").Bytes);
        var words = Regex.Replace(Program.Run(folder.Path, "pdftotext", "-layout", file, "-"), @"\s+", " ");
        Assert.StartsWith(
            "A 3. first – inner 4. second quoted code 5. third h cell",
            words.Trim(),
            StringComparison.Ordinal
        );
    }

    /// <summary>A picture of one pixel for each kind that papers hold; poppler's pdfimages counts them.</summary>
    [Fact]
    public void Images_of_the_text_stand_in_the_papers_with_their_descriptions()
    {
        var png = Convert.FromBase64String(
            "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNkYPhfDwAChwGA60e6kgAAAABJRU5ErkJggg=="
        );
        var reading = LessonReader.Read(
            new Source(
                "lesson.md",
                "---\nmachine: any\n---\n\n# A\n\nHere ![a dot](dot.png) and ![a drawing](a.svg).\n"
            )
        );
        var images = new Dictionary<string, byte[]> { ["dot.png"] = png, ["a.svg"] = "<svg/>"u8.ToArray() };
        var lesson = new AnsweredLesson(reading.Lesson!, Vocabulary.English, [], [], images);
        var paper = LessonPack.Files(lesson).Single(f => f.Path == "handout.pdf").Bytes;
        using var folder = new Folder();
        var file = folder.Write("it.pdf", paper);
        var listed = Program.Run(folder.Path, "pdfimages", "-list", file).Trim().Split('\n');
        Assert.Single(listed.Skip(2), line => !line.Contains("smask", StringComparison.Ordinal));
        Assert.Contains("a drawing", Program.Run(folder.Path, "pdftotext", file, "-"), StringComparison.Ordinal);
    }

    [Fact]
    public void Reasons_stand_in_the_row_of_their_cycle()
    {
        var words = Regex.Replace(Read("handout.pdf", "pdftotext"), @"\s+", " ");
        var first = words.IndexOf("00001 11010", StringComparison.Ordinal);
        var reason = words.IndexOf("too small: 0 enters", StringComparison.Ordinal);
        Assert.InRange(reason, first, words.IndexOf("00011 10100", first, StringComparison.Ordinal));
    }
}
