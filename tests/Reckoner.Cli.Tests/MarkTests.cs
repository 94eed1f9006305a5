using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Reckoner.Tests;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>What a class hands in, marked: in every form, with every kind of question, more than once, and in whatever mess.</summary>
public sealed partial class MarkTests(MarkTests.SheetsMade made) : IClassFixture<MarkTests.SheetsMade>, IDisposable
{
    /// <summary>The sheets of five students, made once.</summary>
    public sealed class SheetsMade : IDisposable
    {
        internal const string Lesson = """
            ---
            machine: divide-still-divisor
            width: 5
            ---

            # Division

            ```question
            fill walk drawn
            marks 6
            given columns D
            ```

            ```question
            say cycles R@2 quotient walk drawn
            marks 3
            ```

            ```question
            find walk drawn --slip guard-dropped-not-last
            marks 2
            ```

            ```question
            which walk drawn --slip guard-dropped-not-last
            marks 1
            ```

            ```question
            choose operands --showing "remainder = 2 and quotient = 3"
            marks 2
            ```

            ```question
            mend show --slip guard-dropped-not-last
            marks 2
            ```

            ```question
            fill states
            marks 2
            ```
            """;

        public string Folder { get; } = Directory.CreateTempSubdirectory("reckoner-mark-").FullName;

        public SheetsMade()
        {
            WorkFolder.Enter();
            File.WriteAllText(At("lesson.md"), Lesson);
            File.WriteAllText(At("class.csv"), "id;Name\ns001;Ada\ns002;Bo\ns003;Cem\ns004;Dora\ns005;Emil\n");
            var run = Command.Run("lesson", At("lesson.md"), "--class", At("class.csv"), "-o", At("out"));
            Assert.Equal((0, ""), (run.Status, run.Errors));
            Answers = JsonNode.Parse(File.ReadAllText(At("out/keep/answers.json")))!;
        }

        public JsonNode Answers { get; }

        public string At(string file) => Path.Combine(Folder, file);

        public void Dispose() => Directory.Delete(Folder, recursive: true);
    }

    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-handed-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private string At(string file) => Path.Combine(folder, file);

    private static readonly string[] Students = ["s001", "s002", "s003", "s004", "s005"];

    private JsonNode Sheet(string student) =>
        made.Answers["sheets"]!.AsArray().First(s => (string)s!["identifier"]! == student)!;

    private string Number(string student) =>
        ((string)Sheet(student)["sheet"]!).Replace("-", "", StringComparison.Ordinal);

    /// <summary>What belongs into each place of a sheet, in the order in which they stand there.</summary>
    private List<(string Place, string Text)> Right(string student)
    {
        var places = new List<(string, string)>();
        foreach (var answer in Sheet(student)["answers"]!.AsArray())
        {
            foreach (var row in answer!["tables"]!.AsArray().SelectMany(t => t!["rows"]!.AsArray().Select(r => (t, r))))
            {
                var columns = row.t!["columns"]!.AsArray().Select(c => (string)c!).ToList();
                var cells = row.r!["cells"]!.AsArray().Select(c => (string)c!).ToList();
                var open = row.r["open"]!.AsArray().Select(c => (string)c!).ToList();
                places.AddRange(
                    row.r["places"]!.AsArray().Select((p, i) => ((string)p!, cells[columns.IndexOf(open[i])]))
                );
            }
            places.AddRange(
                answer["fields"]!.AsArray().Select(f => ($"{answer["question"]}.{f!["name"]}", (string)f["expected"]!))
            );
        }
        return places;
    }

