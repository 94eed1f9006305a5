using Reckoner.Checking;

namespace Reckoner.Questions;

/// <summary>A stretch of a check's steps, from..to (to not included), whichever way they are run.</summary>
/// <param name="Nothing">Its sections before any step.</param>
/// <param name="Run">Runs steps from..to, tells how many of them are done, and ends early when it is stopped.</param>
internal sealed record SteppedCheck(
    long From,
    long To,
    IReadOnlyList<SectionCount> Nothing,
    Func<long, long, Action<long>?, CancellationToken, Task<CoveredSteps>> Run
)
{
    /// <summary>Turns are so long that starting one costs nothing beside it, and no more than this is lost with a run.</summary>
    private const double TurnSeconds = 2;
    private const long FirstTurn = 64;

    public CoveredSteps AtBegin => new(From, Nothing, "");

    /// <summary>Goes on to the end: at once, or, where notes are taken, in turns with one after each.</summary>
    /// <param name="at">What is covered already.</param>
    /// <param name="clock">As in <see cref="Means"/>.</param>
    public async Task<CoveredSteps> GoOn(
        CoveredSteps at,
        Action<CoveredSteps>? note,
        Func<TimeSpan> clock,
        Action<long>? tell,
        CancellationToken stop
    )
    {
        var begin = at.To;
        var (turn, longest) = (note is null ? To - begin : FirstTurn, 0L);
        var noted = clock();
        do
        {
            var began = clock();
            var from = at.To;
            var more = await Run(from, Math.Min(To, from + turn), done => tell?.Invoke(from - begin + done), stop);
            // Short turns are run in a simpler way, which is not how most was found.
            var method = more.To - from >= longest ? more.Method : at.Method;
            longest = Math.Max(longest, more.To - from);
            at = new CoveredSteps(more.To, [.. at.Counts.Zip(more.Counts, (a, b) => a + b)], method)
            {
                Trouble = more.Trouble,
            };
            var seconds = (clock() - began).TotalSeconds;
            if ((clock() - noted).TotalSeconds > TurnSeconds / 4 || IsAtEnd())
            {
                note?.Invoke(at);
                noted = clock();
            }
            turn = Math.Max(1, (long)(turn * Math.Clamp(TurnSeconds / Math.Max(seconds, 1e-9), 0.25, 4)));
        } while (!IsAtEnd());
        return at;

        bool IsAtEnd() => at.To >= To || at.Trouble is not null || stop.IsCancellationRequested;
    }
}
