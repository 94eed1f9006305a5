using System.Diagnostics;
using System.IO.Compression;
using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>A sheet for each student of a class: whose is whose, what is handed out and what is kept.</summary>
public sealed class ClassSheetTests : IDisposable
{
    private const string Questions = """
        ```question
        fill walk drawn
        marks 6
        ```

        ```question
        say cycles R@4 quotient walk drawn
        marks 1.5
        ```

        """;

    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-class-").FullName;

    public ClassSheetTests() => WorkFolder.Enter();

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private string Name(string file) => Path.Combine(folder, file);

    private string Lesson(string questions = Questions, string header = "") =>
        File(
            "lesson.md",
            $"---\nmachine: divide-still-divisor\nwidth: 6\n{header}---\n\n# Division\n\n```reckoner\nwalk 60 7\n```\n\n{questions}"
        );

    private string File(string name, string text)
    {
        System.IO.File.WriteAllText(Name(name), text);
        return Name(name);
    }

    private Command Make(string lesson, string list, params IEnumerable<string> more) =>
        Command.Run(["lesson", lesson, "--class", list, "-o", Name("out"), .. more]);

    private Dictionary<string, JsonObject> Sheets() =>
        JsonNode.Parse(System.IO.File.ReadAllText(Name("out/keep/answers.json")))!["sheets"]!
            .AsArray()
            .ToDictionary(s => (string)s!["identifier"]!, s => s!.AsObject());

    private static void Done(Command made) => Assert.Equal((0, ""), (made.Status, made.Errors));

    private string Pdf(string file, params IEnumerable<string> more)
    {
        using var program = Process.Start(
            new ProcessStartInfo("pdftotext", ["-raw", .. more, Name($"out/{file}"), "-"])
            {
                RedirectStandardOutput = true,
            }
        )!;
        var text = program.StandardOutput.ReadToEnd();
        program.WaitForExit();
        return Regex.Replace(text, @"\s+", "");
    }

    private List<string> Written() =>
        [
            .. Directory
                .EnumerateFiles(Name("out"), "*", SearchOption.AllDirectories)
                .Select(f => Path.GetRelativePath(Name("out"), f).Replace('\\', '/'))
                .Order(StringComparer.Ordinal),
        ];

    [Fact]
    public void Every_student_gets_a_sheet_in_every_form_and_the_keys_are_kept()
    {
        var made = Make(Lesson(), File("class.csv", "id,name\na1,Ada\nb2,Bo\n"));
        Done(made);
        Assert.StartsWith($"{Name("out")} holds 2 sheets:\n", made.Output, StringComparison.Ordinal);
        Assert.EndsWith("keep has every answer, and the seed.\n", made.Output, StringComparison.Ordinal);
        var numbers = Sheets().Values.Select(s => ((string)s["sheet"]!).Replace("-", "", StringComparison.Ordinal));
        Assert.Equal(
            [
                "keep/answers.json",
                "keep/class-key.pdf",
                "keep/marks-key.pdf",
                .. numbers
                    .SelectMany(n => new[] { "csv", "html", "pdf", "xlsx" }.Select(e => $"sheets/{n}.{e}"))
                    .Append("sheets/sheets.pdf")
                    .Order(StringComparer.Ordinal),
            ],
            Written()
        );
        foreach (var file in Written())
        {
            WellFormed.Read(Path.GetExtension(file)[1..], System.IO.File.ReadAllBytes(Name($"out/{file}")));
        }
    }

    /// <summary>What belongs on a sheet is told by the keys, and by nothing that is handed out, whatever part of a file is read.</summary>
    [Fact]
    public void Nothing_to_hand_out_holds_an_answer()
    {
        Done(Make(Lesson(), File("class.csv", "id\na1\nb2\nc3\n")));
        var key = Pdf("keep/marks-key.pdf");
        foreach (var sheet in Sheets().Values)
        {
            var number = ((string)sheet["sheet"]!).Replace("-", "", StringComparison.Ordinal);
            var table = sheet["answers"]![0]!["tables"]![0]!["rows"]!.AsArray();
            var rows = table.Skip(1).Select(r => r!["cells"]!.AsArray().Select(c => (string)c!).ToList()).ToList();
            var files = new[] { "pdf", "html", "xlsx", "csv" }.ToDictionary(e => e, e => Everything(number, e));
            Assert.All(rows, r => Assert.Contains(Plain(string.Concat(r.Take(4))), key, StringComparison.Ordinal));
            foreach (var (form, text) in files)
            {
                // The load is given, so the test sees digits where they are.
                var load = Plain((string)table[0]!["cells"]![1]!);
                Assert.True(text.Contains(load, StringComparison.Ordinal), $"{form}: the load is not found");
                Assert.All(
                    // On paper the digits of a whole row stand beside each other, elsewhere those of a register.
                    rows.Select(r => Plain(form == "pdf" ? string.Concat(r.Skip(1).Take(3)) : r[1]))
                        .Where(r => r != load),
                    r => Assert.DoesNotContain(r, text, StringComparison.Ordinal)
                );
            }
            Assert.DoesNotContain(
                $"number of cycles = {table.Count - 1}".Replace(" ", "", StringComparison.Ordinal),
                string.Concat(files.Values),
                StringComparison.Ordinal
            );
        }

        static string Plain(string text) => Regex.Replace(text, @"\s+", "");
    }

