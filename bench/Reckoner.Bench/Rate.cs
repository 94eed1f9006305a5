using System.Diagnostics;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Checking;
using Reckoner.Engines;

namespace Reckoner.Bench;

/// <summary>Measures one engine in this process.</summary>
internal static class Rate
{
    /// <summary>Steps are repeated from the beginning; so many at a time.</summary>
    private const long MostSteps = 16_384;

    public static CheckProgram Check(string machine, int width, OracleUse use = OracleUse.Stepped) =>
        CheckProgram.Of(
            Machine.Read(MachineCatalogue.Find(machine)!, MachineCatalogue.Find).At(width).Datapath!,
            null,
            use
        );

    /// <summary>Thousand million cases a second of processor time, counting failures and looking for the smallest.</summary>
    /// <param name="engine">"emitted-512", "interpreted-64" and so on; "written" before it multiplies the laws out.</param>
    public static double Of(string engine, string machine, int width)
    {
        const string Written = "written-";
        var isWritten = engine.StartsWith(Written, StringComparison.Ordinal);
        engine = isWritten ? engine[Written.Length..] : engine;
        var check = Check(machine, width, isWritten ? OracleUse.Written : OracleUse.Stepped);
        if (engine == "worker")
        {
            return Worker.Rate(check);
        }
        var run = new CheckRun(check, Engine(engine));
        var steps = Math.Min(check.Space.Steps, MostSteps);
        Repeat(run, steps, 0.2);
        var before = Environment.CpuUsage.TotalTime;
        var cases = Repeat(run, steps, 0.5) * check.Space.Lanes;
        var seconds = (Environment.CpuUsage.TotalTime - before).TotalSeconds;
        return run.Counts.All(c => c.Failures.IsZero)
            ? cases / seconds / 1e9
            : throw new InvalidOperationException($"{machine} fails");
    }

    private static long Repeat(CheckRun run, long steps, double seconds)
    {
        var clock = Stopwatch.StartNew();
        var done = 0L;
        while (clock.Elapsed.TotalSeconds < seconds)
        {
            done += run.Run(0, steps);
        }
        return done;
    }

    private static IPlaneEngine Engine(string name)
    {
        var bits = int.Parse(name[(name.IndexOf('-') + 1)..]);
        return name.StartsWith("emitted", StringComparison.Ordinal)
            ? new EmittedEngine(bits)
            : new InterpretedEngine(bits);
    }
}
