using Reckoner.Checking;
using Reckoner.Diagnostics;

namespace Reckoner.Questions;

/// <summary>
/// What a question is answered with, given from outside since the core has no clock, threads or made code of its own.
/// </summary>
/// <param name="Clock">Time that goes forward from any beginning, for estimates and for what is said of the time taken.</param>
public sealed record Means(ICheckRunner Runner, Func<TimeSpan> Clock)
{
    /// <summary>Runs the short programs that are asked beside a check.</summary>
    public IPlaneEngine Engine { get; init; } = InterpretedEngine.Widest;

    /// <summary>Hears how far a long run is; null where nobody watches.</summary>
    public IWatch? Watch { get; init; }

    /// <summary>
    /// Ends a question early. What a check covered by then is its answer, and says that it is not all; others have none, and throw
    /// <see cref="OperationCanceledException"/>.
    /// </summary>
    public CancellationToken Stop { get; init; }

    /// <summary>Keeps what a check has covered, each time all of it; says why it could not. Null where nothing is kept.</summary>
    internal Func<Checkpoint, Diagnostic?>? Keep { get; init; }

    internal T Watched<T>(long casesEach, long from, long to, Func<Action<long>?, T> run)
    {
        var tell = Watch?.Begin(casesEach, from, to);
        try
        {
            return run(tell);
        }
        finally
        {
            Watch?.End();
        }
    }

    internal async Task<T> Watched<T>(long casesEach, long from, long to, Func<Action<long>?, Task<T>> run)
    {
        var tell = Watch?.Begin(casesEach, from, to);
        try
        {
            return await run(tell);
        }
        finally
        {
            Watch?.End();
        }
    }
}

/// <summary>Hears how far long runs are, one after the other.</summary>
public interface IWatch
{
    /// <summary>A stretch of steps begins.</summary>
    /// <param name="casesEach">How many cases a step has.</param>
    /// <returns>Is told how many steps are done, from any thread.</returns>
    Action<long> Begin(long casesEach, long from, long to);

    /// <summary>It has ended, or was stopped.</summary>
    void End();
}