    /// <summary>Likewise of every task and of every figure with a blank form: places are empty, and no row of the walk stands there.</summary>
    [Theory]
    [InlineData("complete weave")]
    [InlineData("complete datapath")]
    [InlineData("complete table")]
    [InlineData("fill paper")]
    [InlineData("fill compare divide-still-divisor divide-shared-register")]
    [InlineData("fill states")]
    [InlineData("fill walk")]
    [InlineData("say cycles R@4 R@5 R@6 quotient walk")]
    [InlineData("choose --showing \"remainder = 4 and quotient = 3\"")]
    public void Nor_does_any_other_question(string question)
    {
        var lesson = File(
            "asked.md",
            $"---\nmachine: divide-still-divisor\nwidth: 6\noperands: 61 7\n---\n\n# Asked\n\n```question\n{question}\n```\n"
        );
        Done(Make(lesson, File("class.csv", "id\na1\n")));
        var sheet = Sheets().Single().Value;
        var number = ((string)sheet["sheet"]!).Replace("-", "", StringComparison.Ordinal);
        var page = System.IO.File.ReadAllText(Name($"out/sheets/{number}.html"));
        Assert.DoesNotMatch("<input[^>]* value=", page);
        Assert.DoesNotMatch("<textarea[^>]*>[^<]", page);
        var places = Regex.Matches(page, "name=\"([0-9][^\"]*)\"").Select(m => m.Groups[1].Value).ToList();
        Assert.Equal(places, places.Distinct());
        var named = sheet["answers"]![0]!["tables"]!
            .AsArray()
            .SelectMany(t => t!["rows"]!.AsArray())
            .SelectMany(r => r!["places"]!.AsArray().Select(p => (string)p!));
        Assert.Equal(places.Where(p => p.Count(c => c == '.') > 2), named);
        var pages = Regex.Replace(page.Split("class=\"question\"", 2)[1], "<[^>]*>|\\s+", "");
        var texts = new[] { "xlsx", "csv" }.Select(e => Everything(number, e)).Append(Pdf($"sheets/{number}.pdf"));
        var key = Pdf("keep/marks-key.pdf");
        var walk = Command.Run("walk", "divide-still-divisor", "61", "7", "--width", "6").Output;
        List<string> answers =
        [
            .. Regex
                .Matches(walk, "(?m)^ +[2-7]  ([01]{6}) ([01]{6})")
                .Select(m => m.Groups[1].Value + m.Groups[2].Value),
        ];
        // The load is given, twice where two machines are compared.
        answers.RemoveAll(a => "000000111101000000111101".Contains(a, StringComparison.Ordinal));
        Assert.Equal(3, answers.Distinct().Count());
        Assert.All(
            texts.Append(pages),
            text => Assert.All(answers, a => Assert.DoesNotContain(a, text, StringComparison.Ordinal))
        );
        var fields = sheet["answers"]![0]!["fields"]!.AsArray().Select(f => (string)f!["expected"]!);
        Assert.All(
            fields.Where(f => f.Length > 3),
            f => Assert.Contains(Regex.Replace(f, " ", ""), key, StringComparison.Ordinal)
        );
    }

    /// <summary>The text of a PDF with its metadata, the source of a page, all that a workbook consists of. The example is left out.</summary>
    private string Everything(string number, string form)
    {
        var file = Name($"out/sheets/{number}.{form}");
        var text = form switch
        {
            "pdf" => Pdf($"sheets/{number}.pdf", "-f", "2")
                + Encoding.Latin1.GetString(System.IO.File.ReadAllBytes(file)),
            "xlsx" => string.Concat(Parts(file)),
            "html" => System.IO.File.ReadAllText(file).Split("class=\"question\"", 2)[1],
            _ => System.IO.File.ReadAllText(file),
        };
        return Regex.Replace(text, @"/CreationDate *\([^)]*\)|\s+", "");
    }

    private static List<string> Parts(string file)
    {
        using var archive = ZipFile.OpenRead(file);
        return
        [
            .. archive.Entries.Select(e =>
            {
                using var reader = new StreamReader(e.Open());
                return reader.ReadToEnd();
            }),
        ];
    }

    [Fact]
    public void A_student_who_comes_later_changes_nobody_elses_sheet_and_the_same_list_gives_the_same_files()
    {
        var lesson = Lesson();
        Done(Make(lesson, File("class.csv", "id\na1\nb2\nc3\n")));
        var before = Sheets();
        var files = Written().ToDictionary(f => f, f => System.IO.File.ReadAllBytes(Name($"out/{f}")));
        Done(Make(lesson, Name("class.csv"), "--overwrite"));
        Assert.All(files, f => Assert.Equal(f.Value, System.IO.File.ReadAllBytes(Name($"out/{f.Key}"))));
        Done(Make(lesson, File("class.csv", "id\nz9\nc3\na1\nb2\ny8\n"), "--overwrite"));
        var after = Sheets();
        Assert.Equal(["z9", "c3", "a1", "b2", "y8"], after.Keys);
        Assert.All(before, b => Assert.Equal($"{b.Value}", $"{after[b.Key]}"));
        Assert.Equal(5, after.Values.Select(s => $"{s["answers"]![0]!["operands"]}").Distinct().Count());
    }

    /// <summary>Whoever left meanwhile was served before those who came: nobody else has the sheet of one who comes back.</summary>
    [Fact]
    public void A_student_who_left_and_came_back_has_the_sheet_of_before()
    {
        var lesson = Lesson();
        Done(Make(lesson, File("class.csv", "id\na1\nb2\nc3\n")));
        var before = Sheets();
        Done(Make(lesson, File("class.csv", "id\na1\nc3\nd4\ne5\nf6\ng7\nh8\n"), "--overwrite"));
        Done(Make(lesson, File("class.csv", "id\na1\nb2\nc3\nd4\n"), "--overwrite"));
        Assert.All(before, b => Assert.Equal($"{b.Value}", $"{Sheets()[b.Key]}"));
    }

    [Fact]
    public void A_list_that_grew_beyond_what_its_sheets_are_drawn_from_is_told_so_or_helps_itself_to_neighbours()
    {
        const string Asked = "```question\nfill walk drawn\n```\n";
        var lesson = Lesson(Asked);
        Done(Make(lesson, File("class.csv", "id\na1\n")));
        var before = $"{Sheets()["a1"]["answers"]![0]!["operands"]}";
        var many = File("class.csv", $"id\n{string.Concat(Enumerable.Range(1, 79).Select(i => $"a{i}\n"))}");
        var refused = Make(lesson, many, "--overwrite");
        Assert.Equal((2, ""), (refused.Status, refused.Output));
        Assert.Contains("and 79 are wanted", Regex.Replace(refused.Errors, @"\s+", " "), StringComparison.Ordinal);
        Lesson(Asked.Replace("drawn\n", "drawn\nneighbours\n", StringComparison.Ordinal));
        Done(Make(lesson, many, "--overwrite", "--changed"));
        Assert.Equal(before, $"{Sheets()["a1"]["answers"]![0]!["operands"]}");
        Assert.Equal(79, Sheets().Values.Select(x => $"{x["answers"]![0]!["operands"]}").Distinct().Count());
        Assert.Contains("*Question1,sheets", Pdf("keep/class-key.pdf"), StringComparison.Ordinal);
    }

