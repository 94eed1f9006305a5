using System.Text.Json.Nodes;
using Reckoner.Tests;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>Nobody gets less than is deserved for how a file looks, and nothing is guessed.</summary>
public sealed partial class MarkTests
{
    /// <summary>Hands in the list of a student with its lines changed.</summary>
    private void HandInLines(
        string student,
        Action<List<List<string>>> change,
        params (string Place, string Text)[] changed
    )
    {
        var places = Right(student)
            .Select(p =>
                (p.Place, Text: changed.Where(c => c.Place == p.Place).Select(c => c.Text).FirstOrDefault(p.Text))
            )
            .ToList();
        var lines = Lines(student, places);
        change(lines);
        var path = At($"{student}_file/sheet.csv");
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        File.WriteAllText(
            path,
            string.Join(
                "\r\n",
                lines.Select(l =>
                    string.Join(',', l.Select(c => $"\"{c.Replace("\"", "\"\"", StringComparison.Ordinal)}\""))
                )
            )
        );
    }

    private void Put(string file, string text)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(At(file))!);
        File.WriteAllText(At(file), text);
    }

    private string Remarks(string student) =>
        CsvReader.Read(File.ReadAllText(At("marks/marks.csv"))).First(r => r[0] == student)[^1];

    /// <summary>A sheet of last week, a scan and what a learning platform writes beside are no empty sheets.</summary>
    [Fact]
    public void What_is_not_read_is_told_where_its_owner_stands()
    {
        HandInLines("s001", lines => lines.Find(l => l.Contains((string)Sheet("s001")["sheet"]!))![0] = "000-000");
        Put("s002_file/scan.pdf", "%PDF-1.4\n");
        Put("s003_file/onlinetext.html", "<p>see the file beside</p>");
        HandIn("s004", "html");
        Put("s004_file/readme.txt", "here it is");
        Assert.Equal(1, Mark().Status);
        var marks = Marks();
        Assert.Equal(
            ("", "", "", Full, ""),
            (marks["s001"], marks["s002"], marks["s003"], marks["s004"], marks["s005"])
        );
        Assert.Equal(
            [
                "Handed in, and not marked: s001_file/sheet.csv. Sheet 000-000 is none of these answers.",
                "Handed in, and not marked: s002_file/scan.pdf. A PDF: it was filled in on paper, or printed. A person marks it.",
                "Handed in, and not marked: s003_file/onlinetext.html. No table was found in it.",
                "",
                "Nothing was handed in.",
            ],
            Students.Select(Remarks)
        );
        Assert.Contains("<p>s005, Emil</p>", Page("teacher.html"), StringComparison.Ordinal);
        Assert.Contains("<td>s002, Bo</td>", Page("teacher.html"), StringComparison.Ordinal);
    }

    [Fact]
    public void Lines_between_rows_shift_nothing_and_what_is_not_found_is_no_zero()
    {
        // A note between rows, and rows in another order.
        HandInLines(
            "s001",
            lines =>
            {
                var head = Head(lines);
                (lines[head + 3], lines[head + 4]) = (lines[head + 4], lines[head + 3]);
                lines.Insert(head + 3, ["carry here"]);
            }
        );
        // Half steps: nobody can say which of them was meant.
        HandInLines(
            "s002",
            lines =>
            {
                var row = lines[Head(lines) + 3];
                lines.Insert(Head(lines) + 3, [row[0] + ".1", .. row.Skip(1)]);
            }
        );
        HandInLines("s003", lines => lines[Head(lines)][1] = "Rest");
        HandInLines(
            "s004",
            lines => lines.Find(l => l[0].StartsWith("Question 2", StringComparison.Ordinal))![0] = "Two"
        );
        // Both results in one line.
        HandInLines(
            "s005",
            lines =>
            {
                var first = lines.FindIndex(l => l[0] == "quotient");
                lines[first] = [$"quotient = {lines[first][1]}", $"remainder = {lines[first + 1][1]}"];
                lines.RemoveAt(first + 1);
            }
        );
        Assert.Equal(1, Mark().Status);
        var marks = Marks();
        Assert.Equal((Full, Full), (marks["s001"], marks["s005"]));
        Assert.Equal(("18  3 2 1 2 2 2", "18  3 2 1 2 2 2"), (marks["s002"], marks["s003"]));
        Assert.Equal("18 6  2 1 2 2 2", marks["s004"]);
        Assert.Contains("2.1", Remarks("s002"), StringComparison.Ordinal);
        Assert.Contains("Its heading, a head of its table", Remarks("s003"), StringComparison.Ordinal);

        static int Head(List<List<string>> lines) => lines.FindIndex(l => l.Count > 1 && l[1] == "R");
    }

    /// <summary>"101" is five where bits are meant.</summary>
    [Fact]
    public void Bits_may_be_short_wherever_a_number_is_asked_for()
    {
        foreach (var student in Students)
        {
            HandIn(
                student,
                "html",
                null,
                [
                    .. Right(student)
                        .Where(p =>
                            p.Place is "1.quotient" or "1.remainder" or "2.quotient" or "5.dividend" or "5.divisor"
                        )
                        .Select(p =>
                            (
                                p.Place,
                                Convert.ToString(
                                    int.Parse(p.Text, System.Globalization.CultureInfo.InvariantCulture),
                                    2
                                )
                            )
                        ),
                ]
            );
        }
        Assert.Equal(0, Mark().Status);
        Assert.All(Marks(), m => Assert.Equal((m.Key, Full), (m.Key, m.Value)));
    }

    /// <summary>Heads of versions name the machine on a list, and operands that all have alike accuse nobody.</summary>
    [Fact]
    public void Tables_of_several_machines_are_found_and_right_rows_are_nobody_elses()
    {
        const string lesson = """
            ---
            machine: divide-still-divisor
            width: 4
            ---

            # Both

            ```question
            fill walk 13 4
            marks 4
            ```

            ```question
            fill compare divide-still-divisor divide-shared-register 13 4
            marks 4
            ```
            """;
        Put("lesson.md", lesson);
        Put("class.csv", "id;Name\nt001;Ada\nt002;Bo\nt003;Cem\n");
        var made = Command.Run("lesson", At("lesson.md"), "--class", At("class.csv"), "-o", At("out"));
        Assert.Equal((0, ""), (made.Status, made.Errors));
        var answers = JsonNode.Parse(File.ReadAllText(At("out/keep/answers.json")))!;
        foreach (var sheet in answers["sheets"]!.AsArray())
        {
            var number = ((string)sheet!["sheet"]!).Replace("-", "", StringComparison.Ordinal);
            var text = File.ReadAllText(At($"out/sheets/{number}.csv"));
            var lines = CsvReader.Read(text).Select(l => l.ToList()).ToList();
            foreach (var answer in sheet["answers"]!.AsArray())
            {
                var at = lines.FindIndex(l =>
                    l[0].StartsWith($"Question {answer!["question"]}", StringComparison.Ordinal)
                );
                foreach (var table in answer!["tables"]!.AsArray())
                {
                    var columns = table!["columns"]!.AsArray().Select(c => (string)c!).ToList();
                    at = lines.FindIndex(at, l => l.Count(c => c.Length > 0) > 1 && l[0] == columns[0]);
                    foreach (var row in table["rows"]!.AsArray())
                    {
                        at++;
                        foreach (var open in row!["open"]!.AsArray().Select(o => columns.IndexOf((string)o!)))
                        {
                            lines[at][open] = (string)row["cells"]![open]!;
                        }
                    }
                }
                foreach (var field in answer["fields"]!.AsArray())
                {
                    at = lines.FindIndex(at, l => l[0] == (string)field!["label"]!);
                    lines[at][1] =
                        (string)sheet["identifier"]! == "t002" && (string)field!["name"]! == "quotient"
                            ? "7"
                            : (string)field!["expected"]!;
                }
            }
            Put($"in/{number}.csv", string.Join("\n", lines.Select(l => string.Join(',', l.Select(c => $"\"{c}\"")))));
        }
        var run = Command.Run("mark", At("in"), "--answers", At("out/keep/answers.json"), "-o", At("marks"));
        Assert.Equal("", run.Errors);
        var marks = Marks();
        Assert.StartsWith("8 8 4 4", marks["t001"], StringComparison.Ordinal);
        Assert.StartsWith("7 8 3 4", marks["t002"], StringComparison.Ordinal);
        Assert.DoesNotContain("another sheet:", Page("teacher.html"), StringComparison.Ordinal);
    }
}
