using System.Diagnostics;
using System.Globalization;
using System.Text;

namespace Reckoner.Bench;

/// <summary>
/// A lesson of 12 figures with all its outputs as a whole process, beside Chromium that prints the page of the same lesson to a
/// single PDF: seconds on the clock, in turn.
/// </summary>
internal static class LessonTable
{
    private const int Figures = 12;
    private const int Rounds = 5;

    private static readonly string[] Machines =
    [
        "divide-moving-divisor",
        "divide-still-divisor",
        "divide-shared-register",
        "divide-shift-first",
    ];

    /// <param name="command">The command of a built tree.</param>
    public static void Print(string command, string folder)
    {
        var text = new StringBuilder(
            "---\nmachine: divide-still-divisor\nwidth: 8\noperands: 200 7\n---\n\n# Twelve figures\n"
        );
        for (var i = 0; i < Figures; i++)
        {
            var machine = Machines[i % Machines.Length];
            text.Append(
                CultureInfo.InvariantCulture,
                $"\n```reckoner\nwalk {machine} {200 + i} 7\ndraw {machine} weave {200 + i} 7\n```\n"
            );
        }
        var lesson = Path.Combine(folder, "twelve.md");
        File.WriteAllText(lesson, text.ToString());
        var pack = Path.Combine(folder, "pack");
        string[] make = ["lesson", lesson, "-o", pack, "--overwrite"];
        string[] print =
        [
            "--headless",
            "--no-sandbox",
            $"--user-data-dir={Path.Combine(folder, "profile")}",
            $"--print-to-pdf={Path.Combine(folder, "printed.pdf")}",
            new Uri(Path.Combine(pack, "index.html")).ToString(),
        ];
        // Not counted: it may have to build first, and a browser makes its profile.
        Seconds(command, make);
        Seconds("chromium", print);
        var rounds = Enumerable
            .Range(0, Rounds)
            .Select(_ => (Ours: Seconds(command, make), Theirs: Seconds("chromium", print)))
            .ToList();
        var load = File.Exists("/proc/loadavg") ? File.ReadAllText("/proc/loadavg").Split(' ')[0] : "unknown";
        Console.WriteLine(
            $"\nA lesson of {Figures} figures and walks with all outputs, whole process; load average {load}\n"
        );
        Line("lesson, all outputs", rounds.Select(r => r.Ours), " s");
        Line("Chromium prints its page", rounds.Select(r => r.Theirs), " s");
        Line("ratio", rounds.Select(r => r.Ours / r.Theirs), "");
    }

    private static void Line(string what, IEnumerable<double> values, string unit)
    {
        var sorted = values.Order().ToList();
        Console.WriteLine(
            $"    {what, -26} {sorted[0], 5:0.00}{unit} at least, {sorted[Rounds / 2], 5:0.00}{unit} in the median"
        );
    }

    private static double Seconds(string program, string[] arguments)
    {
        var start = new ProcessStartInfo(program, arguments)
        {
            RedirectStandardError = true,
            RedirectStandardOutput = true,
        };
        var watch = Stopwatch.StartNew();
        using var process = Process.Start(start)!;
        var said = process.StandardError.ReadToEndAsync();
        process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return process.ExitCode == 0
            ? watch.Elapsed.TotalSeconds
            : throw new InvalidOperationException($"{program}: {said.Result}");
    }
}
