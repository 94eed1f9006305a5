using System.Diagnostics;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Checking;
using Reckoner.Engines;
using static System.FormattableString;

namespace Reckoner.Bench;

/// <summary>What a check on a graphics processor takes before its first case is counted, and what comes after the last.</summary>
internal static class GraphicsStart
{
    private const string Divider = "divide-shared-register";

    public static void Print()
    {
        Console.WriteLine("\n| the start | s |");
        Console.WriteLine("|---|---|");
        if (Timed("the driver found and begun", GraphicsDriver.Find) is not { } driver)
        {
            Console.WriteLine("\nA graphics processor: not measured here.");
            return;
        }
        var name = driver.NameOf(0);
        Timed(
            "its context",
            () =>
            {
                var context = driver.Context(name, driver.Device(0));
                driver.Enter(name, context);
                return context;
            }
        );
        var processor = GraphicsProcessor.All()[0];
        var trial = Timed("the trial of lookups written", () => LookupTrial.Kernel);
        foreach (var time in new[] { "", ", again" })
        {
            using var made = Timed($"the trial compiled{time}", () => processor.Load(trial));
            Timed($"the trial run{time}", () => made.Run(0, trial.Space.Steps));
        }
        foreach (var width in new[] { 16, 20 })
        {
            Of(processor, width);
        }
    }

    private static void Of(GraphicsProcessor processor, int width)
    {
        var datapath = Timed(
            $"n = {width}: read and bound",
            () => Machine.Read(MachineCatalogue.Find(Divider)!, MachineCatalogue.Find).At(width).Datapath!
        );
        var check = Timed(
            $"n = {width}: gates, of the fewer",
            () => CheckProgram.OfFewestGates(datapath, CheckProgram.Followed(datapath))!
        );
        var kernel = Timed($"n = {width}: kernel written", () => PtxKernel.Of(check));
        foreach (var time in new[] { "", ", again" })
        {
            using var made = Timed($"n = {width}: kernel compiled{time}", () => processor.Load(kernel));
            Timed(
                $"n = {width}: compared at both ends{time}",
                () => GraphicsCheck.Agrees(check, made, 0, check.Space.Steps)
            );
            Timed(
                $"n = {width}: all cases in launches{time}",
                () => GraphicsCheck.Run(check, kernel, [made], 0, check.Space.Steps, null, CancellationToken.None)
            );
        }
        Timed($"n = {width}: whether laws fix results", () => LawStrength.Of(datapath, InterpretedEngine.Widest));
    }

    private static T Timed<T>(string what, Func<T> done)
    {
        var began = Stopwatch.GetTimestamp();
        var outcome = done();
        Console.WriteLine(Invariant($"| {what} | {Stopwatch.GetElapsedTime(began).TotalSeconds:0.000} |"));
        return outcome;
    }
}