    /// <summary>Nobody has in the second what anybody had in the first, nor in the third what was in one before; all are of one class.</summary>
    [Fact]
    public void A_second_sheet_shares_no_operands_with_the_first()
    {
        var lesson = File(
            "again.md",
            "---\nmachine: divide-still-divisor\nwidth: 8\n---\n\n# Again\n\n```question\nfill walk drawn\n```\n"
        );
        var list = File("class.csv", "id\na1\nb2\nc3\n");
        var alone = Make(lesson, list, "--again");
        Assert.Equal((2, ""), (alone.Status, alone.Output));
        Assert.Contains(" sheets-no-first\n", alone.Errors, StringComparison.Ordinal);
        Done(Make(lesson, list));
        Done(Make(lesson, list, "--again"));
        var second = Drawn("out/again");
        Done(Make(lesson, list, "--again", "--overwrite"));
        Assert.Equal(second, Drawn("out/again"));
        Done(Command.Run("lesson", lesson, "--class", list, "-o", Name("out/again"), "--again"));
        var all = Drawn("out").Concat(second).Concat(Drawn("out/again/again")).ToList();
        Assert.Equal(9, all.Distinct().Count());
    }

    /// <summary>The operands of every question of every sheet of a pack.</summary>
    private List<string> Drawn(string pack) =>
        [
            .. JsonNode.Parse(System.IO.File.ReadAllText(Name($"{pack}/keep/answers.json")))!["sheets"]!
                .AsArray()
                .SelectMany(x => x!["answers"]!.AsArray().Select(a => $"{a!["operands"]}")),
        ];

    private static string Students(int from, int count) =>
        $"id\n{string.Concat(Enumerable.Range(from, count).Select(i => $"a{i}\n"))}";

    private const string Thrice =
        "```question\nfill walk drawn\n```\n\n```question\nsay quotient walk drawn\n```\n\n```question\nsay R@3 walk drawn\n```\n";

    /// <summary>In whichever question; the questions of one sheet are about different operands.</summary>
    [Fact]
    public void A_second_sheet_shares_none_with_another_question_of_the_first()
    {
        var (lesson, list) = (Lesson(Thrice), File("class.csv", Students(0, 7)));
        Done(Make(lesson, list));
        Done(Make(lesson, list, "--again"));
        var (first, second) = (Drawn("out"), Drawn("out/again"));
        Assert.Equal((21, 21), (first.Count, second.Count));
        Assert.Empty(first.Intersect(second));
        Assert.All(first.Concat(second).Chunk(3), own => Assert.Equal(3, own.Distinct().Count()));
    }

    /// <summary>Who comes to the first when there is a second gets nothing of that; whoever has a sheet keeps it.</summary>
    [Fact]
    public void A_first_pack_that_grows_shares_none_with_its_second()
    {
        var lesson = Lesson("```question\nfill walk drawn\n```\n");
        Done(Make(lesson, File("class.csv", Students(0, 5))));
        Done(Make(lesson, File("class.csv", Students(0, 23)), "--again"));
        var first = Drawn("out");
        Done(Make(lesson, File("class.csv", Students(0, 27)), "--overwrite"));
        Assert.Equal(first, Drawn("out").Take(5));
        Assert.Empty(Drawn("out").Intersect(Drawn("out/again")));
    }

    /// <summary>A folder that happens to be called as that of a second pack is that of a first where there is none above it.</summary>
    [Fact]
    public void A_first_pack_may_lie_in_a_folder_called_again()
    {
        var lesson = Lesson("```question\nfill walk drawn\n```\n");
        var list = File("class.csv", Students(0, 20));
        string[] asked = ["lesson", lesson, "--class", list, "-o", Name("again")];
        Done(Command.Run(asked));
        Done(Command.Run([.. asked, "--again"]));
        Assert.Empty(Drawn("again").Intersect(Drawn("again/again")));
    }

    /// <summary>Whatever the lesson works out or asks of everybody, in whatever request, is drawn for nobody.</summary>
    [Fact]
    public void Nobody_is_drawn_what_the_lesson_shows()
    {
        const string Asked = "```question\nfill walk drawn\n```\n";
        var lesson = Lesson(Asked);
        Done(Make(lesson, File("class.csv", Students(0, 50))));
        var all = Drawn("out");
        Assert.Equal(50, all.Distinct().Count());
        var shown = all.Take(4).Select(o => JsonNode.Parse(o)!).Select(o => $"{o["dividend"]} {o["divisor"]}").ToList();
        Directory.Delete(Name("out"), recursive: true);
        Lesson(
            $"```reckoner\nwalk {shown[0]}\n```\n\n```reckoner\ndraw weave {shown[1]}\n```\n\n"
                + $"```reckoner\ncompare divide-still-divisor divide-shared-register {shown[2]} --width 8\n```\n\n"
                + $"```question\nsay quotient walk {shown[3]}\n```\n\n{Asked}"
        );
        var refused = Make(lesson, File("class.csv", Students(0, 47)));
        Assert.Equal((2, ""), (refused.Status, refused.Output));
        Assert.Contains(
            "Of them 4 are not to be given, for standing on other sheets (of those who left the list, or of a first pack) or in the lesson for all. That leaves 46, and 47 are wanted.",
            Regex.Replace(refused.Errors, @"[\s|]+", " "),
            StringComparison.Ordinal
        );
        Done(Make(lesson, File("class.csv", Students(0, 46))));
        Assert.Equal(all.Skip(4).Order(), Drawn("out").Where((_, i) => i % 2 == 1).Order());
    }

