using System.Diagnostics;
using System.Net;
using System.Runtime.Versioning;
using System.Text;
using System.Text.RegularExpressions;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Documents.Lessons;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Tests;
using Xunit;

namespace Reckoner.Cli.Tests;

public sealed class LessonTests : IDisposable
{
    private static readonly string[] Files =
    [
        "figures/01-weave.png",
        "figures/01-weave.svg",
        "figures/02-weave.png",
        "figures/02-weave.svg",
        "handout-blank.pdf",
        "handout.pdf",
        "index.html",
        "key.pdf",
        "notes.md",
        "walk.tex",
    ];

    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-lesson-").FullName;

    public LessonTests() => WorkFolder.Enter();

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private string Name(string file) => Path.Combine(folder, file);

    private List<string> Written(string pack) =>
        [
            .. Directory
                .EnumerateFiles(Name(pack), "*", SearchOption.AllDirectories)
                .Select(f => Path.GetRelativePath(Name(pack), f).Replace('\\', '/'))
                .Order(StringComparer.Ordinal),
        ];

    private string Lesson(string name, string text)
    {
        File.WriteAllText(Name(name), text);
        return Name(name);
    }

    private static string Text(string body) =>
        $"---\nmachine: divide-still-divisor\nwidth: 5\noperands: 29 6\n---\n\n{body}\n";

    /// <summary>A finished pack says where it is and what each of its files is for, and nothing is wrong with it.</summary>
    private void Made(Command made)
    {
        Assert.Equal((0, ""), (made.Status, made.Errors));
        Assert.StartsWith(
            $"""
            {Name("pack")} holds the lesson:
              index.html         for the projector and the screen
              handout.pdf        to read on paper
              handout-blank.pdf  to fill in
              key.pdf            what is to be filled in
              notes.md           what to say
              walk.tex           the tables for LaTeX

            """,
            made.Output,
            StringComparison.Ordinal
        );
    }

    /// <summary>Saved with another number, the lesson is built again, and whoever shows it is told by the page's tag;
    /// also where the pack's name begins the lesson's.</summary>
    [Fact]
    public async Task A_lesson_that_is_watched_is_built_again_on_saving()
    {
        const string Body = "# {0}\n\n```reckoner\nwalk\n```";
        var lesson = Lesson("watched.md", Text(Body.Replace("{0}", "First", StringComparison.Ordinal)));
        string[] words = ["lesson", lesson, "-o", Name("watched"), "--watch", "--no-browser"];
        using var watching = Child.Start(new ProcessStartInfo("dotnet", [typeof(Verb).Assembly.Location, .. words]));
        var said = "";
        while (!said.Contains("http://", StringComparison.Ordinal))
        {
            said = watching.Line()!;
        }
        var address = new Uri(said.Split(' ').Single(w => w.StartsWith("http://", StringComparison.Ordinal)));
        using var client = new HttpClient();
        Assert.Contains("<h1>First</h1>", await client.GetStringAsync(address, Stop), StringComparison.Ordinal);
        Assert.Contains("location.reload()", await client.GetStringAsync(address, Stop), StringComparison.Ordinal);
        Assert.DoesNotContain(
            "location.reload()",
            File.ReadAllText(Name("watched/index.html")),
            StringComparison.Ordinal
        );
        // What lies in the folder besides the pack is nobody's to read.
        File.WriteAllText(Name("watched/mine.txt"), "mine");
        using var mine = await client.GetAsync(new Uri(address, "mine.txt"), Stop);
        using var ours = await client.GetAsync(new Uri(address, "handout.pdf"), Stop);
        Assert.Equal((HttpStatusCode.NotFound, HttpStatusCode.OK), (mine.StatusCode, ours.StatusCode));
        var before = await Tag();
        Lesson("watched.md", Text(Body.Replace("{0}", "Second", StringComparison.Ordinal)));
        while (await Tag() == before)
        {
            await Task.Delay(100, Stop);
        }
        Assert.Contains("<h1>Second</h1>", await client.GetStringAsync(address, Stop), StringComparison.Ordinal);

        async Task<string> Tag()
        {
            using var head = new HttpRequestMessage(HttpMethod.Head, address);
            using var answer = await client.SendAsync(head, Stop);
            return $"{answer.Headers.ETag}";
        }
    }

