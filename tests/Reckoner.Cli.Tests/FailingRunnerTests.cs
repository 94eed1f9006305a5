using System.Text.Json;
using Reckoner.Checking;
using Reckoner.Diagnostics;
using Reckoner.Questions;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>What runs a check fails in the middle of it, as a graphics processor may.</summary>
public sealed class FailingRunnerTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-failing-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private string At(string file) => Path.Combine(folder, file);

    /// <summary>Runs the first steps of what it is asked for, and then is gone.</summary>
    private sealed class Failing(long steps) : ICheckRunner
    {
        private readonly InterpretedRunner runner = new();

        public int Threads => 1;

        public Diagnostic? Refusal => null;

        public IPlaneEngine Engine(PlaneProgram program, long many) => runner.Engine(program, many);

        public async Task<CoveredSteps> Run(
            CheckProgram program,
            long from,
            long to,
            Action<long>? covered,
            CancellationToken stop
        ) =>
            await runner.Run(program, from, Math.Min(to, from + steps), covered, stop) with
            {
                Trouble = new(
                    Id.GraphicsTrouble,
                    null,
                    default,
                    [("processor", "one"), ("reason", new Term("graphics.gone"))]
                ),
            };
    }

    private static readonly string[] Check = ["check", "divide-shared-register", "--width", "8", "--on", "cpu"];

    [Fact]
    public void What_was_covered_is_told_with_one_sentence_and_is_not_all()
    {
        var failed = Command.Run(new Failing(2), [.. Check, "--format", "json"]);
        Assert.Equal(2, failed.Status);
        Assert.Contains("graphics-trouble", failed.Errors.Split('\n')[0]);
        Assert.Contains("one", failed.Errors);
        using var json = JsonDocument.Parse(failed.Output);
        Assert.False(json.RootElement.GetProperty("complete").GetBoolean());
        Assert.Equal("2", json.RootElement.GetProperty("steps").GetProperty("to").GetString());
    }

    /// <summary>The state that is kept is what was covered, and another run goes on from it to the same end.</summary>
    [Fact]
    public void It_is_gone_on_from()
    {
        string[] resumed = [.. Check, "--resume", At("c.json")];
        Assert.Equal(2, Command.Run(new Failing(2), resumed).Status);
        Assert.Contains("\"to\": \"2\"", File.ReadAllText(At("c.json")));
        var whole = Command.Run(Check);
        Assert.Equal(0, whole.Status);
        Assert.Equal(whole, Command.Run(resumed));
    }

    [Fact]
    public void A_lesson_in_which_it_fails_is_not_made_and_says_why()
    {
        File.WriteAllText(
            At("lesson.md"),
            """
            ---
            machine: divide-shared-register
            width: 8
            ---

            ```reckoner
            check
            ```

            """
        );
        string[] lesson = ["lesson", At("lesson.md"), "-o", At("pack")];
        var failed = Command.Run(new Failing(2), lesson);
        Assert.Equal((2, ""), (failed.Status, failed.Output));
        Assert.Contains("line 7 of lesson.md", failed.Errors);
        Assert.Contains("graphics-trouble", failed.Errors);
        Assert.False(Directory.Exists(At("pack")));
        Assert.Equal(0, Command.Run(lesson).Status);
    }
}
