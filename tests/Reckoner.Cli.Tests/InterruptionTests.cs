using System.Diagnostics;
using System.Text.Json;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>Ctrl-C while a check runs: it ends with what was covered.</summary>
public class InterruptionTests
{
    /// <summary>Starting takes less processor time than that, so that the check has begun; and it takes much more.</summary>
    private static readonly TimeSpan WellBegun = TimeSpan.FromSeconds(2);

    private const int Interrupted = 130;

    [Fact]
    public void A_stopped_check_says_what_it_covered()
    {
        var (status, output, errors) = Stopped(
            "check",
            "divide-shared-register",
            "--width",
            "17",
            "--written",
            "--format",
            "json"
        );
        Assert.Equal((Interrupted, ""), (status, errors));
        using var json = JsonDocument.Parse(output);
        var check = json.RootElement;
        Assert.False(check.GetProperty("complete").GetBoolean());
        Assert.False(check.GetProperty("exhaustive").GetBoolean());
        var steps = check.GetProperty("steps");
        var to = long.Parse(steps.GetProperty("to").GetString()!);
        Assert.InRange(to, 1, long.Parse(steps.GetProperty("of").GetString()!) - 1);
        var cases = check.GetProperty("sections").EnumerateArray().Take(2);
        var lanes = (1L << 34) / long.Parse(steps.GetProperty("of").GetString()!);
        Assert.Equal(to * lanes, cases.Sum(s => long.Parse(s.GetProperty("cases").GetString()!)));
    }

    [Fact]
    public void A_stopped_sample_says_what_it_tried_and_which_widths_it_left_out()
    {
        var (status, output, errors) = Stopped(
            "check",
            "divide-shared-register",
            "--width",
            "63..64",
            "--sample",
            "100000000"
        );
        Assert.Equal((Interrupted, ""), (status, errors));
        Assert.Matches(
            """
            ^divide-shared-register at n = 63
            Division: quotient and remainder in one register
            Stopped after [0-9,]+ cases of a sample of 100,000,000 \(seed 1\)\.

               laws     [0-9,]+ cases, the laws hold in each
               outside  [0-9,]+ cases outside "given", what is stated holds in each
               follows  [0-9,]+ cases, each with the results of divide-still-divisor

            Not begun: n = 64\.
            $
            """,
            output
        );
    }

    [Fact]
    public void A_lesson_in_which_a_check_is_stopped_is_not_written()
    {
        WorkFolder.Enter();
        File.WriteAllText(
            "stopped.md",
            "---\ntitle: Stopped\n---\n\n```reckoner\ncheck divide-shared-register --width 17 --written\n```\n"
        );
        Assert.Equal(
            new Command(Interrupted, "", "Stopped; nothing was written.\n"),
            Stopped("lesson", "stopped.md", "-o", "stopped")
        );
        Assert.False(Path.Exists("stopped"));
    }

    /// <summary>Runs a command until it is well begun, then presses Ctrl-C. Plain words make it slow.</summary>
    private static Command Stopped(params string[] arguments)
    {
        WorkFolder.Enter();
        var start = new ProcessStartInfo(Path.Combine(WorkFolder.Repository, "reckoner"), arguments)
        {
            Environment = { ["RECKONER_VECTORS"] = "64" },
        };
        using var command = Child.Interruptible(start);
        command.Works(WellBegun);
        command.Interrupt();
        return Command.Of(command.End());
    }
}
