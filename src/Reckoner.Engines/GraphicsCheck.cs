using System.Diagnostics;
using Reckoner.Checking;
using Reckoner.Diagnostics;

namespace Reckoner.Engines;

/// <summary>
/// A check on graphics processors. Each takes the next stretch of steps that is free, so long that it answers within a fraction of
/// a second; what counts is the one stretch from the beginning that was covered without a gap. Where something fails, the rows
/// that are marked are run again here as far as they may hold the smallest failing operands.
/// </summary>
internal sealed class GraphicsCheck
{
    /// <summary>How long a launch is to take.</summary>
    private const double LaunchSeconds = 0.15;

    /// <summary>The first launch has so many threads, in powers of two, and none has more than <see cref="MostThreadBits"/>.</summary>
    private const int FirstThreadBits = 16;
    private const int MostThreadBits = 30;
    private const int MostRows = 1 << 22;

    /// <summary>So many steps at either end are counted here too, before any count is believed.</summary>
    private const int Compared = 2;

    private readonly CheckProgram check;
    private readonly PtxKernel kernel;
    private readonly long to;
    private readonly Action<long>? covered;
    private readonly CancellationToken stop;
    private readonly Lock gate = new();
    private readonly SortedDictionary<long, (long To, IReadOnlyList<SectionCount> Counts)> ahead = [];
    private readonly long from;
    private long taken;
    private long reached;
    private IReadOnlyList<SectionCount> counts;
    private Diagnostic? trouble;

    private GraphicsCheck(
        CheckProgram check,
        PtxKernel kernel,
        long from,
        long to,
        Action<long>? covered,
        CancellationToken stop
    )
    {
        this.check = check;
        this.kernel = kernel;
        this.from = taken = reached = from;
        this.to = to;
        this.covered = covered;
        this.stop = stop;
        counts = CheckRun.Nothing(check);
    }

    /// <summary>Runs steps from..to (to not included) of a check on kernels made ready, one for each processor.</summary>
    /// <param name="firstRows">So many rows are in the first launches; later ones have as many as there is time for.</param>
    public static (long To, IReadOnlyList<SectionCount> Counts, Diagnostic? Trouble) Run(
        CheckProgram check,
        PtxKernel kernel,
        IReadOnlyList<IGraphicsKernel> processors,
        long from,
        long to,
        Action<long>? covered,
        CancellationToken stop,
        int? firstRows = null
    )
    {
        var run = new GraphicsCheck(check, kernel, from, to, covered, stop);
        var rows = firstRows ?? Math.Max(1, 1 << Math.Max(0, FirstThreadBits - kernel.WordBits));
        // A thread for each, however few cores there are: it waits for its processor nearly all the time.
        Task.WaitAll([
            .. processors.Select(p =>
                Task.Factory.StartNew(
                    () => run.Work(p, rows),
                    CancellationToken.None,
                    TaskCreationOptions.LongRunning,
                    TaskScheduler.Default
                )
            ),
        ]);
        return (run.reached, run.counts, run.trouble);
    }

    /// <summary>Whether a processor counts at both ends what is counted here.</summary>
    public static bool Agrees(CheckProgram check, IGraphicsKernel processor, long from, long to)
    {
        var middle = Math.Min(to, from + Compared);
        return AgreesOn(from, middle) && AgreesOn(Math.Max(middle, to - Compared), to);

        bool AgreesOn(long first, long end)
        {
            if (first >= end)
            {
                return true;
            }
            var run = new CheckRun(check, InterpretedEngine.Widest);
            run.Run(first, end);
            var counted = processor.Run(first, end).Counts;
            return run
                .Counts.Select((c, s) => c.Cases == counted[2 * s] && c.Failures == counted[2 * s + 1])
                .All(same => same);
        }
    }

