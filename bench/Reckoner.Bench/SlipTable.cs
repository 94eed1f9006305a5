using System.Diagnostics;
using System.Globalization;
using System.Numerics;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Checking;
using Reckoner.Slips;

namespace Reckoner.Bench;

/// <summary>
/// All slips of the divider, all pairs: cases times slips a second of processor time, beside a C++ loop over a right and a slipped
/// machine. The failures and smallest pairs of both are compared too.
/// </summary>
internal static class SlipTable
{
    private const string Divider = "divide-shared-register";

    public static void Print(string folder)
    {
        var program = Baselines.Program(folder, "slips");
        foreach (var width in new[] { 8, 10 })
        {
            Print(program, width);
        }
    }

    private static void Print(string? program, int width)
    {
        var (baseline, told) = Baseline(program, width);
        Console.WriteLine($"\nSlips of {Divider}, n = {width}: cases times slips a second, in G, and times C++\n");
        if (baseline is { } rate)
        {
            Console.WriteLine($"    C++, scalar                    {rate, 8:0.000}");
        }
        var study = Study(width, withConditions: false);
        Compare(told, study);
        foreach (
            var (name, withConditions) in new[] { ("without \"exactly when\"", false), ("with \"exactly when\"", true) }
        )
        {
            var ours = Rate(width, withConditions);
            var times = baseline is { } b ? $" {ours / b, 7:0.0}" : "";
            Console.WriteLine($"    {name, -30} {ours, 8:0.000}{times}");
        }
        Console.WriteLine(
            $"    {study.Slips.Count} slips, of which {told.Count} in C++ with the same failures and smallest pairs."
        );
    }

    private static (double? Rate, List<string[]> Told) Baseline(string? program, int width)
    {
        if (program is null)
        {
            return (null, []);
        }
        using var process = Process.Start(
            new ProcessStartInfo(program, [$"{width}"]) { RedirectStandardOutput = true }
        )!;
        var lines = process.StandardOutput.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries);
        process.WaitForExit();
        return (
            double.Parse(lines[0], CultureInfo.InvariantCulture),
            [.. lines.Skip(1).Select(line => line.Split(' '))]
        );
    }

    private static void Compare(List<string[]> told, SlipStudy study)
    {
        foreach (var words in told)
        {
            var slip = study.Slips.Single(s => s.Slip.Name == words[0]);
            if (
                slip.Exposed != long.Parse(words[1])
                || !slip.Smallest!.SequenceEqual(words.Skip(2).Select(BigInteger.Parse))
            )
            {
                throw new InvalidOperationException($"{words[0]} is another slip in C++: {string.Join(' ', words)}");
            }
        }
    }

    private static SlipStudy Study(int width, bool withConditions) =>
        SlipStudy.Of(
            Machine.Read(MachineCatalogue.Find(Divider)!, MachineCatalogue.Find).At(width).Datapath!,
            InterpretedEngine.Widest,
            sample: null,
            withConditions
        );

    /// <summary>Everything from the description on, the code warm.</summary>
    private static double Rate(int width, bool withConditions)
    {
        var clock = Stopwatch.StartNew();
        while (clock.Elapsed.TotalSeconds < 1)
        {
            Study(width, withConditions);
        }
        var before = Environment.CpuUsage.TotalTime;
        clock.Restart();
        double cases = 0;
        while (clock.Elapsed.TotalSeconds < 1)
        {
            var study = Study(width, withConditions);
            cases += (double)study.Cases * study.Slips.Count;
        }
        return cases / (Environment.CpuUsage.TotalTime - before).TotalSeconds / 1e9;
    }
}