    /// <summary>How many there are is one thing, and how many of them are given away already another.</summary>
    [Theory]
    [InlineData(30, 0, 30, true, "Of them 30", "That leaves 20, and 30 are wanted.")]
    [InlineData(40, 30, 40, false, "Of them 30", "That leaves 20, and 40 are wanted.")]
    public void Too_few_are_said_with_those_that_are_given_away(
        int first,
        int from,
        int count,
        bool isAgain,
        string gone,
        string left
    )
    {
        var lesson = Lesson("```question\nfill walk drawn\n```\n");
        Done(Make(lesson, File("class.csv", Students(0, first))));
        var more = isAgain ? "--again" : "--overwrite";
        var refused = Make(lesson, File("class.csv", Students(from, count)), more);
        Assert.Equal((2, ""), (refused.Status, refused.Output));
        var said = Regex.Replace(refused.Errors, @"[\s|]+", " ");
        Assert.Contains("divide-still-divisor has 50 operands of one difficulty here.", said, StringComparison.Ordinal);
        Assert.Contains(gone, said, StringComparison.Ordinal);
        Assert.Contains(left, said, StringComparison.Ordinal);
    }

    /// <summary>A class that shrank has fewer files for the printer; those of before would print sheets twice.</summary>
    [Fact]
    public void Files_for_the_printer_that_a_smaller_class_does_not_need_are_taken_away()
    {
        var lesson = Lesson("```question\nsay cycles walk 61 7\n```\n");
        string[] asked = ["lesson", lesson, "-o", Name("out"), "--copies"];
        string[] second = ["keep/marks-key-2.pdf", "sheets/sheets-2.pdf"];
        Done(Command.Run([.. asked, "251"]));
        Assert.Equal(second, Written().Where(f => f.EndsWith("-2.pdf", StringComparison.Ordinal)));
        Done(Command.Run([.. asked, "2", "--overwrite"]));
        Assert.DoesNotContain(Written(), f => f.EndsWith("-2.pdf", StringComparison.Ordinal));
    }

    /// <summary>Whoever asks for another form is asked the same; what a figure alone would say stands in a table.</summary>
    [Fact]
    public void Large_print_and_the_form_for_screen_readers_ask_the_same()
    {
        var lesson = Lesson("```question\nfill walk 61 7\nmarks 7\n```\n\n```question\ncomplete weave 61 7\n```\n");
        Done(Make(lesson, File("class.csv", "id;form\na1;\nb2;Large print\nc3;vorlesen\n")));
        var sheets = Sheets()
            .ToDictionary(x => x.Key, x => ((string)x.Value["sheet"]!).Replace("-", "", StringComparison.Ordinal));
        var rows = Sheets().Values.Select(x => $"{x["answers"]![0]!["tables"]}").Distinct();
        Assert.Single(rows);
        var sizes = sheets.ToDictionary(x => x.Key, x => Sizes($"sheets/{x.Value}.pdf"));
        // 10.5 and 18 points.
        Assert.Equal(Assert.Single(sizes["a1"]) * 18 / 10.5, Assert.Single(sizes["b2"]), 0.1);
        Assert.Equal(sizes["a1"], sizes["c3"]);
        var page = System.IO.File.ReadAllText(Name($"out/sheets/{sheets["c3"]}.html"));
        Assert.DoesNotContain("<svg", page, StringComparison.Ordinal);
        Assert.Contains(
            "<svg",
            System.IO.File.ReadAllText(Name($"out/sheets/{sheets["a1"]}.html")),
            StringComparison.Ordinal
        );
        Assert.Equal(3, Regex.Count(page, "<table"));
        // Every table has heads, and every place says what it is.
        Assert.All(
            Regex.Matches(page, "<table.*?</table>", RegexOptions.Singleline),
            t => Assert.Contains("<th scope=\"col\">", t.Value, StringComparison.Ordinal)
        );
        Assert.All(
            Regex
                .Matches(page, "<(input|select) name=\"[0-9][^>]*>")
                .Where(m =>
                    !m.Value.Contains("quotient", StringComparison.Ordinal)
                    && !m.Value.Contains("remainder", StringComparison.Ordinal)
                ),
            m => Assert.Contains("aria-label=", m.Value, StringComparison.Ordinal)
        );
        var refused = Make(lesson, File("class.csv", "id,form\na1,enormous\n"), "--overwrite");
        Assert.Equal((2, ""), (refused.Status, refused.Output));
        Assert.Contains("enormous is no form", refused.Errors, StringComparison.Ordinal);

        // How high the letters are of what a question says to do.
        List<double> Sizes(string file)
        {
            using var program = Process.Start(
                new ProcessStartInfo("pdftotext", ["-bbox", Name($"out/{file}"), "-"]) { RedirectStandardOutput = true }
            )!;
            var text = program.StandardOutput.ReadToEnd();
            program.WaitForExit();
            return
            [
                .. Regex
                    .Matches(text, "yMin=\"([0-9.]+)\" xMax=\"[0-9.]+\" yMax=\"([0-9.]+)\">Fill<")
                    .Select(m => Number(m.Groups[2].Value) - Number(m.Groups[1].Value))
                    .Select(h => Math.Round(h, 2))
                    .Distinct(),
            ];
        }

        static double Number(string text) => double.Parse(text, System.Globalization.CultureInfo.InvariantCulture);
    }