    /// <summary>Hands in a sheet in one of the forms, with some of its places filled in otherwise.</summary>
    private string HandIn(
        string student,
        string form,
        string? file = null,
        params (string Place, string Text)[] changed
    )
    {
        var places = Right(student)
            .Select(p =>
                (p.Place, Text: changed.Where(c => c.Place == p.Place).Select(c => c.Text).FirstOrDefault(p.Text))
            )
            .ToList();
        var path = At(file ?? $"{student}_file/sheet.{form.Split('-')[0]}");
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        var blank = made.At($"out/sheets/{Number(student)}");
        switch (form)
        {
            case "html":
                var written = new JsonObject
                {
                    ["sheet"] = (string)Sheet(student)["sheet"]!,
                    ["answers"] = new JsonObject(places.Select(p => KeyValuePair.Create(p.Place, (JsonNode?)p.Text))),
                };
                File.WriteAllText(
                    path,
                    File.ReadAllText(blank + ".html")
                        .Replace(">{}</script>", $">{written.ToJsonString()}</script>", StringComparison.Ordinal)
                );
                break;
            case "xlsx":
                Workbook(blank + ".xlsx", path, [.. places.Select(p => p.Text)]);
                break;
            case "ods":
                OpenDocument(path, Lines(student, places));
                break;
            default:
                var (separator, encoding) = form switch
                {
                    "csv" => (",", new UTF8Encoding(true)),
                    "csv-16" => ("\t", (Encoding)new UnicodeEncoding(false, true)),
                    "csv-1252" => (";", Encoding.Latin1),
                    "txt" => ("   ", Encoding.UTF8),
                    _ => throw new InvalidOperationException(form),
                };
                var lines = Lines(student, places)
                    .Select(l =>
                        form == "txt"
                            ? string.Join(separator, l.Select(c => c.Length == 0 && l.Count > 2 ? "?" : c))
                            : string.Join(
                                separator,
                                l.Select(c => $"\"{c.Replace("\"", "\"\"", StringComparison.Ordinal)}\"")
                            )
                    );
                File.WriteAllText(path, string.Join("\r\n", lines), encoding);
                break;
        }
        return path;
    }

    /// <summary>The lines of the list that was handed out, with what somebody writes into its empty cells.</summary>
    private List<List<string>> Lines(string student, List<(string Place, string Text)> places)
    {
        var lines = CsvReader
            .Read(File.ReadAllText(made.At($"out/sheets/{Number(student)}.csv")))
            .Select(l => l.ToList())
            .ToList();
        var (next, at) = (0, 0);
        foreach (var answer in Sheet(student)["answers"]!.AsArray())
        {
            foreach (var table in answer!["tables"]!.AsArray())
            {
                var columns = table!["columns"]!.AsArray().Select(c => (string)c!).ToList();
                at = lines.FindIndex(at, l => l.Take(2).SequenceEqual(columns.Take(2)));
                foreach (var row in table["rows"]!.AsArray())
                {
                    at++;
                    foreach (var open in row!["open"]!.AsArray())
                    {
                        lines[at][columns.IndexOf((string)open!)] = places[next++].Text;
                    }
                }
            }
            foreach (var field in answer["fields"]!.AsArray())
            {
                at = lines.FindIndex(at, l => l[0] == (string)field!["label"]!);
                lines[at][1] = places[next++].Text;
            }
        }
        Assert.Equal(places.Count, next);
        return lines;
    }

    private static void Workbook(string blank, string path, List<string> texts)
    {
        var next = 0;
        using var from = ZipFile.OpenRead(blank);
        using var to = ZipFile.Open(path, ZipArchiveMode.Create);
        foreach (var entry in from.Entries)
        {
            using var reader = new StreamReader(entry.Open());
            var text = Regex.Replace(
                reader.ReadToEnd(),
                "<c r=\"([A-Z]+[0-9]+)\" s=\"3\" ?/>",
                m =>
                    $"<c r=\"{m.Groups[1].Value}\" s=\"3\" t=\"inlineStr\"><is><t>{System.Security.SecurityElement.Escape(texts[next++])}</t></is></c>"
            );
            using var writer = new StreamWriter(to.CreateEntry(entry.FullName).Open());
            writer.Write(text);
        }
        Assert.Equal(texts.Count, next);
    }

    private static void OpenDocument(string path, List<List<string>> lines)
    {
        var rows = lines.Select(l =>
            $"<table:table-row>{string.Concat(l.Select(c => c.Length == 0 ? "<table:table-cell/>" : $"<table:table-cell office:value-type=\"string\"><text:p>{System.Security.SecurityElement.Escape(c)}</text:p></table:table-cell>"))}<table:table-cell table:number-columns-repeated=\"1000\"/></table:table-row>"
        );
        using var to = ZipFile.Open(path, ZipArchiveMode.Create);
        Put("mimetype", "application/vnd.oasis.opendocument.spreadsheet");
        Put("META-INF/manifest.xml", "<manifest:manifest xmlns:manifest=\"urn:m\"/>");
        Put(
            "content.xml",
            $"<office:document-content xmlns:office=\"urn:o\" xmlns:table=\"urn:t\" xmlns:text=\"urn:x\"><office:body><office:spreadsheet><table:table table:name=\"Blatt\">{string.Concat(rows)}<table:table-row table:number-rows-repeated=\"1048000\"><table:table-cell table:number-columns-repeated=\"1024\"/></table:table-row></table:table></office:spreadsheet></office:body></office:document-content>"
        );

        void Put(string name, string text)
        {
            using var writer = new StreamWriter(to.CreateEntry(name).Open());
            writer.Write(text);
        }
    }

    private Command Mark(params IEnumerable<string> more) =>
        Command.Run(["mark", folder, "--answers", made.At("out/keep/answers.json"), "-o", At("marks"), .. more]);

    /// <summary>Of each student the marks in all and of each question, as marks.csv has them.</summary>
    private Dictionary<string, string> Marks(string file = "marks/marks.csv") =>
        CsvReader
            .Read(File.ReadAllText(At(file)))
            .Skip(1)
            .ToDictionary(r => r[0], r => string.Join(' ', r.Skip(3).Take(9)).Trim());

    private string Page(string name) => File.ReadAllText(At($"marks/{name}"));

    private const string Full = "18 18 6 3 2 1 2 2 2";

    [Fact]
    public void Each_form_of_a_sheet_is_read_and_what_is_right_has_full_marks()
    {
        string[] forms = ["html", "xlsx", "ods", "csv", "csv-16"];
        foreach (var (student, form) in Students.Zip(forms))
        {
            HandIn(student, form);
        }
        var run = Mark();
        Assert.Equal((0, ""), (run.Status, run.Errors));
        Assert.All(Marks(), m => Assert.Equal((m.Key, Full), (m.Key, m.Value)));
        Assert.StartsWith(
            $"{At("marks")} holds the marks of 5 sheets, 5 of them complete:\n",
            run.Output,
            StringComparison.Ordinal
        );
        foreach (var file in Directory.EnumerateFiles(At("marks"), "*", SearchOption.AllDirectories))
        {
            if (Path.GetExtension(file) is var ending and not ".csv")
            {
                WellFormed.Read(ending[1..], File.ReadAllBytes(file));
            }
        }
    }

    [Fact]
    public void Of_pasted_text_and_of_an_archive_too()
    {
        HandIn("s001", "txt");
        HandIn("s002", "csv-1252");
        ZipFile.CreateFromDirectory(folder, At("../" + Path.GetFileName(folder) + ".zip"));
        var archive = folder + ".zip";
        try
        {
            var run = Command.Run("mark", archive, "--answers", made.At("out/keep/answers.json"), "--format", "csv");
            Assert.Equal("", run.Errors);
            var rows = CsvReader
                .Read(run.Output)
                .Skip(1)
                .ToDictionary(r => r[0], r => string.Join(' ', r.Skip(3).Take(9)));
            Assert.Equal((Full, Full), (rows["s001"], rows["s002"]));
        }
        finally
        {
            File.Delete(archive);
        }
    }

    /// <summary>One wrong bit that is worked on with costs one row; O, l, blanks and missing zeros cost nothing and are told.</summary>
    [Fact]
    public void A_slip_costs_once_and_whatever_can_be_read_is()
    {
        var rows = Right("s001").Where(p => p.Place.StartsWith("1.1.", StringComparison.Ordinal)).ToList();
        var last = rows.Last(p => p.Place.EndsWith(".Q", StringComparison.Ordinal));
        var flipped = last.Text[..^1] + (last.Text[^1] == '0' ? '1' : '0');
        HandIn("s001", "html", null, (last.Place, flipped));
        HandIn(
            "s002",
            "xlsx",
            null,
            [
                .. Right("s002")
                    .Where(p => p.Place.StartsWith("1.1.", StringComparison.Ordinal))
                    .Select(p => (p.Place, p.Text.Replace('0', 'O'))),
            ]
        );
        HandIn(
            "s003",
            "csv",
            null,
            [
                .. Right("s003")
                    .Where(p => p.Place.StartsWith("1.1.", StringComparison.Ordinal))
                    .Select(p =>
                        (
                            p.Place,
                            p.Text.Replace(" ", "", StringComparison.Ordinal).TrimStart('0') is { Length: > 0 } digits
                                ? digits
                                : "0"
                        )
                    ),
            ]
        );
        HandIn("s004", "html", null, (last.Place, "siehe oben"));
        Assert.Equal(1, Mark().Status);
        var marks = Marks();
        Assert.Equal("17 18 5 3 2 1 2 2 2", marks["s001"]);
        Assert.Equal((Full, Full), (marks["s002"], marks["s003"]));
        // Nothing is guessed: the question waits, and so does the sum.
        Assert.Equal("18  3 2 1 2 2 2", marks["s004"]);
        Assert.Contains("siehe oben", Page("teacher.html"), StringComparison.Ordinal);
        Assert.Contains(
            "O and l were read as digits.",
            Page($"feedback/{Number("s002")}.html"),
            StringComparison.Ordinal
        );
        var feedback = Page($"feedback/{Number("s001")}.html");
        Assert.Equal(1, Regex.Count(feedback, "here it first went wrong"));
        Assert.Equal("", marks["s005"]);
        // The class may see its page.
        Assert.All(
            Students.Concat(["Ada", "Bo", "Cem", "Dora", "Emil", .. Students.Select(Number)]),
            n => Assert.DoesNotContain(n, Page("class.html"), StringComparison.Ordinal)
        );
    }

    /// <summary>Whatever is right counts: other operands that show the same, another register of the row, a line written otherwise.</summary>
    [Fact]
    public void Any_right_answer_counts()
    {
        var operands = Right("s001")
            .Where(p => p.Place.StartsWith("5.", StringComparison.Ordinal))
            .Select(p => p.Text)
            .ToList();
        // 3 * 3 + 2, 4 * 3 + 2: of the operands that show it there are two.
        var other = operands[1] == "3" ? ("14", "4") : ("11", "3");
        var line = Right("s001").First(p => p.Place == "6.text").Text;
        HandIn(
            "s001",
            "html",
            null,
            ("5.dividend", other.Item1),
            ("5.divisor", $"0b{Convert.ToString(int.Parse(other.Item2, CultureInfo.InvariantCulture), 2)}"),
            ("6.text", line.Replace(" ", "  ", StringComparison.Ordinal)),
            (
                "2.quotient",
                "0b"
                    + Convert.ToString(
                        int.Parse(Right("s001").First(p => p.Place == "2.quotient").Text, CultureInfo.InvariantCulture),
                        2
                    )
            ),
            ("4.slip", Right("s001").First(p => p.Place == "4.slip").Text.ToUpperInvariant() + ")")
        );
        HandIn(
            "s002",
            "html",
            null,
            ("5.dividend", "1"),
            ("6.text", "if last"),
            ("2.cycles", "7"),
            ("3.row", "1"),
            ("4.slip", "z")
        );
        HandIn("s003", "html", null, ("6.text", "if not last or last"));
        Mark();
        var marks = Marks();
        Assert.Equal(Full, marks["s001"]);
        Assert.Equal("12 18 6 2 1 0 0 1 2", marks["s002"]);
        Assert.Equal("17 18 6 3 2 1 2 1 2", marks["s003"]);
    }

    [Fact]
    public void What_is_set_by_hand_stays_and_what_changed_is_told()
    {
        HandIn("s001", "html");
        HandIn("s002", "html", null, ("2.cycles", "9"));
        HandIn("s003", "html", null, ("1.quotient", "many"));
        Assert.Equal(1, Mark().Status);
        Assert.Equal("id,column,from,to,why\r\n", File.ReadAllText(At("marks/changed.csv")));
        var text = File.ReadAllText(At("marks/marks.csv"));
        var lines = text.Split("\r\n").Select(l => l.Split(',')).ToList();
        // As a spreadsheet of another country saves it.
        lines.First(l => l[0] == "s002")[6] = "2,5";
        lines.First(l => l[0] == "s003")[5] = "4";
        File.WriteAllText(
            At("marks/marks.csv"),
            string.Join("\n", lines.Select(l => string.Join(';', l))),
            Encoding.Latin1
        );
        Assert.Equal(0, Mark().Status);
        var marks = Marks();
        Assert.Equal(("17.5 18 6 2.5 2 1 2 2 2", "16 18 4 3 2 1 2 2 2"), (marks["s002"], marks["s003"]));
        // Half a mark is a number in the workbook, and an identifier is none.
        using (var workbook = ZipFile.OpenRead(At("marks/marks.xlsx")))
        {
            using var sheet = new StreamReader(workbook.GetEntry("xl/worksheets/sheet1.xml")!.Open());
            var cells = sheet.ReadToEnd();
            Assert.Matches("<v>17\\.5</v>", cells);
            Assert.DoesNotMatch("<v>s?00[1-5]</v>", cells);
        }
        var changed = File.ReadAllText(At("marks/changed.csv"));
        Assert.Equal(
            "id,column,from,to,why\r\ns002,marks,17,17.5,marked anew\r\ns002,2,2,2.5,set by hand\r\ns003,marks,,16,marked anew\r\ns003,1,,4,set by hand\r\n",
            changed
        );
        // A question is withdrawn: all are marked anew, and what was set by hand is kept.
        Assert.Equal(0, Mark("--withdrawn", "4").Status);
        marks = Marks();
        Assert.Equal("16.5 17 6 2.5 2 2 2 2", marks["s002"][.."16.5 17 6 2.5 2 2 2 2".Length]);
        Assert.Contains(
            "s001,marks,18,17,\"another scheme, or other questions count\"",
            File.ReadAllText(At("marks/changed.csv")),
            StringComparison.Ordinal
        );
        // What is no mark is refused before anything is written.
        File.WriteAllText(
            At("marks/marks.csv"),
            File.ReadAllText(At("marks/marks.csv")).Replace("16.5", "good", StringComparison.Ordinal)
        );
        var refused = Mark();
        Assert.Equal(2, refused.Status);
        Assert.Contains(
            "line 3: column marks holds no mark.",
            Regex.Replace(refused.Errors, @"\s+", " "),
            StringComparison.Ordinal
        );
        Assert.DoesNotContain("good", refused.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void Sheets_that_come_twice_or_by_others_are_told()
    {
        var early = HandIn("s001", "html", "first/a.html", ("2.cycles", "9"));
        HandIn("s001", "html", "second/b.html");
        File.SetLastWriteTimeUtc(early, DateTime.UtcNow.AddHours(-2));
        var one = HandIn("s002", "html", "x/a.html", ("2.cycles", "9"));
        var other = HandIn("s002", "html", "x/b.html", ("2.cycles", "8"));
        File.SetLastWriteTimeUtc(one, DateTime.UnixEpoch);
        File.SetLastWriteTimeUtc(other, DateTime.UnixEpoch);
        HandIn("s003", "html", "s004_file/a.html");
        // The rows of the first sheet on the fourth.
        HandIn(
            "s004",
            "html",
            null,
            [.. Right("s001").Where(p => p.Place.StartsWith("1.1.", StringComparison.Ordinal))]
        );
        File.Copy(made.At($"out/sheets/{Number("s005")}.xlsx"), At("blank.xlsx"));
        Assert.Equal(1, Mark().Status);
        var marks = Marks();
        Assert.Equal(Full, marks["s001"]);
        Assert.Equal("18", marks["s002"].Split(' ')[0]);
        Assert.Equal(Full, marks["s003"]);
        Assert.StartsWith("0 18", marks["s005"], StringComparison.Ordinal);
        var look = Page("teacher.html");
        Assert.Contains(
            "Handed in 2 times, differently; the newest counts: second/b.html.",
            look,
            StringComparison.Ordinal
        );
        Assert.Contains("Handed in 2 times, differently, at the same time", look, StringComparison.Ordinal);
        Assert.Contains("It lies where s004 handed in.", look, StringComparison.Ordinal);
        Assert.Contains("Nothing was filled in.", look, StringComparison.Ordinal);
        Assert.Contains(
            "Question 1, the rows of the operands of another sheet: s004, Dora; s001, Ada.",
            look,
            StringComparison.Ordinal
        );
    }

    /// <summary>Tables that were made without sheets, one in each file.</summary>
    [Fact]
    public void Tables_without_sheets_are_marked_by_a_machine_and_operands()
    {
        File.WriteAllText(
            At("ada.csv"),
            "cycle,R,D,Q\nload,00001011,0011,0000\n1,00010110,0011,0000\n2,00101100,0011,0000\n3,01011000,0011,0000\n4,01010000,0011,0001\n5,00100000,0011,0011\n"
        );
        File.WriteAllText(
            At("bo.txt"),
            "R         D     Q\n00001011  0011  0000\n00010110  0011  0000\n00101110  0011  0000\n01011100  0011  0000\n01011000  0011  0001\n00101000  0011  0011\n"
        );
        File.Copy(At("bo.txt"), At("dora.txt"));
        File.WriteAllText(At("cem.png"), "\u0089PNG");
        var run = Command.Run("mark", folder, "divide-still-divisor", "11", "3", "--width", "4", "--format", "csv");
        Assert.Equal((1, ""), (run.Status, run.Errors));
        var rows = CsvReader.Read(run.Output).Skip(1).ToDictionary(r => r[0], r => r);
        Assert.Equal(["5", "5", "5"], rows["ada"].Skip(1).Take(3));
        Assert.Equal(["4", "5", "4"], rows["bo"].Skip(1).Take(3));
        Assert.Equal(
            1,
            Command.Run("mark", folder, "divide-still-divisor", "11", "3", "--width", "4", "-o", At("marks")).Status
        );
        Assert.Contains("cem.png", Page("teacher.html"), StringComparison.Ordinal);
        Assert.Contains(
            "Question 1, the same rows, and not the right ones: bo; dora.",
            Page("teacher.html"),
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("nowhere --answers A", "There is no file nowhere.")]
    [InlineData(". --answers nothing.json", "There is no file nothing.json.")]
    [InlineData(
        ". --answers ./half.machine",
        "./half.machine is not what was written there when the sheets were made or marked."
    )]
    [InlineData(". --answers A --withdrawn 9", "There is no question 9.")]
    [InlineData(". --answers A --scheme fair", "--scheme cannot be fair.")]
    [InlineData(". divide-still-divisor 29", "divide-still-divisor takes 2 operands (dividend, divisor); 1 was given.")]
    [InlineData(". --answers A --width 4", "--answers and --width do not go together.")]
    [InlineData(". divide-still-divisor 29 6 --withdrawn 1", "--withdrawn")]
    [InlineData(".", "mark needs what was handed in, and by what it is judged.")]
    [InlineData(". divide-still-divisor 29 6 --answers A", "mark needs what was handed in, and by what it is judged.")]
    public void What_is_wrong_with_a_request_is_said_in_a_sentence(string words, string said)
    {
        File.WriteAllText(At("half.machine"), "{");
        var line = words
            .Replace("--answers A", $"--answers {made.At("out/keep/answers.json")}", StringComparison.Ordinal)
            .Replace("./half.machine", At("half.machine"), StringComparison.Ordinal);
        var run = Command.Run(["mark", .. line.Split(' ')]);
        Assert.Equal(2, run.Status);
        Assert.Contains(
            said.Replace("./half.machine", At("half.machine"), StringComparison.Ordinal),
            Regex.Replace(run.Errors, @"\s+", " "),
            StringComparison.Ordinal
        );
    }
}
