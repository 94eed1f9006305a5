using System.Diagnostics;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Checking;
using Reckoner.Engines;
using Reckoner.Slips;
using static System.FormattableString;

namespace Reckoner.Bench;

/// <summary>The same divider on the other processors of the machine, all of their cores, and what slips would take as kernels.</summary>
internal static class GraphicsBeside
{
    private const string Divider = "divide-shared-register";

    public static void Print(GraphicsProcessor processor)
    {
        var cores = Environment.ProcessorCount;
        Console.WriteLine(Invariant($"\n| {Divider}, {cores} cores beside | n | G cases/s | times C++, scalar |"));
        Console.WriteLine("|---|---|---|---|");
        var folder = Directory.CreateTempSubdirectory("reckoner-bench").FullName;
        try
        {
            var baselines = Baselines.Compiled(folder);
            foreach (var width in new[] { 16, 20 })
            {
                Print(processor, width, baselines ?? [], cores);
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
        Slips(processor);
    }

    private static void Print(GraphicsProcessor processor, int width, IReadOnlyList<Contestant> baselines, int cores)
    {
        var rows = baselines
            .Select(b => ($"{b.Name}, {cores} processes", Together(b, width, cores)))
            .Append((Invariant($"{EngineChoice.Widest.Engine!.Name}, {cores} threads"), Threads(width, cores)))
            .Concat(
                new[] { OracleUse.Written, OracleUse.Stepped }.Select(use =>
                    ($"{processor.Name}, {use}", Graphics(processor, width, use))
                )
            )
            .ToList();
        foreach (var (name, rate) in rows)
        {
            var times = baselines.Count > 0 ? Invariant($"{rate / rows[0].Item2:0.0}") : "";
            Console.WriteLine(Invariant($"| {name} | {width} | {rate:0.00} | {times} |"));
        }
    }

    /// <summary>As many at the same time as there are cores: the sum of their rates.</summary>
    private static double Together(Contestant contestant, int width, int cores) =>
        Task.WhenAll(
                Enumerable
                    .Range(0, cores)
                    .Select(_ =>
                        Task.Factory.StartNew(() => contestant.Rate(Divider, width), TaskCreationOptions.LongRunning)
                    )
            )
            .Result.Sum();

    private static double Threads(int width, int cores)
    {
        var check = Rate.Check(Divider, width);
        var runner = new ThreadedRunner(EngineChoice.Widest, cores);
        var steps = Math.Min(check.Space.Steps, 1L << 20);
        runner.Run(check, 0, Math.Min(steps, 1L << 16), null, CancellationToken.None).Wait();
        var began = Stopwatch.GetTimestamp();
        runner.Run(check, 0, steps, null, CancellationToken.None).Wait();
        return (double)steps * check.Space.Lanes / Stopwatch.GetElapsedTime(began).TotalSeconds / 1e9;
    }

    private static double Graphics(GraphicsProcessor processor, int width, OracleUse use)
    {
        var check = Rate.Check(Divider, width, use);
        using var made = processor.Load(PtxKernel.Of(check));
        var steps = check.Space.Steps;
        return (double)steps * check.Space.Lanes / GraphicsTable.Seconds(made, steps) / 1e9;
    }

    /// <summary>A kernel has to be compiled for each slip, of which the table of slips does without.</summary>
    private static void Slips(GraphicsProcessor processor)
    {
        foreach (var width in new[] { 8, 10 })
        {
            var right = Machine.Read(MachineCatalogue.Find(Divider)!, MachineCatalogue.Find).At(width).Datapath!;
            var checks = SlipStudy
                .Built(right)
                .Select(b => CheckProgram.Of(b.Datapath, right, OracleUse.Stepped))
                .ToList();
            var (compiled, run) = (0.0, 0.0);
            foreach (var check in checks)
            {
                var began = Stopwatch.GetTimestamp();
                using var made = processor.Load(PtxKernel.Of(check));
                compiled += Stopwatch.GetElapsedTime(began).TotalSeconds;
                began = Stopwatch.GetTimestamp();
                made.Run(0, check.Space.Steps);
                run += Stopwatch.GetElapsedTime(began).TotalSeconds;
            }
            var studied = Environment.CpuUsage.TotalTime;
            SlipStudy.Of(right, InterpretedEngine.Widest, sample: null, withConditions: false);
            var whole = (Environment.CpuUsage.TotalTime - studied).TotalSeconds;
            Console.WriteLine(
                Invariant(
                    $"\n{checks.Count} slips at n = {width}: kernels compiled in {compiled:0.000} s, run in {run:0.000} s; the whole question without them in {whole:0.000} s of processor time"
                )
            );
        }
    }
}