    [Theory]
    [InlineData("")]
    [InlineData("below")]
    public void A_pack_around_the_lesson_is_not_watched(string inner)
    {
        Directory.CreateDirectory(Name(inner));
        var lesson = Lesson(Path.Combine(inner, "l.md"), Text("# A"));
        var refused = Command.Run("lesson", lesson, "-o", folder, "--overwrite", "--watch", "--no-browser");
        Assert.Equal(2, refused.Status);
        Assert.Contains("pack-around-lesson", refused.Errors, StringComparison.Ordinal);
    }

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    /// <summary>Title from the first heading, machine and operands from each request.</summary>
    [Fact]
    public void A_lesson_needs_no_header()
    {
        const string Body = "# A first division\n\n```reckoner\nwalk divide-still-divisor 29 6 --width 5\n```\n";
        var made = Command.Run("lesson", Lesson("bare.md", Body), "-o", Name("pack"));
        Made(made);
        var page = File.ReadAllText(Name("pack/index.html"));
        Assert.Contains("<title>A first division</title>", page, StringComparison.Ordinal);
        Assert.Contains("dividend = quotient * divisor + remainder", page, StringComparison.Ordinal);
    }

    private string Page(string body)
    {
        var made = Command.Run("lesson", Lesson("lesson.md", Text(body)), "-o", Name("pack"));
        Made(made);
        return File.ReadAllText(Name("pack/index.html"));
    }

    private static Walk Divided(string machine = "divide-still-divisor")
    {
        var datapath = Machine
            .Read(MachineCatalogue.Find(machine)!, MachineCatalogue.Find)
            .At(new Dictionary<string, System.Numerics.BigInteger> { ["n"] = 5 })
            .Datapath!;
        return Walk.Of(datapath, [29, 6]);
    }

    [Fact]
    public void A_pack_has_all_its_files_and_the_same_lesson_gives_the_same_bytes()
    {
        Made(Command.Run("lesson", "lessons/mixed.md", "-o", Name("pack")));
        Assert.Equal(Files, Written("pack"));
        Assert.Equal(0, Command.Run("lesson", "lessons/mixed.md", "-o", Name("again/below")).Status);
        Assert.All(
            Files,
            f => Assert.Equal(File.ReadAllBytes(Name($"pack/{f}")), File.ReadAllBytes(Name($"again/below/{f}")))
        );
    }

    [Fact]
    public void Every_lesson_of_the_cases_that_is_wrong_writes_nothing()
    {
        var wrong = Directory
            .EnumerateFiles("lessons", "*.md")
            .Where(f =>
                Path.GetFileName(f) is not ("good.md" or "mixed.md" or "letters.md" or "sheet.md" or "quiz-nothing.md")
            )
            .ToList();
        Assert.True(wrong.Count > 25);
        foreach (var file in wrong)
        {
            var made = Command.Run("lesson", file, "-o", Name("pack"));
            Assert.Equal((2, ""), (made.Status, made.Output));
            Assert.False(Directory.Exists(Name("pack")), file);
        }
    }

    [Fact]
    public void Without_the_script_every_cycle_is_listed_with_its_registers_and_reasons()
    {
        var page = Page("```reckoner\nwalk\n```");
        var walk = Divided();
        foreach (var row in walk.Rows)
        {
            var shown = Regex.Match(page, $"<tr data-cycle=\"{row.Cycle}\">.*?</tr>", RegexOptions.Singleline).Value;
            foreach (var register in walk.Datapath.Registers)
            {
                Assert.Contains(
                    $"<td data-register=\"{register.Name}\"><code>{Columns.Text(register, row.Registers[register.Index])}</code></td>",
                    shown,
                    StringComparison.Ordinal
                );
            }
        }
        Assert.Contains("it fits: 1 enters", page, StringComparison.Ordinal);
        Assert.Contains("quotient = 4 = 00100, remainder = 5 = 00101", page, StringComparison.Ordinal);
        Assert.Equal(7, Regex.Count(page, "<th scope=\"row\">"));
        Assert.DoesNotContain("<th>", page, StringComparison.Ordinal);
    }

