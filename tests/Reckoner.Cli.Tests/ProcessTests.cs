using System.Diagnostics;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>The command as it is started from a shell, in another folder than its own.</summary>
public class ProcessTests
{
    private static Command Start(params string[] arguments)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "not applicable: bash");
        WorkFolder.Enter();
        return Command.Of(Child.Run(Path.Combine(WorkFolder.Repository, "reckoner"), arguments));
    }

    [Theory]
    [InlineData("walk", "halve.machine", "5", "3")]
    [InlineData("walk", "multiply-booth", "-7", "3", "--format", "json")]
    [InlineData("walk", "doubled.machine", "3")]
    [InlineData("walk", "divide-still-divisor", "29", "0")]
    [InlineData("show", "three-mistakes.machine")]
    [InlineData("walk", "", "29", "6")]
    [InlineData("walk", "--help")]
    public void A_process_gives_what_the_session_gives(params string[] arguments) =>
        Assert.Equal(Command.Run(arguments), Start(arguments));

    [Fact]
    public void Whoever_stops_reading_stops_the_command_without_a_complaint()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "not applicable: bash");
        WorkFolder.Enter();
        var line =
            $"set -o pipefail; '{WorkFolder.Repository}/reckoner' walk multiply-early-out --width 128 $((2**62)) {UInt128.MaxValue} | head -n 1";
        Assert.Equal(new Ended(0, "multiply-early-out at n = 128\n", ""), Child.Run("bash", "-c", line));
    }

    /// <summary>A device that takes nothing stands for a full disk; a stream may also be closed from the beginning.</summary>
    [Theory]
    [InlineData("list >/dev/full", 2, "The result cannot be written to the output: No space left on device.\n")]
    [InlineData("--help >/dev/full", 2, "The result cannot be written to the output: No space left on device.\n")]
    [InlineData("wlak 2>/dev/full", 2, "")]
    [InlineData("list >/dev/full 2>/dev/full", 2, "")]
    [InlineData("list >&-", 2, "The result cannot be written to the output: it is closed.\n")]
    [InlineData(
        "list --language de >&-",
        2,
        "Das Ergebnis kann nicht ausgegeben werden: die Ausgabe ist geschlossen.\n"
    )]
    [InlineData("wlak 2>&-", 2, "")]
    [InlineData("list >&- 2>&-", 2, "")]
    [InlineData("list 2>&- >/dev/null", 0, "")]
    public void An_output_that_takes_nothing_is_told_in_one_sentence(string line, int status, string errors)
    {
        Assert.SkipUnless(File.Exists("/dev/full"), "not applicable: /dev/full");
        var ended = Child.Run("bash", "-c", $"'{WorkFolder.Repository}/reckoner' {line}");
        Assert.Equal((status, errors), (ended.Status, ended.Errors));
    }

    /// <summary>A file that may grow to a kilobyte only stands for a disk that fills up while it is written.</summary>
    [Theory]
    [InlineData("html")]
    [InlineData("latex")]
    [InlineData("csv")]
    [InlineData("xlsx")]
    public void A_disk_that_fills_up_is_told_in_one_sentence_and_leaves_nothing_half_written(string format)
    {
        Assert.SkipUnless(File.Exists("/dev/full"), "not applicable: bash with limits");
        using var folder = new TemporaryFolder();
        var line =
            $"trap '' XFSZ; ulimit -f 1; '{WorkFolder.Repository}/reckoner' walk divide-still-divisor --width 32 99 7 "
            + $"--format {format} -o '{folder.Path}/walk.{format}'";
        var start = new ProcessStartInfo("bash", ["-c", line]);
        // Else the runtime keeps its code in a file of memory, which the limit forbids too.
        start.Environment["DOTNET_EnableWriteXorExecute"] = "0";
        var (status, output, errors) = Child.Run(start);
        Assert.Equal((2, ""), (status, output));
        Assert.Contains("file-unwritable", errors, StringComparison.Ordinal);
        Assert.Empty(Directory.EnumerateFileSystemEntries(folder.Path));
    }

    private sealed class TemporaryFolder : IDisposable
    {
        public string Path { get; } = Directory.CreateTempSubdirectory("reckoner-full-").FullName;

        public void Dispose() => Directory.Delete(Path, recursive: true);
    }
}
