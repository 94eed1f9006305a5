using System.Text.Json.Nodes;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>
/// Sheets as they are set in public courses, written as lessons with operands and words of our own (examples/sheets). Of each
/// stands here what it asks for there: its columns, how many rows, what comes out; the numbers are worked out apart from Reckoner.
/// </summary>
public sealed class ExampleSheetTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-examples-").FullName;

    public ExampleSheetTests() => WorkFolder.Enter();

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private static string Examples => Path.Combine(WorkFolder.Repository, "examples/sheets");

    /// <summary>Of each question the heads of its table with the number of its rows, or the values of its fields.</summary>
    public static TheoryData<string, string[]> Published =>
        new()
        {
            // Every register in every step, operands in octal: 0o72 / 0o15 = 58 / 13 = 4 r 6; 1 + 3 * 7 rows.
            { "every-register", ["Step Round Quotient Divisor Remainder: 22; quotient = 4, remainder = 6"] },
            // A worked product, then two products and a quotient.
            {
                "three-tables",
                [
                    "cycle P M right[0]? why: 5; product = 66",
                    "cycle P M right[0]? why: 5; product = *",
                    "cycle R D borrow? why: 6; quotient = 3, remainder = 1",
                ]
            },
            // The table of -45 * 86 = -3870, a paragraph, the upper word: -3870 = 0xF0E2.
            {
                "booth-and-one-bit-more",
                ["cycle A Q before M Q[0]:before? why: 9; product = -3870", "product = -3870", "A@8 = 111110000"]
            },
            // C, A, Q, M, a count that runs down, remarks: 21 * 27 = 567, 6 * -3 = -18.
            {
                "carry-and-count",
                [
                    "Step C A Q M Count Q[0]? Remarks: 11; product = 567",
                    "Step A Q Q-1 M Count Q[0]:before? Remarks: 5; product = -18",
                ]
            },
            // Rows 1, 1.5, 2, 2.5.
            { "half-steps", ["Step C A Q M Q[0]? What is done: 9; product = *"] },
            // Signals beside registers: 14 * 13 = 182; what a narrow register gives.
            {
                "signals-by-hand",
                ["Step load A shift load C C A Q Q[0]? Operation: 9; product = 182", "product = 182", "slip = *"]
            },
            // Counts of clocks: 25 * 11 = 275.
            {
                "start-to-done",
                [
                    "state when next: 4, state when signals: 2",
                    "cycles = 4, product = 275",
                    "multiplicand = *, multiplier = *",
                    "cycles = 1",
                ]
            },
            // Lines "place, pair, action" instead of registers: 77 * -24 = -1848; a restoring divider beside one that does not restore.
            {
                "recoding-lines",
                ["Place Q[0]:before? What is done: 9; product = -1848", "result A B: 4, round register A B: 21"]
            },
            // One box of the flowchart filled in wrongly: the product tells which.
            { "which-bit-which-way", ["slip = *", "slip = *"] },
            // Drill pairs by one recoding and by the other: 19 * -13 = -247, -21 * -11 = 231, 14 * 14 = 196.
            {
                "two-recodings",
                [
                    "*: 7; product = -247",
                    "*: 4; product = -247",
                    "*: 7; product = 231",
                    "*: 4; product = 231",
                    "*: 7; product = 196",
                    "*: 4; product = 196",
                ]
            },
        };

    [Theory]
    [MemberData(nameof(Published))]
    public void A_published_sheet_is_written_as_a_lesson(string name, string[] asked)
    {
        var pack = Path.Combine(folder, name);
        var made = Command.Run("lesson", Path.Combine(Examples, $"{name}.md"), "--copies", "1", "-o", pack);
        Assert.Equal((0, ""), (made.Status, made.Errors));
        var answers = JsonNode.Parse(File.ReadAllText(Path.Combine(pack, "keep/answers.json")))!;
        var said = answers["sheets"]![0]!["answers"]!.AsArray().Select(Said).ToList();
        Assert.Equal(asked.Length, said.Count);
        Assert.All(asked.Zip(said), p => Assert.True(IsLike(p.First, p.Second), $"{p.Second}\nis not\n{p.First}"));
    }

    /// <summary>Three points for each of the rows that are to be filled in: 3 * 21 = 63.</summary>
    [Fact]
    public void Of_every_register_each_row_is_worth_three_points()
    {
        var pack = Path.Combine(folder, "points");
        var made = Command.Run("lesson", Path.Combine(Examples, "every-register.md"), "--copies", "1", "-o", pack);
        Assert.Equal((0, ""), (made.Status, made.Errors));
        var list = File.ReadAllText(Directory.EnumerateFiles(Path.Combine(pack, "sheets"), "*.csv").Single());
        Assert.Contains("Question 1 (63 marks)", list, StringComparison.Ordinal);
        Assert.Contains("Each row is worth 3 marks", list, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_example_is_tried()
    {
        var files = Directory
            .EnumerateFiles(Examples, "*.md")
            .Select(f => Path.GetFileNameWithoutExtension(f)!)
            .Where(n => n != "README")
            .Order(StringComparer.Ordinal);
        Assert.Equal(files, Published.Select(p => p.Data.Item1).Order(StringComparer.Ordinal));
    }

    private static string Said(JsonNode? answer)
    {
        var tables = answer!["tables"]!
            .AsArray()
            .Select(t =>
                $"{string.Join(' ', t!["columns"]!.AsArray().Select(c => (string)c!))}: {t["rows"]!.AsArray().Count}"
            );
        var fields = answer["fields"]!.AsArray().Select(f => $"{f!["name"]} = {f["expected"]}");
        return string.Join(
            "; ",
            new[] { string.Join(", ", tables), string.Join(", ", fields) }.Where(s => s.Length > 0)
        );
    }

    /// <summary>A star stands for whatever was drawn.</summary>
    private static bool IsLike(string expected, string said) =>
        System.Text.RegularExpressions.Regex.IsMatch(
            said,
            $"^{System.Text.RegularExpressions.Regex.Escape(expected).Replace("\\*", ".*", StringComparison.Ordinal)}$"
        );
}
