using Reckoner.Checking;

namespace Reckoner.Engines.Tests;

/// <summary>Every way to run a check, as lines to compare.</summary>
internal static class Runs
{
    /// <summary>All engines that work in this process on this machine; the first is the plainest.</summary>
    public static IReadOnlyList<IPlaneEngine> Engines =>
        [
            .. new[] { 64, 128, 256, 512 }.Select(bits => new InterpretedEngine(bits)),
            .. new[] { 128, 256, 512 }.Where(EmittedEngine.IsHere).Select(bits => new EmittedEngine(bits)),
        ];

    public static string Line(CheckProgram check, IPlaneEngine engine) =>
        Machines.Line(Counts(check, engine, 0, check.Space.Steps));

    public static IReadOnlyList<SectionCount> Counts(CheckProgram check, IPlaneEngine engine, long from, long to)
    {
        var run = new CheckRun(check, engine);
        run.Run(from, to);
        return run.Counts;
    }
}
