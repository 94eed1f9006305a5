using System.Diagnostics;
using System.Text.Json;
using System.Text.RegularExpressions;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>check --resume: what was killed goes on from its file, and nothing goes on from what is not its own.</summary>
public sealed partial class ResumeTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-resume-").FullName;

    public ResumeTests() => WorkFolder.Enter();

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private string Name(string file) => Path.Combine(folder, file);

    /// <summary>At so many operands, in plain words, it works for some seconds; the rest of it is done in the usual way, which is fast.</summary>
    [Fact]
    public void A_killed_check_gives_the_answer_of_one_that_was_not()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "not applicable: the start script");
        string[] asked =
        [
            "check",
            "divide-shared-register",
            "--width",
            "14",
            "--slip",
            "guard-never-last",
            "--format",
            "json",
        ];
        var start = new ProcessStartInfo(
            Path.Combine(WorkFolder.Repository, "reckoner"),
            [.. asked, "--written", "--resume", Name("check.json")]
        )
        {
            Environment = { ["RECKONER_VECTORS"] = "64" },
        };
        var (to, of) = (0L, 1L);
        using (var check = Child.Start(start))
        {
            // Looked at while it is exchanged: it must be whole each time.
            check.WaitFor(() =>
                File.Exists(Name("check.json")) && ((to, of) = Covered(File.ReadAllText(Name("check.json")))).to > 0
            );
        }
        Assert.InRange(to, 1, of - 1);
        var (status, output, errors) = Command.Run([.. asked, "--resume", Name("check.json")]);
        Assert.Equal((1, ""), (status, errors));
        Assert.Equal(Answer(Command.Run(asked).Output), Answer(output));
        Assert.Equal((of, of), Covered(File.ReadAllText(Name("check.json"))));

        // Once it is done, it is only read.
        Assert.Equal(Answer(output), Answer(Command.Run([.. asked, "--resume", Name("check.json")]).Output));
    }

    private static (long To, long Of) Covered(string text)
    {
        using var json = JsonDocument.Parse(text);
        return
            json.RootElement.GetProperty("covered").EnumerateArray().FirstOrDefault()
                is { ValueKind: JsonValueKind.Object } first
            ? (Number(first, "to"), Number(first, "of"))
            : (0, 1);

        static long Number(JsonElement width, string name) =>
            long.Parse(width.GetProperty("steps").GetProperty(name).GetString()!);
    }

    /// <summary>Without the time it took, and which engine did it.</summary>
    private static string Answer(string json) => TimeAndMethod().Replace(json, "");

    [GeneratedRegex(""" *"(seconds|method|gates)": .*\n""")]
    private static partial Regex TimeAndMethod();

    /// <summary>Cut off anywhere, or with any one of its characters changed, it is none.</summary>
    [Fact]
    public void Of_a_torn_or_changed_checkpoint_nothing_is_gone_on()
    {
        string[] asked = ["check", "divide-still-divisor", "--width", "3", "--resume", Name("check.json")];
        Assert.Equal(0, Command.Run(asked).Status);
        var whole = File.ReadAllText(Name("check.json"));
        for (var at = 0; at < whole.Length; at += 7)
        {
            Refused(whole[..at], at == 0 ? "file-unreadable" : "not-a-checkpoint");
            Refused(whole[..at] + (whole[at] == '1' ? '2' : '1') + whole[(at + 1)..], null);
        }
        Refused(whole.Replace("\n", "\r\n", StringComparison.Ordinal), "not-a-checkpoint");
        Refused("{\"format\":2}", "checkpoint-format");
        Refused(File.ReadAllText("halve.machine"), "not-a-checkpoint");
        File.WriteAllText(Name("check.json"), whole);
        Assert.Equal(0, Command.Run(asked).Status);

        void Refused(string text, string? id)
        {
            File.WriteAllText(Name("check.json"), text);
            var (status, output, errors) = Command.Run(asked);
            Assert.Equal((2, ""), (status, output));
            Assert.Matches(id ?? "not-a-checkpoint|checkpoint-format", errors);
            Assert.Equal(text, File.ReadAllText(Name("check.json")));
        }
    }

    /// <summary>What differs is named.</summary>
    [Theory]
    [InlineData("divide-shared-register --width 5..6", "machine")]
    [InlineData("./divide-still-divisor.machine --width 5..6", "description")]
    [InlineData("divide-still-divisor --width 5..6 --slip loop-longer-repeat", "slip")]
    [InlineData("divide-still-divisor --width 5..6 --part 1/2", "part")]
    [InlineData("divide-still-divisor --width 6..7", "width")]
    [InlineData("divide-still-divisor --width 5", "width")]
    public void Nothing_goes_on_from_another_check(string asked, string field)
    {
        var right = Command.Run("show", "divide-still-divisor").Output;
        File.WriteAllText(
            "divide-still-divisor.machine",
            right.Replace("title \"", "title \"My ", StringComparison.Ordinal)
        );
        string[] resume = ["--resume", Name("check.json")];
        Assert.Equal(0, Command.Run(["check", "divide-still-divisor", "--width", "5..6", .. resume]).Status);
        var whole = File.ReadAllText(Name("check.json"));
        var (status, output, errors) = Command.Run(["check", .. asked.Split(' '), .. resume]);
        Assert.Equal((2, ""), (status, output));
        Assert.Contains("checkpoint-differs", errors, StringComparison.Ordinal);
        Assert.Contains($"its {field} is", errors, StringComparison.Ordinal);
        Assert.Equal(whole, File.ReadAllText(Name("check.json")));
    }

    /// <summary>More widths than the first time are gone on with.</summary>
    [Fact]
    public void A_range_goes_on_where_it_ended()
    {
        string[] resume = ["--resume", Name("check.json"), "--format", "json"];
        Assert.Equal(0, Command.Run(["check", "divide-still-divisor", "--width", "4..5", .. resume]).Status);
        var on = Command.Run(["check", "divide-still-divisor", "--width", "4..7", .. resume]);
        var whole = Command.Run(["check", "divide-still-divisor", "--width", "4..7", "--format", "json"]);
        Assert.Equal(Answer(whole.Output), Answer(on.Output));
    }
}