    private void Work(IGraphicsKernel processor, int rows)
    {
        var most = (int)Math.Min(MostRows, 1L << (MostThreadBits - kernel.WordBits));
        try
        {
            while (Take(rows) is var (begin, end))
            {
                var began = Stopwatch.GetTimestamp();
                var outcome = processor.Run(begin, end);
                var seconds = Stopwatch.GetElapsedTime(began).TotalSeconds;
                Keep(begin, end, Counted(processor, outcome, begin, end));
                rows = (int)Math.Clamp(rows * Math.Clamp(LaunchSeconds / seconds, 0.25, 4), 1, most);
            }
        }
        catch (GraphicsException e)
        {
            lock (gate)
            {
                trouble ??= e.Diagnostic;
            }
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            // Stopped while it looked for the smallest failing operands: its stretch does not count.
        }
        catch
        {
            lock (gate)
            {
                // No more for the others: the fault is to be told now.
                taken = to;
            }
            throw;
        }
    }

    /// <summary>The next stretch, which ends with a row; null where there is none, or the work is to end.</summary>
    private (long Begin, long End)? Take(int rows)
    {
        lock (gate)
        {
            if (taken >= to || trouble is not null || stop.IsCancellationRequested)
            {
                return null;
            }
            var begin = taken;
            taken = Math.Min(to, ((begin >> kernel.RowBits) + rows) << kernel.RowBits);
            return (begin, taken);
        }
    }

    /// <summary>Joins a stretch to what is covered without a gap, if it does join it, with those that were waiting for it.</summary>
    private void Keep(long begin, long end, IReadOnlyList<SectionCount> more)
    {
        lock (gate)
        {
            ahead.Add(begin, (end, more));
            while (ahead.Remove(reached, out var next))
            {
                counts = [.. counts.Zip(next.Counts, (a, b) => a + b)];
                reached = next.To;
            }
            covered?.Invoke(reached - from);
        }
    }

    private List<SectionCount> Counted(IGraphicsKernel processor, GraphicsOutcome outcome, long begin, long end) =>
        [
            .. check.Sections.Select(
                (s, i) =>
                    new SectionCount(
                        s.Section,
                        outcome.Counts[2 * i],
                        outcome.Counts[2 * i + 1],
                        outcome.Counts[2 * i + 1] == 0 ? null : Smallest(processor, i, outcome.Marks, begin, end)
                    )
            ),
        ];

    /// <summary>Null where none of this stretch can be smaller than what is known.</summary>
    /// <exception cref="GraphicsException">It counted failures, and marked none or rows without any.</exception>
    private FailingCase? Smallest(IGraphicsKernel processor, int section, byte[] marks, long begin, long end)
    {
        FailingCase? known;
        lock (gate)
        {
            known = counts[section].Smallest;
        }
        var first = begin >> kernel.RowBits;
        var marked = Enumerable
            .Range(0, kernel.Rows(begin, end))
            .Where(row => marks[row * kernel.Sections + section] != 0)
            .Select(row => (first + row) << kernel.RowBits)
            .ToList();
        if (marked.Count == 0)
        {
            throw new GraphicsException(processor.Name, new Term("graphics.wrong"));
        }
        var asked = marked
            .Select(step => (Step: step, Least: check.Space.LeastSum(step, kernel.RowBits)))
            .Where(row => known is null || row.Least <= known.Rank.Sum)
            .OrderBy(row => row.Least);
        FailingCase? smallest = null;
        foreach (var (step, least) in asked)
        {
            if (smallest is not null && least > smallest.Rank.Sum)
            {
                break;
            }
            var run = new CheckRun(check, InterpretedEngine.Widest);
            run.Run(Math.Max(begin, step), Math.Min(end, step + (1L << kernel.RowBits)), stop);
            stop.ThrowIfCancellationRequested();
            var found = run.Counts[section].Smallest;
            if (found is null)
            {
                throw new GraphicsException(processor.Name, new Term("graphics.wrong"));
            }
            smallest = FailingCase.Smaller(smallest, found);
        }
        return smallest;
    }
}
