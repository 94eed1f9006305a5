using Reckoner.Checking;
using Reckoner.Diagnostics;

namespace Reckoner.Questions;

/// <summary>What a stretch of a check gave.</summary>
/// <param name="To">How far it came, to not included: less than was asked where it was stopped.</param>
/// <param name="Method">What ran it, for reports.</param>
public sealed record CoveredSteps(long To, IReadOnlyList<SectionCount> Counts, string Method)
{
    /// <summary>Why it came no further, where what ran it failed; the counts are right as far as it came.</summary>
    public Diagnostic? Trouble { get; init; }
}

/// <summary>Runs the gates of checks: on threads, in made code, in a worker of a browser.</summary>
public interface ICheckRunner
{
    /// <summary>How many stretches run at the same time, for estimates.</summary>
    int Threads { get; }

    /// <summary>Why nothing can be run, such as vectors that were asked for and are not here; else null.</summary>
    Diagnostic? Refusal { get; }

    /// <summary>Why claims that cannot become gates are not judged word by word, such as that gates alone may be run; else null.</summary>
    Diagnostic? RefusalOfWords => null;

    /// <summary>Is told that much may be asked for soon: what it takes to begin can go on beside other work.</summary>
    void Prepare() { }

    /// <summary>By so many powers of two more is tried at once than on usual processors.</summary>
    int ReachBits => 0;

    /// <summary>How many graphics processors run long checks.</summary>
    int GraphicsProcessors => 0;

    /// <summary>How many steps of a program are done in a second; null where that is measured on the engine.</summary>
    double? StepsASecond(CheckProgram program, Func<TimeSpan> clock, CancellationToken stop) => null;

    /// <summary>The engine for a program that is to run so many steps; not asked where there is a refusal.</summary>
    IPlaneEngine Engine(PlaneProgram program, long steps);

    /// <summary>Runs steps from..to (to not included). Whatever the threads did, the counts are the same.</summary>
    /// <param name="covered">Is told how many steps are done so far, from any thread; null where nobody asks.</param>
    Task<CoveredSteps> Run(CheckProgram program, long from, long to, Action<long>? covered, CancellationToken stop);
}

/// <summary>Interprets gates on the caller's thread: what the core can do alone.</summary>
public sealed class InterpretedRunner : ICheckRunner
{
    public int Threads => 1;

    public Diagnostic? Refusal => null;

    public IPlaneEngine Engine(PlaneProgram program, long steps) => InterpretedEngine.Widest;

    public Task<CoveredSteps> Run(
        CheckProgram program,
        long from,
        long to,
        Action<long>? covered,
        CancellationToken stop
    )
    {
        const int AtOnce = 256;
        var engine = InterpretedEngine.Widest;
        var run = new CheckRun(program, engine);
        var at = from;
        while (at < to && !stop.IsCancellationRequested)
        {
            at = run.Run(at, Math.Min(to, at + AtOnce), CancellationToken.None);
            covered?.Invoke(at - from);
        }
        return Task.FromResult(new CoveredSteps(at, run.Counts, engine.Name));
    }
}
