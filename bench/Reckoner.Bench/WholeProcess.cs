using System.Diagnostics;

namespace Reckoner.Bench;

/// <summary>Whole commands from a built tree: the time on the clock, and the most memory at any moment.</summary>
internal static class WholeProcess
{
    private const int Rounds = 5;

    private static readonly string[] Lines =
    [
        "check divide-shared-register --width 8",
        "check divide-signed-riscv --width 8",
        "check multiply-booth --width 8",
        "check divide-shared-register --width 16",
        "check divide-shared-register --width 64 --sample 100000",
        "check divide-shared-register --width 128 --sample 1000000",
        "check divide-goldschmidt --width 64 --sample 100000",
        "idle divide-shared-register --width 8",
        "idle divide-shared-register --width 128",
        "slips divide-shared-register --width 8",
        "slips divide-shared-register --width 64 --quick",
        "draw divide-still-divisor weave --width 32 3000000000 7",
        $"draw divide-still-divisor weave --width 32 3000000000 7 --overwrite -o {Path.Combine(Path.GetTempPath(), "it.png")}",
    ];

    public static void Print()
    {
        var command = Command();
        if (command is null || !File.Exists("/usr/bin/time"))
        {
            Console.WriteLine("\nWhole commands: not measured here, /usr/bin/time or the command itself is missing.");
            return;
        }
        Console.WriteLine(
            $"\nWhole commands: seconds on the clock, the least and the median of {Rounds}, and memory\n"
        );
        foreach (var line in Lines)
        {
            // Not counted: it may have to build first.
            Run(command, line);
            var runs = Enumerable.Range(0, Rounds).Select(_ => Run(command, line)).ToList();
            var seconds = runs.Select(r => r.Seconds).Order().ToList();
            Console.WriteLine(
                $"    {line, -58} {seconds[0], 5:0.00} s {seconds[Rounds / 2], 5:0.00} s {runs.Max(r => r.Megabytes), 4} MB"
            );
        }
    }

    /// <summary>./reckoner of the tree that this was built in.</summary>
    internal static string? Command()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "reckoner.cmd")))
        {
            folder = folder.Parent;
        }
        return folder is null ? null : Path.Combine(folder.FullName, "reckoner");
    }

    private static (double Seconds, long Megabytes) Run(string command, string line)
    {
        var start = new ProcessStartInfo("/usr/bin/time", ["-f", "%e %M", command, .. line.Split(' ')])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        using var process = Process.Start(start)!;
        var errors = process.StandardError.ReadToEndAsync();
        process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        var measured = errors.GetAwaiter().GetResult().TrimEnd().Split('\n')[^1].Split(' ');
        return process.ExitCode == 0
            ? (double.Parse(measured[0]), long.Parse(measured[1]) / 1024)
            : throw new InvalidOperationException($"{line} ended with {process.ExitCode}");
    }
}
