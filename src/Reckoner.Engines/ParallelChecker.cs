using System.Collections.Concurrent;
using System.Numerics;
using Reckoner.Checking;

namespace Reckoner.Engines;

/// <summary>
/// Runs a check on several threads. Steps are cut into parts that do not depend on the number of threads; each thread takes the
/// next part that is free and finishes what it took, so that what is covered is always one stretch from the beginning. Counts
/// add up, and the smallest failing operands are the smallest of all: the result is the same whatever the threads did.
/// </summary>
public static class ParallelChecker
{
    /// <summary>Gates times steps in a part: some hundredths of a second.</summary>
    private const long PartSize = 1 << 23;

    /// <param name="covered">Told the number of steps covered so far, from any thread.</param>
    /// <returns>How far it came (to not included), and the counts until there.</returns>
    public static (long To, IReadOnlyList<SectionCount> Counts) Run(
        CheckProgram check,
        IPlaneEngine engine,
        long from,
        long to,
        int threads,
        Action<long>? covered = null,
        CancellationToken stop = default
    )
    {
        var length = PartLength(check.Program);
        var parts = (to - from + length - 1) / length;
        var (taken, done) = (0L, 0L);
        var runs = new ConcurrentBag<CheckRun>();
        var workers = Math.Max(1, (int)Math.Min(threads, parts));
        Parallel.For(0, workers, new ParallelOptions { MaxDegreeOfParallelism = workers }, _ => Work());
        var counts = runs.Select(r => r.Counts)
            .Aggregate(CheckRun.Nothing(check), (sum, more) => [.. sum.Zip(more, (a, b) => a + b)]);
        return (Math.Min(to, from + taken * length), counts);

        void Work()
        {
            var run = new CheckRun(check, engine);
            runs.Add(run);
            while (Next() is { } part)
            {
                var begin = from + part * length;
                var end = Math.Min(to, begin + length);
                // A part that was taken is finished, stop or no stop: what is covered would have gaps.
                run.Run(begin, end, CancellationToken.None);
                covered?.Invoke(Interlocked.Add(ref done, end - begin));
            }
        }

        long? Next()
        {
            while (!stop.IsCancellationRequested)
            {
                var part = Interlocked.Read(ref taken);
                if (part >= parts)
                {
                    return null;
                }
                if (Interlocked.CompareExchange(ref taken, part + 1, part) == part)
                {
                    return part;
                }
            }
            return null;
        }
    }

    /// <summary>A power of two, since an oracle sets its state anew at the beginning of a part.</summary>
    private static long PartLength(PlaneProgram program)
    {
        var steps = PartSize / Math.Max(1, program.Instructions.Count);
        return 1L << BitOperations.Log2((ulong)Math.Clamp(steps, 16, 1 << 16));
    }
}