    /// <summary>
    /// What stands at the foot stands within the frame, 8 mm from the edges, in large letters too; and where words are to be written
    /// there is as much room whatever they are.
    /// </summary>
    [Theory]
    [InlineData("a4")]
    [InlineData("letter")]
    public void All_stands_within_the_frame_and_places_for_words_are_even(string paper)
    {
        var lesson = Lesson(
            "```question\nfill walk multiply-booth 22 -25\nno rule\n```\n",
            $"paper: {paper}\nauthor: Lindow Vale College, typography\n"
        );
        Done(Make(lesson, File("class.csv", "id,form\na1,\nb2,large\nc3,reader\n")));
        foreach (var number in Sheets().Values.Select(NumberOf))
        {
            using var program = Process.Start(
                new ProcessStartInfo("pdftotext", ["-bbox", Name($"out/sheets/{number}.pdf"), "-"])
                {
                    RedirectStandardOutput = true,
                }
            )!;
            var text = program.StandardOutput.ReadToEnd();
            program.WaitForExit();
            var high = Number(Regex.Match(text, "<page width=\"[0-9.]+\" height=\"([0-9.]+)\"").Groups[1].Value);
            var all = Regex.Matches(text, "yMin=\"([0-9.]+)\" xMax=\"[0-9.]+\" yMax=\"([0-9.]+)\">([^<]*)<");
            Assert.True(all.Count > 50);
            Assert.All(all, w => Assert.InRange(Number(w.Groups[2].Value), 0, high - 8 / 25.4 * 72));
        }
        // Of other operands decisions come in another order, and as many rules are drawn.
        var (first, rules) = (Decided(), Rules());
        Lesson("```question\nfill walk multiply-booth 22 -23\nno rule\n```\n", $"paper: {paper}\n");
        Done(Make(lesson, Name("class.csv"), "--overwrite", "--changed"));
        Assert.NotEqual(first, Decided());
        Assert.Equal(first.Distinct().Order(), Decided().Distinct().Order());
        Assert.Equal(rules, Rules());

        List<string> Decided() =>
            [.. Sheets()["c3"]["answers"]![0]!["tables"]![0]!["rows"]!.AsArray().Select(r => (string)r!["cells"]![5]!)];

        int Rules()
        {
            var file = Name($"out/sheets/{NumberOf(Sheets()["c3"])}.pdf");
            using var program = Process.Start("pdftocairo", ["-svg", "-l", "2", file, Name("page.svg")]);
            program.WaitForExit();
            return Regex.Count(System.IO.File.ReadAllText(Name("page.svg")), "<path fill=\"none\"");
        }

        static string NumberOf(JsonObject sheet) =>
            ((string)sheet["sheet"]!).Replace("-", "", StringComparison.Ordinal);

        static double Number(string text) => double.Parse(text, System.Globalization.CultureInfo.InvariantCulture);
    }

    /// <summary>By wish: rows to spare, decisions as digits, no rule, registers that never change. A key leaves the spare rows empty.</summary>
    [Fact]
    public void What_a_question_wishes_stands_in_every_form_and_the_spare_rows_stay_empty()
    {
        var lesson = Lesson(
            "```question\nfill walk 61 7\nno rule\ndecisions as digits\nconstant registers printed\nspare rows 2\n```\n\n```question\nfill walk 61 7\n```\n"
        );
        Done(Make(lesson, File("class.csv", "id\na1\n")));
        var sheet = Sheets()["a1"];
        var number = ((string)sheet["sheet"]!).Replace("-", "", StringComparison.Ordinal);
        var table = sheet["answers"]![0]!["tables"]![0]!;
        Assert.Equal(["cycle", "R", "D", "Q", "borrow?", "why"], table["columns"]!.AsArray().Select(c => (string)c!));
        Assert.Equal(["borrow?", "why"], table["reasons"]!.AsArray().Select(c => (string)c!));
        Assert.Equal(8, table["rows"]!.AsArray().Count);
        // 61 : 7 = 8 in six digits: only the fourth cycle that decides fits.
        Assert.Equal("1110111", string.Concat(table["rows"]!.AsArray().Skip(1).Select(r => (string)r!["cells"]![4]!)));
        Assert.All(
            table["rows"]!.AsArray(),
            r => Assert.DoesNotContain("D", r!["open"]!.AsArray().Select(c => (string)c!))
        );
        var page = System.IO.File.ReadAllText(Name($"out/sheets/{number}.html"));
        Assert.Contains("name=\"1.1.9.R\"", page, StringComparison.Ordinal);
        Assert.DoesNotContain("name=\"1.1.10.R\"", page, StringComparison.Ordinal);
        Assert.DoesNotContain("name=\"1.1.3.D\"", page, StringComparison.Ordinal);
        Assert.Contains("<option>it fits: 1 enters</option>", page, StringComparison.Ordinal);
        Assert.Equal(1, Regex.Count(page, "left &lt;- difference"));
        var (blank, key) = (Pdf($"sheets/{number}.pdf"), Pdf("keep/marks-key.pdf"));
        Assert.Contains("stopwherethemachinestops", blank, StringComparison.Ordinal);
        Assert.Equal(7, Regex.Count(blank, "itfits:1enterstoosmall:0enters"));
        Assert.Contains("9Results", Regex.Replace(key.Split("Question2")[0], "000111", ""), StringComparison.Ordinal);
    }

    /// <summary>Where a decision stands within another, nobody sees by the places whether the walk came by.</summary>
    [Theory]
    [InlineData("decisions as digits")]
    [InlineData("no reasons\ndecisions as digits")]
    [InlineData("marks 6")]
    public void Places_do_not_tell_which_decisions_are_come_by(string wish)
    {
        var asked = new[] { "13 4", "-13 4", "-12 4" }.Select(o =>
            $"```question\nfill walk divide-signed-floored {o}\n{wish}\n```\n\n"
        );
        Done(Make(Lesson(string.Concat(asked)), File("class.csv", "id\na1\n")));
        var sheet = Sheets()["a1"];
        var tables = sheet["answers"]!.AsArray().Select(a => a!["tables"]![0]!).ToList();
        // Each of the three decides otherwise,
        Assert.Equal(3, tables.Select(t => string.Concat(Cells(t, "left <> 0?"))).Distinct().Count());
        Assert.Equal("", Cells(tables[0], "left <> 0?")[8]);
        // and all look the same.
        Assert.Single(tables.Select(t => $"{t["columns"]}").Distinct());
        Assert.Single(
            tables.Select(t => string.Join('|', t["rows"]!.AsArray().Select(r => $"{r!["open"]}"))).Distinct()
        );
        var page = System.IO.File.ReadAllText(
            Name($"out/sheets/{((string)sheet["sheet"]!).Replace("-", "", StringComparison.Ordinal)}.html")
        );
        Assert.All(
            new[] { 1, 2, 3 },
            q => Assert.Contains($"name=\"{q}.1.8.left &lt;&gt; 0?\"", page, StringComparison.Ordinal)
        );
        Assert.Contains("Where a decision does not arise, leave its place empty.", page, StringComparison.Ordinal);

        static List<string> Cells(JsonNode table, string column)
        {
            var at = table["columns"]!.AsArray().Select(c => (string)c!).ToList().IndexOf(column);
            return [.. table["rows"]!.AsArray().Select(r => (string)r!["cells"]![at]!)];
        }
    }

