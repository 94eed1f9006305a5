using System.Diagnostics;
using Reckoner.Checking;
using Reckoner.Engines;

namespace Reckoner.Bench;

/// <summary>
/// The tables of bench/README.md. What stands in one table is measured in turns, round after round, so that whatever else the
/// machine does meanwhile falls on all alike; ratios are taken within a round, and their median is shown.
/// </summary>
internal static class Tables
{
    private const string Divider = "divide-shared-register";
    private static readonly int[] Widths = [8, 10, 12, 16];

    public static void Print(IReadOnlyList<Contestant>? baselines, int rounds)
    {
        Console.WriteLine(
            baselines is null
                ? "No g++ here: nothing is compared with C++."
                : $"C++ compiled here by {Baselines.Command}."
        );
        Console.WriteLine(
            $"Rates are cases a second of processor time on one core, in G (10^9); median of {rounds} rounds."
        );
        var ours = Ours();
        foreach (var width in Widths)
        {
            Compare([.. baselines ?? [], .. ours], baselines?.Count ?? 0, width, rounds);
        }
        PerGate(ours, rounds);
        Expectations(rounds);
        Growth(ours[0], rounds);
        Threads();
        WholeProcess.Print();
    }

    private static List<Contestant> Ours()
    {
        var ours = new List<Contestant>();
        foreach (var bits in new[] { 512, 256, 128 })
        {
            if (EmittedEngine.IsHere(bits))
            {
                ours.Add(Contestant.Ours($"emitted, {bits} bits", $"emitted-{bits}"));
            }
            else
            {
                Console.WriteLine($"emitted, {bits} bits: not measured here, this processor lacks them.");
            }
        }
        if (EmittedEngine.IsHere(512))
        {
            ours.Add(Contestant.Ours("emitted, 256 bits, without AVX-512", "emitted-256", withAvx512: false));
        }
        foreach (var bits in EngineChoice.Widths.Where(EngineChoice.IsHere))
        {
            ours.Add(Contestant.Ours($"interpreted, {bits} bits", $"interpreted-{bits}"));
        }
        if (HasNode())
        {
            ours.Add(Contestant.Ours("WebAssembly under node", "worker"));
        }
        else
        {
            Console.WriteLine("WebAssembly: not measured here, node is missing.");
        }
        return ours;
    }

    private static bool HasNode()
    {
        try
        {
            using var node = Process.Start(
                new ProcessStartInfo("node", ["--version"]) { RedirectStandardOutput = true }
            );
            node!.WaitForExit();
            return node.ExitCode == 0;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return false;
        }
    }

    private static void Compare(IReadOnlyList<Contestant> all, int baselines, int width, int rounds)
    {
        var rates = Measure(all, Divider, width, rounds);
        Console.WriteLine($"\n{Divider}, n = {width}\n");
        Console.WriteLine($"| {"", -36} | {"G/s", 8} | {"times scalar", 12} | {"times vectorised", 16} |");
        Console.WriteLine($"|{new('-', 38)}|{new('-', 9)}:|{new('-', 13)}:|{new('-', 17)}:|");
        for (var i = 0; i < all.Count; i++)
        {
            string Ratio(int baseline) =>
                baselines == 0 ? "" : $"{Median(rates[i].Zip(rates[baseline], (ours, theirs) => ours / theirs)):0.0}";
            Console.WriteLine(
                $"| {all[i].Name, -36} | {Median(rates[i]), 8:0.000} | {Ratio(0), 12} | {Ratio(1), 16} |"
            );
        }
    }

    /// <summary>By contestant and round.</summary>
    private static double[][] Measure(IReadOnlyList<Contestant> all, string machine, int width, int rounds)
    {
        var rates = all.Select(_ => new double[rounds]).ToArray();
        for (var round = 0; round < rounds; round++)
        {
            for (var i = 0; i < all.Count; i++)
            {
                rates[i][round] = all[i].Rate(machine, width);
            }
        }
        return rates;
    }

    private static double Median(IEnumerable<double> values)
    {
        var sorted = values.Order().ToList();
        return sorted[sorted.Count / 2];
    }

    /// <summary>Cases times gates: what other machines reach beside the divider.</summary>
    private static void PerGate(IReadOnlyList<Contestant> ours, int rounds)
    {
        string[] machines =
        [
            Divider,
            "multiply-shared-register",
            "multiply-booth",
            "multiply-booth-radix-4",
            "multiply-carry-save",
            "divide-non-restoring",
            "divide-signed-truncating",
        ];
        const int width = 12;
        var shown = ours.Where(c =>
            !c.Name.Contains("interpreted") || c.Name == ours.First(o => o.Name.Contains("interpreted")).Name
        );
        Console.WriteLine(
            $"\nGates (lookups) times cases a second, n = {width}, in T (10^12), and times the divider's\n"
        );
        foreach (var contestant in shown)
        {
            Console.WriteLine($"{contestant.Name}");
            var divider = 0.0;
            foreach (var machine in machines)
            {
                var gates = Rate.Check(machine, width).Program.Instructions.Count;
                var lookups = Median(Measure([contestant], machine, width, rounds)[0]) * gates / 1000;
                divider = machine == Divider ? lookups : divider;
                Console.WriteLine(
                    $"    {machine, -26} {gates, 6} gates {lookups, 7:0.000} T/s {lookups / divider, 6:0.00}"
                );
            }
        }
    }

    /// <summary>Laws whose expectation is stepped along beside the same laws multiplied out.</summary>
    private static void Expectations(int rounds)
    {
        var engine = $"emitted-{EngineChoice.Widths.First(EmittedEngine.IsHere)}";
        List<Contestant> both =
        [
            Contestant.Ours("stepped", engine),
            Contestant.Ours("multiplied out", $"written-{engine}"),
        ];
        Console.WriteLine($"\nThe expectation stepped along, and multiplied out: {engine}, gates and G/s\n");
        foreach (var machine in new[] { Divider, "multiply-shared-register", "multiply-booth" })
        {
            foreach (var width in new[] { 8, 12, 16 })
            {
                var rates = Measure(both, machine, width, rounds);
                var stepped = Rate.Check(machine, width).Program.Instructions.Count;
                var written = Rate.Check(machine, width, OracleUse.Written).Program.Instructions.Count;
                Console.WriteLine(
                    $"    {machine, -26} n = {width, 2} {stepped, 6} {Median(rates[0]), 7:0.000} {written, 6} {Median(rates[1]), 7:0.000}"
                );
            }
        }
    }

    /// <summary>Time a case against the width: the machine has n + 1 cycles of n bits.</summary>
    private static void Growth(Contestant contestant, int rounds)
    {
        Console.WriteLine($"\nGrowth, {contestant.Name}: picoseconds a case, and over n^2\n");
        foreach (var width in new[] { 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16 })
        {
            var time = 1000 / Median(Measure([contestant], Divider, width, rounds)[0]);
            Console.WriteLine($"    n = {width, 2} {time, 10:0.0} ps {time / width / width, 9:0.00}");
        }
    }

    private static void Threads()
    {
        var check = Rate.Check(Divider, 16);
        var engine = EngineChoice.Of(null).Engine!;
        var clock = Stopwatch.StartNew();
        var (_, counts) = ParallelChecker.Run(check, engine, 0, check.Space.Steps, Environment.ProcessorCount);
        Console.WriteLine(
            $"\nAll {counts[0].Cases + counts[1].Cases:n0} pairs at n = 16: {clock.Elapsed.TotalSeconds:0.00} s on"
                + $" {Environment.ProcessorCount} cores, {engine.Name}, {counts[0].Failures} failures."
        );
    }
}
