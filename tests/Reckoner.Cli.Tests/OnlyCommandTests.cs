using System.Text.Json;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>check --only and --on, as they are typed.</summary>
public sealed class OnlyCommandTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-only-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private string At(string file) => Path.Combine(folder, file);

    private static string[] Check(params string[] more) =>
        ["check", "divide-shared-register", "--width", "9", "--slip", "guard-never-last", .. more];

    private string Part(string only, int k)
    {
        var file = At($"{only.Length}-{k}.json");
        var part = Command.Run(
            Check("--only", only, "--part", $"{k}/2", "--format", "json", "-o", file, "--overwrite")
        );
        Assert.Equal((1, ""), (part.Status, part.Errors));
        return file;
    }

    [Fact]
    public void Parts_of_one_formula_add_up_to_it()
    {
        var whole = Command.Run(Check("--only", "divisor>=100", "--format", "json"));
        var sum = Command.Run(
            "check",
            "--add-up",
            Part("divisor>=100", 1),
            Part("divisor>=100", 2),
            "--format",
            "json"
        );
        Assert.Equal((1, 1), (whole.Status, sum.Status));
        using var a = JsonDocument.Parse(whole.Output);
        using var b = JsonDocument.Parse(sum.Output);
        Assert.Equal("divisor >= 100", b.RootElement.GetProperty("only").GetString());
        foreach (
            var field in new[] { "description", "only", "width", "cases", "failures", "smallest", "sections", "steps" }
        )
        {
            Assert.Equal($"{a.RootElement.GetProperty(field)}", $"{b.RootElement.GetProperty(field)}");
        }
        Assert.Contains(
            "Every operand with divisor >= 100 was covered.",
            Command.Run("check", "--add-up", Part("divisor>=100", 1), Part("divisor>=100", 2)).Output
        );
    }

    [Fact]
    public void Parts_of_two_formulas_do_not()
    {
        var sum = Command.Run("check", "--add-up", Part("divisor>=100", 1), Part("divisor >= 101", 2));
        Assert.Equal(2, sum.Status);
        Assert.Contains("its only differs", sum.Errors);
    }

    [Fact]
    public void A_checkpoint_of_another_formula_is_not_gone_on_from()
    {
        var first = Command.Run(Check("--only", "divisor = 3", "--resume", At("c.json")));
        Assert.Equal((1, ""), (first.Status, first.Errors));
        var kept = File.ReadAllText(At("c.json"));
        Assert.Contains("\"only\": \"divisor = 3\"", kept);
        var other = Command.Run(Check("--only", "divisor = 5", "--resume", At("c.json")));
        Assert.Equal(2, other.Status);
        Assert.Contains("its only is not what is asked here", other.Errors);
        Assert.Equal(kept, File.ReadAllText(At("c.json")));
        Assert.Equal(first, Command.Run(Check("--only", "divisor=3", "--resume", At("c.json"))));
    }

    [Theory]
    [InlineData("--only quotient=3", "unknown-in-condition")]
    [InlineData("--only divisor=", "value-expected")]
    [InlineData("--only divisor", "truth-needed")]
    [InlineData("--only divisor=3 --sample 10", "options-clash")]
    [InlineData("--on gpu --sample 10", "options-clash")]
    [InlineData("--on gpx", "option-value")]
    public void What_cannot_be_asked_is_told(string words, string id)
    {
        var asked = Command.Run(["check", "divide-shared-register", "--width", "4", .. words.Split(' ')]);
        Assert.Equal((2, ""), (asked.Status, asked.Output));
        Assert.Contains(id, asked.Errors.Split('\n')[0]);
    }

    [Fact]
    public void Where_there_is_no_graphics_processor_one_that_is_asked_for_is_refused()
    {
        var asked = Command.Run("check", "divide-shared-register", "--width", "4", "--on", "gpu", "--format", "json");
        Assert.SkipWhen(asked.Status == 0, "not applicable: no graphics processor");
        Assert.Equal((2, ""), (asked.Status, asked.Output));
        Assert.Contains("no-graphics-processor", asked.Errors.Split('\n')[0]);
    }

    /// <summary>Whether there is one or not: nothing is judged word by word in its place.</summary>
    [Fact]
    public void A_claim_that_cannot_become_gates_is_refused_where_a_graphics_processor_is_asked_for()
    {
        File.WriteAllText(
            At("powers.machine"),
            """
            machine powers
            title "A number as it is"

            width n = 8 in 2..16

            operand word : n

            register A "the number" : n loads word

            step keep
              hold

            result same = A

            law 3^same = 3^word

            """
        );
        string[] check = ["check", At("powers.machine")];
        Assert.Equal(0, Command.Run([.. check, "--on", "cpu"]).Status);
        var asked = Command.Run([.. check, "--on", "gpu"]);
        Assert.Equal((2, ""), (asked.Status, asked.Output));
        Assert.Contains("graphics-needs-gates", asked.Errors.Split('\n')[0]);
    }

    [Fact]
    public void Most_parts_are_those_of_what_is_visited()
    {
        string[] asked = ["check", "divide-shared-register", "--width", "12", "--most-parts"];
        Assert.Equal("4096\n", Command.Run(asked).Output);
        Assert.Equal("8\n", Command.Run([.. asked, "--only", "divisor < 8"]).Output);
    }
}
