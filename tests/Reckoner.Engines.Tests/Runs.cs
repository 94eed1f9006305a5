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

    public static string Line(CheckProgram check, IPlaneEngine engine)
    {
        var run = new CheckRun(check, engine);
        run.Run(0, check.Space.Steps);
        return Machines.Line(run.Counts);
    }
}