    [Fact]
    public void The_page_asks_nothing_of_the_network()
    {
        var page = Page("A [page](https://example.org/).\n\n```reckoner\nwalk\ndraw weave\n```");
        var asked = Regex
            .Matches(page, "(?:src|href|url)\\s*[=(]\\s*\"?([^\")\\s]{1,30})")
            .Select(m => m.Groups[1].Value);
        Assert.All(asked, a => Assert.Matches("^(data:|https://example.org/$)", a));
        Assert.DoesNotContain("@import", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Raw_html_is_shown_as_it_was_written_and_no_link_runs_anything()
    {
        Assert.Equal(0, Command.Run("lesson", "lessons/mixed.md", "-o", Name("pack")).Status);
        var page = File.ReadAllText(Name("pack/index.html"));
        Assert.Contains("&lt;script&gt;alert(1)&lt;/script&gt; &amp; more", page, StringComparison.Ordinal);
        Assert.Contains("&lt;b onclick=&quot;x()&quot;&gt;HTML&lt;/b&gt;", page, StringComparison.Ordinal);
        Assert.Contains("&lt;div&gt;", page, StringComparison.Ordinal);
        Assert.DoesNotContain("href=\"javascript", page, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("<a href=\"https://example.org/a?b=1&amp;c=2\">page</a>", page, StringComparison.Ordinal);
        Assert.Contains("<th scope=\"col\">case</th>", page, StringComparison.Ordinal);
        Assert.Matches("<img src=\"data:image/png;base64,[A-Za-z0-9+/=]+\" alt=\"a dot\">", page);
    }

    [Fact]
    public void A_name_in_a_description_cannot_leave_its_place_in_the_page()
    {
        File.WriteAllText(
            Name("sly.machine"),
            "machine sly\ntitle \"</title><script>x</script>\"\n\nwidth n = 4 in 1..8\n\noperand a : n\n\n"
                + "register R \"<img src=x>\" : n loads a\n\nstep s\n  R <- R + 1\n\nresult b = R\n"
        );
        var page = File.ReadAllText(
            Lesson("sly.md", "---\nmachine: ./sly.machine\noperands: 3\n---\n\n```reckoner\nwalk\ndraw weave\n```\n")
        );
        Assert.Equal(0, Command.Run("lesson", Name("sly.md"), "-o", Name("sly")).Status);
        page = File.ReadAllText(Name("sly/index.html"));
        Assert.DoesNotContain("<script>x", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<img src=x", page, StringComparison.Ordinal);
    }

    [Fact]
    public void One_line_changed_changes_the_whole_lesson_and_refreshing_writes_its_numbers_anew()
    {
        var text = Text("The quotient is [4](quotient), the remainder [0x5](remainder), R [00101 00000](R).");
        var changed = text.Replace("29 6", "30 4").Replace("\n", "\r\n");
        var lesson = Lesson("lesson.md", changed);
        var stale = Command.Run("lesson", lesson, "-o", Name("pack"));
        Assert.Equal(2, stale.Status);
        Assert.Contains("line 7 of lesson.md", stale.Errors, StringComparison.Ordinal);
        Assert.Contains("4 stands here, and quotient is 7.", stale.Errors, StringComparison.Ordinal);
        Assert.Contains("0x5 stands here, and remainder is 0x2.", stale.Errors, StringComparison.Ordinal);
        Assert.Equal(changed, File.ReadAllText(lesson));
        Assert.Equal(new Command(0, "", ""), Command.Run("lesson", lesson, "--refresh"));
        Assert.Equal(
            changed
                .Replace("[4](quotient)", "[7](quotient)")
                .Replace("[0x5]", "[0x2]")
                .Replace("[00101 00000]", "[00010 00000]"),
            File.ReadAllText(lesson)
        );
        Assert.Equal(0, Command.Run("lesson", lesson, "-o", Name("pack")).Status);
    }

    [Fact]
    public void A_lesson_that_is_right_is_not_rewritten()
    {
        var lesson = Lesson(
            "lesson.md",
            Text("The bits [00101](remainder) and [0b101](remainder) and [5](remainder).")
        );
        File.SetLastWriteTimeUtc(lesson, DateTime.UnixEpoch);
        Assert.Equal(0, Command.Run("lesson", lesson, "--refresh").Status);
        Assert.Equal(DateTime.UnixEpoch, File.GetLastWriteTimeUtc(lesson));
    }

    /// <summary>Of machines at rest there is nothing to fill in and no cycle to tell.</summary>
    [Fact]
    public void Machines_without_operands_and_several_machines_are_drawn_too()
    {
        const string Asked = """
            ---
            machine: divide-shared-register
            width: 5
            ---

            ```reckoner
            draw datapath
            draw divide-moving-divisor divide-shared-register comparison
            draw divide-shared-register --slip guard-never-last weave 29 6
            ```
            """;
        var made = Command.Run("lesson", Lesson("still.md", Asked), "-o", Name("pack"));
        Made(made);
        Assert.Equal(
            ["figures/01-datapath.svg", "figures/02-comparison.svg", "figures/03-weave.svg"],
            Written("pack").Where(f => f.EndsWith(".svg", StringComparison.Ordinal))
        );
        var page = File.ReadAllText(Name("pack/index.html"));
        Assert.Contains("Figure 2. Side by side", page, StringComparison.Ordinal);
        Assert.Contains("n = 5, with the slip guard-never-last: dividend = 29", page, StringComparison.Ordinal);
    }

    /// <summary>Who says "draw the weave of this machine" names it last.</summary>
    [Fact]
    public void A_view_may_stand_in_front_of_its_machine() =>
        Assert.Equal(
            Command.Run("draw", "divide-still-divisor", "weave", "29", "6", "--width", "5"),
            Command.Run("draw", "weave", "divide-still-divisor", "29", "6", "--width", "5")
        );

    [Fact]
    public void What_the_pack_did_not_write_stays()
    {
        Directory.CreateDirectory(Name("pack/figures"));
        File.WriteAllText(Name("pack/figures/mine.svg"), "mine");
        File.WriteAllText(Name("pack/index.html"), "old");
        var lesson = Lesson("lesson.md", Text("```reckoner\nwalk\n```"));
        var refused = Command.Run("lesson", lesson, "-o", Name("pack"));
        Assert.Equal(2, refused.Status);
        Assert.Contains("folder-not-empty", refused.Errors, StringComparison.Ordinal);
        Assert.Equal(["figures/mine.svg", "index.html"], Written("pack"));
        Assert.Equal(0, Command.Run("lesson", lesson, "-o", Name("pack"), "--overwrite").Status);
        Assert.Equal("mine", File.ReadAllText(Name("pack/figures/mine.svg")));
        Assert.StartsWith("<!DOCTYPE html>", File.ReadAllText(Name("pack/index.html")), StringComparison.Ordinal);
    }

    [Fact]
    public void The_pack_never_replaces_the_lesson_itself()
    {
        var text = Text("```reckoner\nwalk\n```");
        var refused = Command.Run("lesson", Lesson("notes.md", text), "-o", folder, "--overwrite");
        Assert.Equal(2, refused.Status);
        Assert.Contains("pack-over-lesson", refused.Errors, StringComparison.Ordinal);
        Assert.Equal(text, File.ReadAllText(Name("notes.md")));
    }

    [Fact]
    public void A_machine_behind_a_link_is_outside_the_folder()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "links need rights there");
        Directory.CreateDirectory(Name("lesson"));
        File.Copy("halve.machine", Name("halve.machine"));
        Directory.CreateSymbolicLink(Name("lesson/link"), folder);
        var lesson = Lesson("lesson/a.md", Text("```reckoner\nwalk link/halve.machine 5 3\n```"));
        var refused = Command.Run("lesson", lesson, "-o", Name("pack"));
        Assert.Equal(2, refused.Status);
        Assert.Contains("file-outside", refused.Errors, StringComparison.Ordinal);
    }

    /// <summary>Whoever writes a lesson may put anything beside it; nobody waits for a pipe into which nothing is written.</summary>
    [Theory]
    [InlineData("pipe.png", "![a dot](pipe.png)")]
    [InlineData("pipe.machine", "```reckoner\nwalk ./pipe.machine 5 3\n```")]
    [InlineData("pipe.style", "text")]
    public void A_pipe_that_a_lesson_names_is_not_waited_for(string pipe, string body)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "not applicable: mkfifo");
        Assert.Equal(0, Child.Run("mkfifo", Name(pipe)).Status);
        var text = body == "text" ? Text(body).Replace("width: 5", "width: 5\nstyle: pipe.style") : Text(body);
        var refused = Command.Run("lesson", Lesson("lesson.md", text), "-o", Name("pack"));
        Assert.Equal(2, refused.Status);
        Assert.Contains(
            $"{pipe} cannot be read: it is empty, or no plain file.",
            refused.Errors,
            StringComparison.Ordinal
        );
        Assert.False(Directory.Exists(Name("pack")));
    }

