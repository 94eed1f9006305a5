using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;

namespace Reckoner.Questions;

/// <summary>
/// What a machine claims at one width, tried with every operand: no proof is surer, and none says less about other widths. Where
/// that would be too many, nothing is tried.
/// </summary>
internal static class TriedAll
{
    /// <summary>
    /// Some seconds with interpreted gates: so many operands, and so many gates of <see cref="PlaneMemory.Lanes"/> each. And with
    /// words: so many operands, and so many cycles of all of them together.
    /// </summary>
    private const int MostBits = 32;
    private const int MostBitsOfWords = 16;
    private const long MostCyclesOfWords = 1L << 20;
    private const long MostGateRuns = 1L << 29;

    /// <returns>How many cases there are, and what came out; null where they are too many, or it was stopped.</returns>
    public static (BigInteger Cases, CheckResult? Result) Of(Datapath datapath, Means means)
    {
        var space = new CaseSpace(datapath.Operands);
        var cases = space.AllSteps * space.Lanes;
        try
        {
            return (cases, cases > BigInteger.One << MostBits ? null : Run(datapath, cases, means));
        }
        catch (GatesBeyondRoomException)
        {
            return (cases, null);
        }
    }

    private static CheckResult? Run(Datapath datapath, BigInteger cases, Means means)
    {
        if (CheckProgram.OfFewestGates(datapath, followed: null) is not { } gates)
        {
            return cases > BigInteger.One << MostBitsOfWords || cases * datapath.MostCycles > MostCyclesOfWords
                ? null
                : ByWord(new WordCheck(datapath, followed: null), means);
        }
        var steps = gates.Space.Steps;
        if (steps > MostGateRuns / Math.Max(1, gates.Program.Instructions.Count))
        {
            return null;
        }
        var run = new CheckRun(gates, means.Engine);
        return run.Run(0, steps, means.Stop) == steps
            ? Checker.Result(gates, run.Counts, means.Engine.Name, (0, steps), isComplete: true)
            : null;
    }

    private static CheckResult? ByWord(WordCheck words, Means means)
    {
        var steps = words.Space.Steps;
        var (reached, counts) = words.Run(0, steps, null, means.Stop);
        return reached == steps ? Checker.Result(words, counts, (0, steps), isComplete: true) : null;
    }
}
