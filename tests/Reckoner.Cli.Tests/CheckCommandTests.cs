using System.Text.Json;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>check: budgets, parts and ranges of widths.</summary>
public class CheckCommandTests
{
    public CheckCommandTests() => WorkFolder.Enter();

    /// <summary>Among them those at which a count of steps in 64 bits would begin again from small numbers.</summary>
    [Theory]
    [InlineData(18)]
    [InlineData(31)]
    [InlineData(32)]
    [InlineData(37)]
    [InlineData(38)]
    [InlineData(39)]
    [InlineData(40)]
    [InlineData(64)]
    [InlineData(70)]
    [InlineData(128)]
    public void A_width_with_more_cases_than_the_budget_is_refused_with_their_number(int width)
    {
        var (status, output, errors) = Command.Run("check", "divide-still-divisor", "--width", $"{width}");
        Assert.Equal((2, ""), (status, output));
        Assert.Contains("too-many-cases", errors, StringComparison.Ordinal);
        var cases = $"{System.Numerics.BigInteger.One << (2 * width):N0}";
        Assert.Contains(cases, errors, StringComparison.Ordinal);
        Assert.Contains("--sample", errors, StringComparison.Ordinal);
    }

    /// <summary>A machine with a slip, and a file with a blank in its name: the proof that is offered is about these.</summary>
    [Theory]
    [InlineData(
        "divide-shared-register --width 20 --slip register-narrow-R",
        "divide-shared-register --slip register-narrow-R"
    )]
    [InlineData("\"my divider.machine\" --width 20", "\"my divider.machine\"")]
    public void The_proof_that_a_refusal_offers_is_of_what_was_asked_about(string asked, string offered)
    {
        File.WriteAllText("my divider.machine", Catalogue.MachineCatalogue.Find("divide-shared-register")!.Text);
        var check = Command.Line("check " + asked);
        var said = string.Join(' ', check.Errors.Split([' ', '\n'], StringSplitOptions.RemoveEmptyEntries));
        Assert.Contains($"reckoner prove {offered}, which may", said, StringComparison.Ordinal);
        var proof = Command.Line("prove " + offered);
        Assert.NotEqual(2, proof.Status);
        Assert.StartsWith("divide-shared-register", proof.Output, StringComparison.Ordinal);
    }

    /// <summary>A sample and chosen operands are refused together.</summary>
    [Fact]
    public void A_refusal_of_chosen_operands_does_not_offer_a_sample()
    {
        var check = Command.Run("check", "divide-shared-register", "--width", "24", "--only", "divisor >= 3");
        Assert.Contains("too-many-cases", check.Errors, StringComparison.Ordinal);
        Assert.DoesNotContain("--sample", check.Errors, StringComparison.Ordinal);
    }

    /// <summary>A range of widths that no number of 32 bits reaches the end of.</summary>
    [Theory]
    [InlineData("prove", "4")]
    [InlineData("check", "64")]
    public void Widths_without_an_end_to_speak_of_are_no_fault(string verb, string width)
    {
        var text = Catalogue.MachineCatalogue.Find("multiply-moving-multiplicand")!.Text;
        File.WriteAllText(
            "very-wide.machine",
            System.Text.RegularExpressions.Regex.Replace(text, @"in 2\.\.\d+", "in 2..100000000000")
        );
        var (status, _, errors) = Command.Run(verb, "very-wide.machine", "--width", width);
        Assert.Equal(verb == "prove" ? 0 : 2, status);
        Assert.DoesNotContain("Overflow", errors, StringComparison.Ordinal);
        Assert.Equal(verb == "check", errors.Contains("too-many-cases", StringComparison.Ordinal));
    }

    /// <summary>What was remarked upon is what a machine is likely to be wrong by: here, a carry that is lost.</summary>
    [Fact]
    public void What_is_remarked_about_a_machine_that_is_wrong_is_said()
    {
        File.WriteAllText(
            "lost-carry.machine",
            """
            machine lost-carry
            title "A sum of three"
            width n = 4 in 2..64
            operand a : n
            operand b : n
            register A : n loads a
            register B : n loads b
            register C : 1 loads 1
            step add
              let sum, carry = A + B + extend(C)
              A <- sum
              C <- carry
            result s = C:A
            law s = a + b + 1
            """
        );
        var (status, output, errors) = Command.Run("check", "lost-carry.machine");
        Assert.Equal(1, status);
        Assert.Contains("do NOT hold in 120 of 256 cases", output, StringComparison.Ordinal);
        Assert.Contains("carry-of-last", errors, StringComparison.Ordinal);
    }