    /// <summary>Rows to spare have places wherever a row may have some, also behind rows that are printed.</summary>
    [Fact]
    public void Rows_to_spare_have_places_behind_printed_ones()
    {
        var lesson = Lesson("```question\nfill walk 61 7\ngiven rows 6 7\ngiven columns D\nspare rows 2\n```\n");
        Done(Make(lesson, File("class.csv", "id\na1\n")));
        var number = ((string)Sheets()["a1"]["sheet"]!).Replace("-", "", StringComparison.Ordinal);
        var page = System.IO.File.ReadAllText(Name($"out/sheets/{number}.html"));
        Assert.DoesNotContain("name=\"1.1.7.R\"", page, StringComparison.Ordinal);
        Assert.All(["R", "Q", "why"], c => Assert.Contains($"name=\"1.1.9.{c}\"", page, StringComparison.Ordinal));
        Assert.Contains("""<th scope="row">9</th>""", page, StringComparison.Ordinal);
        // A register that never changes is printed there too: it would show where the others end.
        Assert.Equal(3 + 2 + 2 * 2 + 2 - 1, Regex.Count(page.Split("class=\"question\"")[1], "<td>000111</td>"));
        var list = System.IO.File.ReadAllLines(Name($"out/sheets/{number}.csv"));
        Assert.Contains("9,,000111,,,", list);
    }

    [Theory]
    [InlineData("say quotient walk 29 6\nspare rows 2", "question-line")]
    [InlineData("find walk 29 6 --slip shift-doubled-Q\ndecisions as digits", "question-line")]
    [InlineData("fill walk 29 6\nmarks 3\nmarks 4", "said-twice")]
    [InlineData("fill walk 29 6\nallow nothing", "question-line")]
    [InlineData("fill walk 29 6\nneighbours", "question-drawn")]
    [InlineData("say R@4 R@4 walk 29 6", "question-say")]
    [InlineData("say quotient walk 29 6\ngiven columns D", "question-line")]
    [InlineData("fill walk 29 6\ngiven rows 3 99", "question-idle")]
    [InlineData("fill walk 29 6\ngiven rows 1 2 3 4 5 6 7", "question-idle")]
    [InlineData("fill walk 29 6\ngiven row 2\nfrom 3", "question-idle")]
    [InlineData("fill walk 29 6\nfrom 1", "question-idle")]
    [InlineData("fill walk 29 6\nfrom 8", "question-idle")]
    [InlineData("fill walk 29 6\ngiven columns cycle", "question-idle")]
    [InlineData("fill walk 29 6\ngiven columns D\nconstant registers printed", "question-idle")]
    public void A_line_that_means_nothing_for_its_question_is_refused(string question, string id)
    {
        var refused = Make(Lesson($"```question\n{question}\n```\n"), File("class.csv", "id\na1\n"));
        Assert.Equal((2, ""), (refused.Status, refused.Output));
        Assert.Contains($" {id}\n", refused.Errors, StringComparison.Ordinal);
    }

    /// <summary>What is wrong with one sheet is wrong with those made beside it; it is said once.</summary>
    [Fact]
    public void What_cannot_be_asked_is_said_once()
    {
        var lesson = Lesson("```question\nfind walk drawn --slip results-early\n```\n");
        var refused = Make(lesson, File("class.csv", Students(0, 20)));
        Assert.Equal((2, ""), (refused.Status, refused.Output));
        Assert.Equal(1, Regex.Count(refused.Errors, "question-alike-rows"));
    }

    /// <summary>Wishes about columns that a list does not have, or of which it has more than one, are not passed over.</summary>
    [Theory]
    [InlineData("name: surname\n", "id,name\na1,Ada\n", "class-no-column")]
    [InlineData("form: print\n", "id,name\na1,Ada\n", "class-no-column")]
    [InlineData("", "id,form,print\na1,,large\n", "class-columns")]
    [InlineData("", "id,name,Name\na1,,Ada\n", "class-columns")]
    [InlineData("identifier: mail\n", "mail,mail\na1,a2\n", "class-columns")]
    [InlineData("shows: both\n", "id,form\na1,\n", "class-no-name")]
    [InlineData("form: print\n", "id,form,print\na1,10b,large\n", "")]
    public void A_column_that_is_asked_for_is_there_and_is_one(string header, string list, string id)
    {
        var made = Make(Lesson(header: header), File("class.csv", list));
        Assert.Equal(id.Length > 0 ? 2 : 0, made.Status);
        Assert.Contains(id.Length > 0 ? $" {id}\n" : "", made.Errors, StringComparison.Ordinal);
    }

    /// <summary>What a machine does in each cycle is not told above one question where another asks for it.</summary>
    [Theory]
    [InlineData("fill states", 0)]
    [InlineData("mend --slip guard-dropped-not-last", 0)]
    [InlineData("fill states divide-shared-register", 1)]
    public void A_rule_is_not_printed_where_it_is_asked_for(string asked, int rules)
    {
        Done(
            Make(
                Lesson($"```question\nfill walk 61 7\n```\n\n```question\n{asked}\n```\n"),
                File("class.csv", "id\na1\n")
            )
        );
        var number = ((string)Sheets()["a1"]["sheet"]!).Replace("-", "", StringComparison.Ordinal);
        var first = System.IO.File.ReadAllText(Name($"out/sheets/{number}.csv")).Split("Question 2")[0];
        Assert.Equal(rules, Regex.Count(first, "if not borrow: left <- difference"));
    }

