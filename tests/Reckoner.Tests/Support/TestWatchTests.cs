using System.Diagnostics;
using Xunit;

namespace Reckoner.Tests;

/// <summary>What ends tests that would not end.</summary>
public class TestWatchTests
{
    [Fact]
    public void A_test_that_does_not_end_is_named_and_others_are_not()
    {
        var said = new List<string>();
        var watch = new TestWatch(said.Add);
        watch.Begin("1", "hangs", isLong: false);
        watch.Begin("2", "has ended", isLong: false);
        watch.Begin("3", "takes long", isLong: true);
        watch.Finish("2");
        watch.Look(Later(TimeSpan.FromMinutes(14)));
        Assert.Empty(said);
        watch.Look(Later(TimeSpan.FromMinutes(16)));
        Assert.Equal(["no end after 15 min: hangs"], said);
        watch.Look(Later(TimeSpan.FromHours(7)));
        Assert.Equal("no end after 15 min: hangs\nno end after 360 min: takes long", said[^1]);
    }

    private static long Later(TimeSpan time) =>
        Stopwatch.GetTimestamp() + (long)(time.TotalSeconds * Stopwatch.Frequency);

    /// <summary>The shell waits for what it started, which holds the output open; both are ended.</summary>
    [Fact]
    public void A_program_that_does_not_end_is_killed_with_all_it_started_and_named()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "not applicable: sh");
        using var child = Child.Start(
            new ProcessStartInfo("sh", ["-c", "echo $$; echo wrong >&2; sleep 600 & wait"]),
            TimeSpan.FromSeconds(1)
        );
        var id = int.Parse(child.Line()!);
        var failure = Assert.ThrowsAny<Exception>(() => child.End());
        Assert.StartsWith("no end after 1 s: sh -c echo $$;", failure.Message, StringComparison.Ordinal);
        Assert.EndsWith("wrong\n", failure.Message, StringComparison.Ordinal);
        Assert.DoesNotContain(id, Process.GetProcesses().Select(p => p.Id));
    }

    /// <summary>As where ./test is started by a script in the background.</summary>
    [Fact]
    public void A_program_hears_an_interrupt_although_the_tests_ignore_it()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "not applicable: env --default-signal");
        using var deaf = Child.Start(new ProcessStartInfo("sh", ["-c", "trap '' INT; exec sh -c 'echo; sleep 2'"]));
        deaf.Line();
        deaf.Interrupt();
        Assert.Equal(0, deaf.End().Status);
        using var hears = Child.Interruptible(new ProcessStartInfo("sh", ["-c", "echo; exec sleep 600"]));
        hears.Line();
        hears.Interrupt();
        Assert.NotEqual(0, hears.End().Status);
    }
}