    [Fact]
    [UnsupportedOSPlatform("windows")]
    public void An_image_that_may_not_be_read_is_told()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "not applicable: modes");
        Assert.SkipWhen(Environment.IsPrivilegedProcess, "not applicable: root reads everything");
        File.WriteAllText(Name("dot.png"), "no matter what");
        File.SetUnixFileMode(Name("dot.png"), UnixFileMode.None);
        var refused = Command.Run("lesson", Lesson("lesson.md", Text("![a dot](dot.png)")), "-o", Name("pack"));
        Assert.Equal(2, refused.Status);
        Assert.Contains("file-unreadable", refused.Errors, StringComparison.Ordinal);
    }

    /// <summary>A core is looked for beside the machine that names it. Elsewhere a link is as good as a file; a pipe is nowhere.</summary>
    [Fact]
    public void A_core_behind_a_link_is_outside_the_folder_of_a_lesson()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "not applicable: mkfifo");
        File.Copy("inner.machine", Name("inner.machine"));
        Directory.CreateDirectory(Name("lesson"));
        File.Copy("outer.machine", Name("lesson/outer.machine"));
        File.CreateSymbolicLink(Name("lesson/inner.machine"), Name("inner.machine"));
        var lesson = Lesson("lesson/a.md", Text("```reckoner\nwalk ./outer.machine 5\n```"));
        var refused = Command.Run("lesson", lesson, "-o", Name("pack"));
        Assert.Equal(2, refused.Status);
        Assert.Contains("inner.machine is not inside the lesson's folder.", refused.Errors, StringComparison.Ordinal);
        Assert.Equal(0, Command.Run("walk", Name("lesson/outer.machine"), "5").Status);

        File.Delete(Name("lesson/inner.machine"));
        Assert.Equal(0, Child.Run("mkfifo", Name("lesson/inner.machine")).Status);
        Assert.Equal(2, Command.Run("walk", Name("lesson/outer.machine"), "5").Status);
    }

    [Theory]
    [InlineData('[')]
    [InlineData('>')]
    [InlineData('*')]
    [InlineData('`')]
    [InlineData('(')]
    public void So_much_of_one_character_ends_soon_and_in_words(char sign) => EndsInWords(sign, 290_000);

    /// <summary>The library looks for a table in every one of these, which grows with their square.</summary>
    [Fact]
    public void So_do_many_bars() => EndsInWords('|', 60_000);

    [Fact]
    [Trait("Length", "long")]
    public void So_do_as_many_bars_as_a_lesson_may_have() => EndsInWords('|', 290_000);

    private void EndsInWords(char sign, int times)
    {
        var lesson = Lesson("lesson.md", Text(new string(sign, times)));
        var made = Command.Run("lesson", lesson, "-o", Name("pack"));
        Assert.Contains(made.Status, new[] { 0, 2 });
        Assert.DoesNotContain("our fault", made.Errors, StringComparison.Ordinal);
    }

    /// <summary>The library reads what nests deeper than it can write.</summary>
    [Theory]
    [InlineData("*a **a ", " a** a*", 45, 0)]
    [InlineData("*a **a ", " a** a*", 60, 2)]
    [InlineData("*a **a ", " a** a*", 500, 2)]
    [InlineData("[*a ", " a*](https://example.org)", 500, 2)]
    [InlineData("> ", "", 45, 0)]
    [InlineData("> ", "", 110, 2)]
    [InlineData("1. > *a ", "*", 40, 0)]
    public void What_nests_deep_is_written_or_refused(string before, string after, int times, int status)
    {
        string Times(string text) => string.Concat(Enumerable.Repeat(text, times));
        var lesson = Lesson("lesson.md", Text(Times(before) + "x" + Times(after)));
        var made = Command.Run("lesson", lesson, "-o", Name("pack"));
        Assert.Equal(status, made.Status);
        Assert.Equal(status == 2, made.Errors.Contains("lesson-too-deep", StringComparison.Ordinal));
        Assert.Equal(status == 0, File.Exists(Name("pack/index.html")));
    }

    [Fact]
    public void The_handbook_tells_every_word_of_the_header_and_every_request()
    {
        var page = MarkdownPage.Of("docs/handbook/lessons.md");
        Assert.Equal(HeaderReader.Keys, page.Table("At the top").Select(row => row[0]));
        var verbs = RequestDefaults.Of(new LessonHeader(null, null, null, null, null, [], null, null), "").Verbs;
        Assert.Equal(verbs.Select(v => v.Name), page.Table("Requests").Select(row => row[0]));
        Assert.Equal(
            verbs.Select(v => string.Join(", ", v.Options.Select(o => o.Name))),
            page.Table("Requests").Select(row => row[2])
        );
    }

    /// <summary>Whatever the command answers a lesson shows, in its page and on paper.</summary>
    [Fact]
    public void An_answer_of_the_command_is_shown()
    {
        (string Request, string Told)[] asked =
        [
            ("list", "divide-srt-radix-4-1994"),
            ("show", "machine divide-still-divisor"),
            ("show --hardware", "the remainder register"),
            ("states", "What each state does"),
            ("prove", "for every operand at every width"),
            ("operands --showing \"quotient = 3 and remainder = 1\"", "quotient = 3 and remainder = 1"),
        ];
        var page = WebUtility.HtmlDecode(
            Page($"# T\n\n```reckoner\n{string.Join('\n', asked.Select(a => a.Request))}\n```")
        );
        var paper = Pdf("handout.pdf");
        Assert.All(asked, a => Assert.Contains(a.Told, page, StringComparison.Ordinal));
        Assert.All(asked, a => Assert.Contains(a.Told, paper, StringComparison.Ordinal));
    }

    /// <summary>The words of a paper of the pack, as another program reads them, with single blanks.</summary>
    private string Pdf(string paper)
    {
        using var program = Process.Start(
            new ProcessStartInfo("pdftotext", ["-raw", Name($"pack/{paper}"), "-"]) { RedirectStandardOutput = true }
        )!;
        var text = program.StandardOutput.ReadToEnd();
        program.WaitForExit();
        return Regex.Replace(text, @"\s+", " ");
    }

    /// <summary>8.5 by 11 inches are 612 by 792 points; without a word it is A4.</summary>
    [Theory]
    [InlineData("", 595)]
    [InlineData("paper: letter", 612)]
    public void Papers_are_set_on_what_the_lesson_asks_for(string said, int points)
    {
        Made(Command.Run("lesson", Lesson("lesson.md", $"---\nauthor: A\n{said}\n---\n\n# T\n"), "-o", Name("pack")));
        var paper = Encoding.Latin1.GetString(File.ReadAllBytes(Name("pack/key.pdf")));
        Assert.Equal($"{points}", Regex.Match(paper, @"/MediaBox\s*\[\s*0 0 (\d+)").Groups[1].Value);
    }

    [Fact]
    public void What_is_asked_of_paper_is_not_on_the_screen()
    {
        Assert.DoesNotContain(
            "class=\"stage\"",
            Page("# T\n\n```reckoner\nroom 5 lines\npage\n```\n\nEnd."),
            StringComparison.Ordinal
        );
        Assert.Equal(
            2,
            Regex.Count(Encoding.Latin1.GetString(File.ReadAllBytes(Name("pack/handout.pdf"))), @"/Type\s*/Page\b")
        );
    }

    [Fact]
    public void The_lesson_in_the_handbook_is_built_as_it_stands_there()
    {
        var lines = MarkdownPage.Of("docs/handbook/lessons.md").Text.Split('\n');
        var shown = lines
            .SkipWhile(l => l != "    ---")
            .TakeWhile(l => l.Length == 0 || l.StartsWith("    ", StringComparison.Ordinal))
            .Select(l => l.Length == 0 ? l : l[4..]);
        var lesson = Lesson("lesson.md", string.Join('\n', shown));
        Made(Command.Run("lesson", lesson, "-o", Name("pack")));
    }

    /// <summary>Under the lesson's headings, in its order; the slip that is named does by the command what the notes say of it.</summary>
    [Fact]
    public void Notes_follow_the_lesson_and_name_a_slip_that_shows()
    {
        const string Body =
            "# T\n\nDoes it fit? It may.\n\n## First\n\n```reckoner\nwalk\n```\n\n## Second\n\nWhy not?\n";
        Made(Command.Run("lesson", Lesson("lesson.md", Text(Body)), "-o", Name("pack")));
        var notes = File.ReadAllText(Name("pack/notes.md"));
        string[] order =
        [
            "- Ask: Does it fit?",
            "\n## First\n",
            "- Cycle 6: ",
            "A slip to show",
            "\n## Second\n",
            "- Ask: Why not?",
        ];
        var places = order.Select(part => notes.IndexOf(part, StringComparison.Ordinal)).ToList();
        Assert.DoesNotContain(-1, places);
        Assert.Equal(places.Order(), places);
        // In the fourth the divisor fits for the first time, in the sixth nothing moves any more.
        var asked = notes
            .Split('\n')
            .Where(l => l.Contains("No cycle before had such a reason", StringComparison.Ordinal));
        Assert.Equal(["- Cycle 4", "- Cycle 6"], asked.Select(l => l.Split(':')[0]));
        var told = Regex.Match(
            notes,
            @"--slip (?<slip>\S+): it parts from this walk in cycle \d+ and gives (?<results>.*)\."
        );
        var slip = told.Groups["slip"].Value.Replace("\\", "", StringComparison.Ordinal);
        var walked = Command.Run("walk", "divide-still-divisor", "29", "6", "--width", "5", "--slip", slip);
        var numbers = Regex
            .Matches(told.Groups["results"].Value, @"(\w+) = (\d+) =")
            .Select(m => $"{m.Groups[1].Value} = {m.Groups[2].Value}")
            .ToList();
        Assert.Equal(2, numbers.Count);
        Assert.NotEqual(["quotient = 4", "remainder = 5"], numbers);
        Assert.All(
            numbers,
            n => Assert.Matches(n.Replace(" = ", @"\s+=?\s*", StringComparison.Ordinal), walked.Output)
        );
    }

    /// <summary>A house style without reasons and registers is that of the notes too.</summary>
    [Fact]
    public void Notes_speak_in_the_columns_of_the_house_style()
    {
        File.WriteAllText(Name("short.style"), "style \"Short\"\ncolumn cycle\ncolumn Q \"quotient\" base 16\n");
        var text = Text("```reckoner\nwalk\n```").Replace("width: 5", "width: 5\nstyle: short.style");
        Made(Command.Run("lesson", Lesson("lesson.md", text), "-o", Name("pack")));
        string[] expected = ["- Load. quotient = 00.", "- Cycle 1: quotient = 00."];
        Assert.Equal(expected, File.ReadLines(Name("pack/notes.md")).Where(l => l.StartsWith("- ")).Take(2));
    }
}