    /// <summary>With the same operands for all, letters differ, and with another seed they are others.</summary>
    [Fact]
    public void The_letter_of_the_slip_comes_from_the_seed()
    {
        var lesson = File(
            "which.md",
            "---\nmachine: divide-still-divisor\nwidth: 4\n---\n\n# Which\n\n```question\nwhich walk 13 3 --slip shift-doubled-Q\n```\n"
        );
        Done(Make(lesson, File("class.csv", $"id\n{string.Concat(Enumerable.Range(0, 12).Select(i => $"s{i}\n"))}")));
        var letters = Letters();
        Assert.True(letters.Distinct().Count() > 1);
        Directory.Delete(Name("out"), recursive: true);
        Done(Make(lesson, Name("class.csv")));
        Assert.NotEqual(letters, Letters());

        List<string> Letters() =>
            [.. Sheets().Values.Select(s => (string)s["answers"]![0]!["fields"]![0]!["expected"]!)];
    }

    [Theory]
    [InlineData("fill states own.machine")]
    [InlineData("fill compare own.machine divide-shared-register 13 4")]
    [InlineData("choose own.machine --showing \"quotient = 2\"")]
    [InlineData("fill states", "machine: own.machine\n")]
    [InlineData("choose --showing \"quotient = 2\"", "machine: own.machine\n")]
    public void A_machine_that_changed_since_is_noticed_behind_every_question(string question, string header = "")
    {
        var text = Command.Run("show", "divide-still-divisor").Output;
        File("own.machine", text);
        var lesson = File("asked.md", $"---\n{header}width: 4\n---\n\n# Asked\n\n```question\n{question}\n```\n");
        Done(Make(lesson, File("class.csv", "id\na1\n")));
        File("own.machine", text + "law quotient * 1 = quotient\n");
        var refused = Make(lesson, Name("class.csv"), "--overwrite");
        Assert.Equal((2, ""), (refused.Status, refused.Output));
        Assert.Contains("has changed since the sheets in", refused.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void Another_folder_has_another_seed()
    {
        var lesson = Lesson();
        Done(Make(lesson, File("class.csv", "id\na1\nb2\nc3\n")));
        var before = Sheets();
        Directory.Delete(Name("out"), recursive: true);
        Done(Make(lesson, Name("class.csv")));
        Assert.NotEqual(
            before.Values.Select(s => (string)s["sheet"]!),
            Sheets().Values.Select(s => (string)s["sheet"]!)
        );
    }

    [Fact]
    public void A_lesson_that_changed_since_is_refused_unless_said_and_then_keeps_the_numbers()
    {
        Done(Make(Lesson(), File("class.csv", "id\na1\nb2\n")));
        var (before, files) = (Sheets(), Written());
        var lesson = Lesson(Questions.Replace("marks 6", "marks 8", StringComparison.Ordinal));
        var refused = Make(lesson, Name("class.csv"), "--overwrite");
        Assert.Equal((2, ""), (refused.Status, refused.Output));
        Assert.Contains("lesson.md has changed since the sheets in", refused.Errors, StringComparison.Ordinal);
        Assert.Equal(files, Written());
        Done(Make(lesson, Name("class.csv"), "--overwrite", "--changed"));
        Assert.Equal(
            before.Select(b => $"{b.Key} {b.Value["sheet"]}"),
            Sheets().Select(b => $"{b.Key} {b.Value["sheet"]}")
        );
    }

    [Fact]
    public void Sheets_of_somebody_who_left_are_named()
    {
        Done(Make(Lesson(), File("class.csv", "id\na1\nb2\n")));
        var left = (string)Sheets()["b2"]["sheet"]!;
        var made = Make(Lesson(), File("class.csv", "id\na1\n"), "--overwrite");
        Done(made);
        Assert.Contains(
            $"in no key now: 1 sheet in sheets ({left.Replace("-", "", StringComparison.Ordinal)}). Take it out",
            made.Output,
            StringComparison.Ordinal
        );
        Assert.Contains(
            Written(),
            f => f.Contains(left.Replace("-", "", StringComparison.Ordinal), StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Sheets_without_their_answers_are_not_joined_by_others()
    {
        Done(Make(Lesson(), File("class.csv", "id\na1\n")));
        System.IO.File.Delete(Name("out/keep/answers.json"));
        var files = Written();
        var refused = Make(Lesson(), Name("class.csv"), "--overwrite");
        Assert.Equal((2, ""), (refused.Status, refused.Output));
        Assert.Contains("sheets-unreadable", refused.Errors, StringComparison.Ordinal);
        Assert.Equal(files, Written());
    }

    [Fact]
    public void A_list_that_is_not_there_is_said_not_to_be()
    {
        var refused = Make(Lesson(), Name("nobody.csv"));
        Assert.Equal((2, ""), (refused.Status, refused.Output));
        Assert.Contains("no-such-file", refused.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void Answers_that_somebody_changed_are_not_guessed_at()
    {
        Done(Make(Lesson(), File("class.csv", "id\na1\n")));
        File("out/keep/answers.json", "{\"format\":1,\"seed\":\"00\"}");
        var refused = Make(Lesson(), Name("class.csv"), "--overwrite");
        Assert.Equal((2, ""), (refused.Status, refused.Output));
        Assert.Contains("sheets-unreadable", refused.Errors, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("\"identifier\": *\"a1\"", "\"identifier\": \"\\ud800\"")]
    [InlineData("\"question\": *2", "\"question\": 1")]
    [InlineData("\"dividend\": *\"[0-9]+\"", "\"dividend\": \"x\"")]
    public void Nor_are_those_that_say_what_cannot_be(string said, string instead)
    {
        Done(Make(Lesson(), File("class.csv", "id\na1\n")));
        var answers = System.IO.File.ReadAllText(Name("out/keep/answers.json"));
        var changed = Regex.Replace(answers, said, instead);
        Assert.NotEqual(answers, changed);
        File("out/keep/answers.json", changed);
        var refused = Make(Lesson(), Name("class.csv"), "--overwrite");
        Assert.Equal((2, ""), (refused.Status, refused.Output));
        Assert.Contains("sheets-unreadable", refused.Errors, StringComparison.Ordinal);
    }

    /// <summary>A list that would lose somebody, or call somebody what nobody sees, is refused where it is wrong.</summary>
    [Theory]
    [InlineData("id,name\na1,Ada\nb2,\"Bo\nc3,Cy\n", "line 3", "class-quote")]
    [InlineData("id,name\na1,Ada\nb2,Bo,Berg\n", "line 3", "class-more-cells")]
    [InlineData("id,name\na1,\"Ada\n\u202Ex\"\n", "line 2", "class-hidden")]
    public void A_list_that_is_not_whole_is_refused(string list, string line, string id)
    {
        var refused = Make(Lesson(), File("class.csv", list));
        Assert.Equal((2, ""), (refused.Status, refused.Output));
        Assert.Contains($"{line} of class.csv", refused.Errors, StringComparison.Ordinal);
        Assert.Contains($" {id}\n", refused.Errors, StringComparison.Ordinal);
    }

    /// <summary>What is no list at all is told from its beginning, not to its end.</summary>
    [Fact]
    public void Of_what_is_no_list_little_is_repeated()
    {
        var list = string.Join(';', Enumerable.Range(0, 500).Select(i => new string((char)('a' + i % 26), 1 + i)));
        var refused = Make(Lesson(), File("class.csv", $"{list}\n1\n"));
        Assert.Equal((2, ""), (refused.Status, refused.Output));
        Assert.Contains(" class-no-identifier\n", refused.Errors, StringComparison.Ordinal);
        Assert.InRange(refused.Errors.Length, 200, 1200);
    }

    /// <summary>Of a student only the identifier and the name are read, and only what the lesson says stands on a sheet.</summary>
    [Theory]
    [InlineData("", "")]
    [InlineData("shows: name\n", "=1+1 Ærlig")]
    [InlineData("shows: identifier\n", "q77x")]
    [InlineData("shows: both\n", "=1+1 Ærlig (q77x)")]
    public void A_sheet_shows_of_a_student_what_the_lesson_says(string header, string shown)
    {
        Done(Make(Lesson(header: header), File("class.csv", "name;id;mail\n=1+1 Ærlig;q77x;someone@there\n")));
        string[] known = ["Ærlig", "q77x", "someone"];
        var number = ((string)Sheets().Single().Value["sheet"]!).Replace("-", "", StringComparison.Ordinal);
        var texts = new[] { "pdf", "html", "xlsx", "csv" }
            .Select(e =>
                e == "html"
                    ? System.Net.WebUtility.HtmlDecode(System.IO.File.ReadAllText(Name($"out/sheets/{number}.html")))
                    : Everything(number, e)
            )
            .Append(Pdf($"sheets/{number}.pdf"))
            .Append(Pdf("sheets/sheets.pdf"))
            .ToList();
        Assert.All(
            known.Where(k => !shown.Contains(k, StringComparison.Ordinal)),
            k => Assert.DoesNotContain(k, string.Concat(texts), StringComparison.Ordinal)
        );
        Assert.Contains(Regex.Replace(shown, @"\s", ""), texts[^1], StringComparison.Ordinal);
        Assert.Contains(shown, texts[1], StringComparison.Ordinal);
        Assert.DoesNotContain(
            "someone",
            System.IO.File.ReadAllText(Name("out/keep/answers.json")),
            StringComparison.Ordinal
        );
        Assert.Contains("=1+1Ærlig", Pdf("keep/class-key.pdf"), StringComparison.Ordinal);
    }

    /// <summary>Each page says whose it is, in letters too, and key and sheet have the same pages.</summary>
    [Theory]
    [InlineData("paper: a4\n")]
    [InlineData("paper: letter\nsides: 2\n")]
    public void Every_page_carries_the_number_and_the_key_has_the_same_pages(string header)
    {
        Done(Command.Run("lesson", Lesson(header: header), "--copies", "3", "-o", Name("out")));
        Assert.Equal(Pages("sheets/sheets.pdf"), Pages("keep/marks-key.pdf"));
        var sheet = Sheets().Values.First();
        var number = (string)sheet["sheet"]!;
        var own = $"sheets/{number.Replace("-", "", StringComparison.Ordinal)}.pdf";
        Assert.Equal(Pages(own), Regex.Count(Pdf(own), number));
        if (header.Contains("sides", StringComparison.Ordinal))
        {
            Assert.Equal(0, (Pages("sheets/sheets.pdf") - Pages(own)) % 2);
        }

        int Pages(string file) =>
            Regex.Count(
                Encoding.Latin1.GetString(System.IO.File.ReadAllBytes(Name($"out/{file}"))),
                @"/Type\s*/Page\b"
            );
    }

    /// <summary>A second program, written from the handbook alone, works out every sheet again.</summary>
    [Theory]
    [InlineData("divide-still-divisor")]
    [InlineData("multiply-shared-register")]
    public void The_answers_of_drawn_sheets_are_what_another_program_computes(string machine) =>
        Recomputed(machine, width: 6, sheets: 16);

    [Fact]
    [Trait("Length", "long")]
    public void So_are_those_of_a_thousand_sheets() => Recomputed("divide-still-divisor", width: 9, sheets: 1000);

    private void Recomputed(string machine, int width, int sheets)
    {
        var lesson = File(
            "drawn.md",
            $"---\nmachine: {machine}\nwidth: {width}\n---\n\n# Drawn\n\n```question\nfill walk drawn\n```\n\n```question\nfill paper drawn\n```\n"
        );
        Done(Command.Run("lesson", lesson, "--copies", $"{sheets}", "-o", Name("out")));
        File("texts.json", new JsonObject { [machine] = Command.Run("show", machine).Output }.ToJsonString());
        var said = JsonNode.Parse(
            OutsideTwinTests.Python("sheets.py", Name("out/keep/answers.json"), Name("texts.json"))
        )!;
        Assert.Equal("[]", said["wrong"]!.ToJsonString());
        Assert.True((int)said["compared"]! >= sheets * (width + 3), said.ToJsonString());
        // Equal work, and nobody's numbers are another's.
        Assert.Equal(sheets, Sheets().Values.Select(s => $"{s["answers"]![0]!["operands"]}").Distinct().Count());
    }
}
