using System.Diagnostics;
using System.Net;
using System.Text.RegularExpressions;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>Questions of lessons: asked everywhere, answered on the key alone.</summary>
public sealed class SheetTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-sheets-").FullName;

    public SheetTests() => WorkFolder.Enter();

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private string Name(string file) => Path.Combine(folder, file);

    private void Pack(string header, params IEnumerable<string> questions)
    {
        var made = Asked(header, questions);
        Assert.Equal((0, ""), (made.Status, made.Errors));
    }

    private Command Asked(string header, params IEnumerable<string> questions)
    {
        var asked = string.Concat(questions.Select(q => $"```question\n{q}\n```\n\n"));
        File.WriteAllText(
            Name("lesson.md"),
            $"---\nmachine: divide-still-divisor\nwidth: 5\noperands: 29 6\n{header}---\n\n# Asked\n\n{asked}"
        );
        return Command.Run("lesson", Name("lesson.md"), "-o", Name("pack"), "--overwrite");
    }

    /// <summary>The words of a paper as another program reads them, without blanks: digits in boxes stand apart.</summary>
    private string Pdf(string paper)
    {
        using var program = Process.Start(
            new ProcessStartInfo("pdftotext", ["-raw", Name($"pack/{paper}"), "-"]) { RedirectStandardOutput = true }
        )!;
        var text = program.StandardOutput.ReadToEnd();
        program.WaitForExit();
        return Regex.Replace(text, @"\s+", "");
    }

    private string Page() =>
        Regex.Replace(WebUtility.HtmlDecode(File.ReadAllText(Name("pack/index.html"))), @"\s+", "");

    private static string Plain(string text) => Regex.Replace(text, @"\s+", "");

    /// <summary>A row that one machine alone has leaves the other's cells without a line.</summary>
    [Fact]
    public void Machines_of_which_one_stops_earlier_are_compared() =>
        Pack("", "fill compare multiply-early-out multiply-carry-save 9 3");

    [Theory]
    [InlineData("say cycles walk\nfrom 99", "question-line")]
    [InlineData("fill states\ngiven columns D", "question-line")]
    [InlineData("fill paper\nno reasons", "question-line")]
    [InlineData("say R R walk", "question-say")]
    public void What_says_nothing_of_a_question_is_refused(string question, string id)
    {
        var made = Asked("", question);
        Assert.Equal((2, ""), (made.Status, made.Output));
        Assert.Contains(id, made.Errors, StringComparison.Ordinal);
    }

    /// <param name="question">Its lines.</param>
    /// <param name="asked">What everybody is told.</param>
    /// <param name="answer">What the key alone tells.</param>
    [Theory]
    [InlineData("fill walk", "Fill in what the registers hold", "4 00010 10000 00110 00001")]
    [InlineData(
        "fill walk\nmarks 6",
        "Question 1 (6 marks) Fill in what the registers hold after each cycle, why, and the results. Each row is worth 1 mark",
        "quotient = 4 remainder = 5"
    )]
    [InlineData("fill walk 0b11111 2\ngiven row 3", "3 00011 11000 00010 00001", "4 00011 10000 00010 00011")]
    [InlineData("fill walk\nfrom 4", "3 00111 01000 00110 00000", "it fits: 1 enters 4 00010 10000")]
    [InlineData(
        "fill walk\nno reasons",
        "after each cycle, and the results",
        "3 00111 01000 00110 00000 4 00010 10000"
    )]
    [InlineData("fill paper", "Do this sum by hand", "110 goes, 1")]
    [InlineData("fill compare divide-still-divisor divide-shared-register", "Fill in what is left open", "00010 10000")]
    [InlineData("fill states", "state moment when", "round 2 not last")]
    [InlineData("complete weave", "Complete the figure", "quotient = 4")]
    [InlineData("say cycles R@4 walk", "R after cycle 4 =", "number of cycles = 6 R after cycle 4 = 00010 10000")]
    [InlineData(
        "find 21 6 --slip guard-dropped-not-last",
        "Which row is the first that is wrong",
        "first wrong row = 6 should hold = R: 00011 00000"
    )]
    // The slip adds registers of its own, which the table does not show: they would name it.
    [InlineData(
        "find --slip carry-stale-borrow",
        "cycle R D Q load 00000 11101 00110 00000 1 10101",
        "first wrong row = 1 should hold = R: 00001 11010"
    )]
    [InlineData(
        "find 0 6 --slip loop-longer-repeat",
        "7 00000 00000 00110 00000",
        "first wrong row = 7 should hold = nothing: it has ended"
    )]
    [InlineData(
        "which --slip guard-dropped-not-last",
        "gave quotient = 4 = 00100, remainder = 10 = 01010. Which slip was it?",
        "letter = c"
    )]
    [InlineData(
        "choose --showing \"remainder = 4 and quotient = 3\"",
        "remainder = 4 and quotient = 3",
        "dividend = 19 divisor = 5"
    )]
    [InlineData(
        "mend --slip guard-dropped-not-last",
        "One line of this description is wrong",
        "line = 27 it should say = if not last"
    )]
    public void A_question_is_asked_everywhere_and_answered_on_the_key_alone(
        string question,
        string asked,
        string answer
    )
    {
        Pack("", question);
        Assert.All(
            ["handout.pdf", "handout-blank.pdf"],
            paper => Assert.Contains(Plain(asked), Pdf(paper), StringComparison.Ordinal)
        );
        Assert.Contains(Plain(answer), Pdf("key.pdf"), StringComparison.Ordinal);
        Assert.All(
            ["handout.pdf", "handout-blank.pdf"],
            paper => Assert.DoesNotContain(Plain(answer), Pdf(paper), StringComparison.Ordinal)
        );
        Assert.DoesNotContain(Plain(answer), Regex.Replace(Page(), "<[^>]*>", ""), StringComparison.Ordinal);
    }

    /// <summary>What would be handed out filled in, and what has no answer or several, is not asked.</summary>
    [Theory]
    [InlineData("complete blocks", "question-view")]
    [InlineData("complete comparison", "question-view")]
    [InlineData("find --slip results-early", "question-alike-rows")]
    [InlineData("mend --slip results-early", "question-lines")]
    public void What_cannot_be_asked_is_refused(string question, string id)
    {
        var made = Asked("", question);
        Assert.Equal((2, ""), (made.Status, made.Output));
        Assert.Contains($" {id}\n", made.Errors, StringComparison.Ordinal);
    }

    /// <summary>Empty places tell by their length neither what belongs there nor how long it is.</summary>
    [Fact]
    public void The_room_for_an_answer_is_the_same_whatever_it_is()
    {
        Assert.Equal(Sizes("fill walk 1 6"), Sizes("fill walk 17179869183 1"));
        Assert.Equal(Lines("mend --slip guard-dropped-not-last"), Lines("mend --slip loop-longer-repeat"));

        string Sizes(string question)
        {
            Pack("", $"{question} --width 34\nno reasons");
            return string.Join(' ', Regex.Matches(Page(), "size=\"[0-9]*\"").Select(m => m.Value)) + Longest();
        }

        string Lines(string question)
        {
            Pack("", question);
            return Longest();
        }

        string Longest() => Regex.Matches(Pdf("handout-blank.pdf"), "_{4,}").Select(m => m.Value).MaxBy(l => l.Length)!;
    }

    /// <summary>A table on the page has a place for each open cell, named so that what was written can be read back.</summary>
    [Fact]
    public void On_the_page_each_open_cell_is_a_place_with_a_name()
    {
        Pack("", "fill walk\ngiven columns D\ngiven rows 2 3\nno reasons");
        var names = Regex.Matches(Page(), "<inputname=\"([^\"]*)\"").Select(m => m.Groups[1].Value);
        Assert.Equal(
            [
                .. new[] { 1, 4, 5, 6 }.SelectMany(r => new[] { $"1.1.{r}.R", $"1.1.{r}.Q" }),
                "1.quotient",
                "1.remainder",
            ],
            names
        );
    }

    /// <summary>Reasons of any length have the same room, so the pages of two sheets look alike.</summary>
    [Fact]
    public void The_key_of_a_question_stands_on_the_pages_of_the_sheet()
    {
        Pack("paper: letter\n", "fill walk drawn --width 8\nroom 4 lines", "complete weave drawn", "say cycles walk");
        Assert.Equal(Pages("handout-blank.pdf"), Pages("key.pdf"));

        int Pages(string paper) => Regex.Count(File.ReadAllText(Name($"pack/{paper}")), @"/Type\s*/Page\b");
    }

    /// <summary>Words that lead to a question are not left alone at the end of a page.</summary>
    [Theory]
    [InlineData(8)]
    [InlineData(14)]
    [InlineData(20)]
    public void Words_before_a_question_stay_on_its_page(int lines)
    {
        File.WriteAllText(
            Name("led.md"),
            $"---\nmachine: divide-still-divisor\nwidth: 5\n---\n\n# Asked\n\n```reckoner\nroom {lines} lines\n```\n\n"
                + "A paragraph that leads to what is asked below it, and is more than a line long, so that it is no heading of a table.\n\n"
                + "```question\nfill walk 29 6\n```\n"
        );
        var made = Command.Run("lesson", Name("led.md"), "-o", Name("led"));
        Assert.Equal((0, ""), (made.Status, made.Errors));
        using var program = Process.Start(
            new ProcessStartInfo("pdftotext", [Name("led/handout-blank.pdf"), "-"]) { RedirectStandardOutput = true }
        )!;
        var pages = program.StandardOutput.ReadToEnd().Split('\f');
        program.WaitForExit();
        Assert.Contains(pages, p => p.Contains("leads to", StringComparison.Ordinal));
        Assert.All(
            pages.Where(p => p.Contains("leads to", StringComparison.Ordinal)),
            p => Assert.Contains("Question 1", p, StringComparison.Ordinal)
        );
    }

    [Fact]
    public void In_German_it_is_asked_in_German()
    {
        Pack("language: de\n", "fill walk\nmarks 1", "say cycles walk\nmarks 2.5");
        var key = Pdf("key.pdf");
        Assert.All(
            ["Aufgabe 1 (1 Punkt)", "Aufgabe 2 (2,5 Punkte)", "Eintragen, was die Register", "Zahl der Takte = 6"],
            said => Assert.Contains(Plain(said), key, StringComparison.Ordinal)
        );
    }
}
