using System.Diagnostics;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Checking;
using Reckoner.Engines;
using static System.FormattableString;

namespace Reckoner.Bench;

/// <summary>Kernels on the first graphics processor: what they take, and how near they come to the lookups that it can do.</summary>
internal static class GraphicsTable
{
    /// <summary>Logic instructions of 32 lanes that a multiprocessor does in a clock: 64 from compute capability 7 on.</summary>
    private const int LookupsAClock = 64 * 32;

    private static readonly (string Machine, int Width, OracleUse Use, long Steps)[] Rows =
    [
        ("divide-shared-register", 16, OracleUse.Written, long.MaxValue),
        ("divide-shared-register", 16, OracleUse.Stepped, long.MaxValue),
        ("divide-shared-register", 20, OracleUse.Written, long.MaxValue),
        ("divide-shared-register", 20, OracleUse.Stepped, long.MaxValue),
        ("multiply-booth", 16, OracleUse.Stepped, long.MaxValue),
        ("divide-srt-radix-4", 24, OracleUse.Stepped, 1L << 28),
        ("divide-srt-radix-4-wide", 24, OracleUse.Stepped, 1L << 28),
        ("divide-srt-radix-4-1994-wide", 24, OracleUse.Stepped, 1L << 28),
    ];

    public static void Print()
    {
        if (GraphicsProcessor.All() is not [var processor, ..])
        {
            Console.WriteLine("A graphics processor: not measured here.");
            return;
        }
        var limit = processor.Multiprocessors * processor.Hertz * LookupsAClock;
        Console.WriteLine(
            Invariant(
                $"{processor.Name}: {processor.Multiprocessors} multiprocessors at {processor.Hertz / 1e9:0.00} GHz, at most {limit / 1e12:0} T lookups a second\n"
            )
        );
        Console.WriteLine(
            "| machine | n | expectation | gates | registers | spilled bytes | compiled, s | cases | kernel, s | G cases/s | T lookups/s | of the limit |"
        );
        Console.WriteLine("|---|---|---|---|---|---|---|---|---|---|---|---|");
        foreach (var (machine, width, use, steps) in Rows)
        {
            Measure(processor, limit, machine, width, use, steps);
        }
        GraphicsBeside.Print(processor);
    }

    private static void Measure(
        GraphicsProcessor processor,
        double limit,
        string machine,
        int width,
        OracleUse use,
        long mostSteps
    )
    {
        var datapath = Machine.Read(MachineCatalogue.Find(machine)!, MachineCatalogue.Find).At(width).Datapath!;
        var check = CheckProgram.Of(datapath, null, use);
        var began = Stopwatch.GetTimestamp();
        var kernel = PtxKernel.Of(check);
        using var made = processor.Load(kernel);
        var compiled = Stopwatch.GetElapsedTime(began).TotalSeconds;
        var steps = Math.Min(check.Space.Steps, mostSteps);
        var kernelSeconds = Seconds(made, steps);
        var cases = (double)steps * check.Space.Lanes;
        var gates = check.Program.Instructions.Count;
        var rate = cases * gates / kernelSeconds;
        var (registers, spilled) = processor.Taken(made);
        Console.WriteLine(
            Invariant(
                $"| {machine} | {width} | {use} | {gates} | {registers} | {spilled} | {compiled:0.00} | {cases:0.00e0} | {kernelSeconds:0.0000} | {cases / kernelSeconds / 1e9:0.0} | {rate / 1e12:0.0} | {rate / limit:0.000} |"
            )
        );
    }

    /// <summary>In launches of at most some hundred milliseconds; the first, which is not counted, wakes the processor.</summary>
    public static double Seconds(IGraphicsKernel made, long steps)
    {
        var launch = Math.Min(steps, 1L << 24);
        made.Run(0, launch);
        var seconds = 0.0;
        for (var from = 0L; from < steps; from += launch)
        {
            var at = Stopwatch.GetTimestamp();
            made.Run(from, Math.Min(steps, from + launch));
            seconds += Stopwatch.GetElapsedTime(at).TotalSeconds;
        }
        return seconds;
    }
}