    [Fact]
    public void Word_by_word_the_budget_is_smaller()
    {
        File.WriteAllText(
            "powers-wide.machine",
            File.ReadAllText("powers.machine").Replace("2..16", "2..64", StringComparison.Ordinal)
        );
        var (status, output, errors) = Command.Run("check", "powers-wide.machine", "--width", "30");
        Assert.Equal((2, ""), (status, output));
        Assert.Contains("1,073,741,824 cases at n = 30 would take", errors, StringComparison.Ordinal);
    }

    /// <summary>All of it, the widths that may be checked too; it says the first that may not.</summary>
    [Fact]
    public void A_range_that_ends_beyond_the_budget_is_refused()
    {
        var (status, output, errors) = Command.Run("check", "divide-still-divisor", "--width", "15..128");
        Assert.Equal((2, ""), (status, output));
        Assert.Contains("cases at n = 18 would take", errors, StringComparison.Ordinal);
        Assert.DoesNotContain("n = 17 ", errors, StringComparison.Ordinal);
    }

    [Fact]
    public void A_range_of_widths_is_one_document()
    {
        using var range = Json("check", "divide-still-divisor", "--width", "4..6", "--format", "json");
        var checks = range.RootElement.GetProperty("checks").EnumerateArray().ToList();
        Assert.Equal([4, 5, 6], checks.Select(c => c.GetProperty("width").GetProperty("n").GetInt32()));
        foreach (var check in checks)
        {
            var width = $"{check.GetProperty("width").GetProperty("n").GetInt32()}";
            using var one = Json("check", "divide-still-divisor", "--width", width, "--format", "json");
            Assert.Equal(Fields(one.RootElement), Fields(range.RootElement, check));
        }
    }

    /// <summary>Fields and values; seconds differ from run to run.</summary>
    private static List<string> Fields(params JsonElement[] elements) =>
        [
            .. elements
                .SelectMany(e => e.EnumerateObject())
                .Where(f => f.Name is not ("seconds" or "checks"))
                .DistinctBy(f => f.Name)
                .OrderBy(f => f.Name, StringComparer.Ordinal)
                .Select(f => $"{f.Name}: {JsonSerializer.Serialize(f.Value)}"),
        ];

    [Theory]
    [InlineData("divide-still-divisor", "8")]
    [InlineData("divide-still-divisor", "7..8")]
    [InlineData("divide-srt-radix-4-1994", "8")]
    [InlineData("divide-still-divisor --slip loop-longer-repeat", "8")]
    public void Parts_add_up_to_the_whole(string asked, string width)
    {
        var machine = asked.Split(' ');
        string[] files = [.. Enumerable.Range(1, 3).Select(k => $"{machine[^1]}-{width}-{k}.json")];
        for (var k = 1; k <= 3; k++)
        {
            string[] part = ["--part", $"{k}/3", "--format", "json", "-o", files[k - 1], "--overwrite"];
            Command.Run(["check", .. machine, "--width", width, .. part]);
        }
        using var sum = Json(["check", "--add-up", .. files.Reverse(), "--format", "json"]);
        using var whole = Json(["check", .. machine, "--width", width, "--format", "json"]);
        Assert.Equal(Counted(whole.RootElement), Counted(sum.RootElement));
        var said = Command.Run(["check", "--add-up", .. files]);
        Assert.Contains("Every operand was covered.", said.Output, StringComparison.Ordinal);
        var once = Command.Run(["check", .. machine, "--width", width]);
        Assert.Equal((once.Status, once.Output.Split('\n')[0]), (said.Status, said.Output.Split('\n')[0]));
        foreach (var part in files)
        {
            using var alone = JsonDocument.Parse(File.ReadAllText(part));
            Assert.DoesNotContain("\"exhaustive\": true", alone.RootElement.GetRawText(), StringComparison.Ordinal);
        }
    }

    /// <summary>One script does for every width: the sum is the whole, in whichever order its files stand.</summary>
    [Fact]
    public void Parts_may_be_more_than_there_is_work_for()
    {
        string[] asked = ["check", "divide-still-divisor", "--width", "5..7"];
        string[] files = [.. Enumerable.Range(1, 8).Select(k => $"small-{k}.json")];
        for (var k = 1; k <= 8; k++)
        {
            Assert.Equal(0, Command.Run([.. asked, "--part", $"{k}/8", "-o", files[k - 1], "--overwrite"]).Status);
        }
        using var whole = Json([.. asked, "--format", "json"]);
        for (var turn = 0; turn < 8; turn++)
        {
            using var sum = Json([
                "check",
                "--add-up",
                .. files.Skip(turn).Concat(files.Take(turn)).Reverse(),
                "--format",
                "json",
            ]);
            Assert.Equal(Counted(whole.RootElement), Counted(sum.RootElement));
        }
        var empty = Command.Run("check", "divide-still-divisor", "--width", "5", "--part", "1/8");
        Assert.Contains("No operands fall to this part", empty.Output, StringComparison.Ordinal);
        Assert.Equal("1\n1\n4\n", Command.Run([.. asked, "--most-parts"]).Output);
    }

    /// <summary>What a check and a sum of parts both say.</summary>
    private static List<string> Counted(JsonElement document)
    {
        var fields = new[]
        {
            "machine",
            "description",
            "slip",
            "width",
            "cases",
            "failures",
            "smallest",
            "exhaustive",
            "steps",
        };
        var checks = document.TryGetProperty("checks", out var range)
            ? [.. range.EnumerateArray()]
            : new[] { document };
        return
        [
            .. checks
                .Prepend(document)
                .SelectMany(c => c.EnumerateObject())
                .Where(f => fields.Contains(f.Name) || f.Name == "sections")
                .Select(f => $"{f.Name}: {JsonSerializer.Serialize(f.Value)}"),
        ];
    }

    private static JsonDocument Json(params string[] arguments)
    {
        var run = Command.Run(arguments);
        Assert.True(run.Status is 0 or 1, run.Errors);
        return JsonDocument.Parse(run.Output);
    }

    [Fact]
    public void A_tiny_part_is_not_called_0_percent()
    {
        var run = Command.Run("check", "divide-still-divisor", "--width", "17", "--part", "1/900000");
        Assert.Contains("\n0.000095 % of all operands were covered, as asked.\n", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Where_no_law_is_stated_none_is_said_to_hold()
    {
        File.WriteAllText("lawless.machine", Passing("lawless"));
        var run = Command.Run("check", "lawless.machine", "--width", "4");
        Assert.Contains("   laws  the description states none\n", run.Output, StringComparison.Ordinal);
    }

    /// <summary>At 12 bits the laws hold; at 10, where operands and results can be exhausted, the machine breaks them.</summary>
    [Fact]
    public void Laws_that_the_machine_breaks_at_the_width_searched_are_not_said_to_fix_the_results()
    {
        var laws = "law after <= before when n >= 11\nlaw after > before when n <= 10\n";
        File.WriteAllText("broken-at-10.machine", Passing("broken-at-10") + laws);
        var run = Command.Run("check", "broken-at-10.machine", "--width", "12");
        Assert.Contains("4096 cases, the laws hold in each", run.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("fix the results", run.Output, StringComparison.Ordinal);
    }

    private static string Passing(string name) =>
        $"""
            machine {name}

            width n = 4 in 2..16

            operand before : n

            register A : n loads before

            step keep
              hold

            result after = A

            """.ReplaceLineEndings("\n");

    [Fact]
    public void Less_than_no_failures_are_not_added_up()
    {
        Command.Run("check", "divide-still-divisor", "--width", "6", "--format", "json", "-o", "whole-6.json");
        var text = File.ReadAllText("whole-6.json");
        File.WriteAllText(
            "less-6.json",
            text.Replace("\"failures\": \"0\"", "\"failures\": \"-3\"", StringComparison.Ordinal)
        );
        var run = Command.Run("check", "--add-up", "less-6.json");
        Assert.Equal((2, ""), (run.Status, run.Output));
        Assert.Contains("not-a-result", run.Errors, StringComparison.Ordinal);
    }

    /// <summary>No text of another program, and none of ours with a stretch torn out, is taken for a result or for our fault.</summary>
    [Fact]
    public void Whatever_is_added_up_ends_in_one_diagnostic()
    {
        Command.Run(
            "check",
            "divide-still-divisor",
            "--width",
            "7",
            "--format",
            "json",
            "-o",
            "whole-7.json",
            "--overwrite"
        );
        var lines = File.ReadAllLines("whole-7.json");
        for (var line = 0; line < lines.Length; line++)
        {
            foreach (var other in Others(lines[line]))
            {
                File.WriteAllLines("torn.json", [.. lines[..line], other, .. lines[(line + 1)..]]);
                var run = Command.Run("check", "--add-up", "torn.json");
                Assert.True(run.Status is 0 or 1 or 2, $"{other}: {run.Status}, {run.Errors}");
                Assert.Equal(run.Status == 2, run.Output.Length == 0);
            }
        }

        static IEnumerable<string> Others(string line)
        {
            yield return "";
            if (line.Contains(':', StringComparison.Ordinal))
            {
                var name = line[..line.IndexOf(':', StringComparison.Ordinal)];
                var comma = line.EndsWith(',') ? "," : "";
                foreach (var value in new[] { "5", "-1", "1e99", "\"x\"", "[]", "{}", "null", "\"-3\"", "1.5" })
                {
                    yield return $"{name}: {value}{comma}";
                }
            }
        }
    }
}
