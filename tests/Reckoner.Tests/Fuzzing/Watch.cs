using System.Collections.Concurrent;
using System.Diagnostics;
using Xunit;

namespace Reckoner.Tests;

/// <summary>
/// Checks many texts on threads of small stacks. A text that takes long is reported, one that seems to take forever fails the test
/// while it is still being worked on.
/// </summary>
internal sealed class Watch(Func<int, string> makeText, Action<int, string> check)
{
    private static readonly TimeSpan Long = TimeSpan.FromSeconds(5);

    /// <summary>What has not ended by then hangs.</summary>
    public TimeSpan Forever { get; init; } = TimeSpan.FromSeconds(60);

    /// <summary>Half of what a thread has by itself: deep recursion must show.</summary>
    private const int StackBytes = 768 * 1024;

    private readonly ConcurrentDictionary<int, (int Seed, string Text, long Since)> working = new();
    private readonly ConcurrentQueue<string> failures = new();
    private readonly ConcurrentDictionary<int, string> slow = new();
    private int next;

    /// <summary>Texts from the seeds first, first + 1, ...; fails with the seed and text of what went wrong.</summary>
    public void Run(int first, int count)
    {
        var workers = Enumerable
            .Range(0, Environment.ProcessorCount)
            .Select(w => new Thread(() => Work(w, first, count), StackBytes) { IsBackground = true })
            .ToList();
        workers.ForEach(w => w.Start());
        while (workers.Exists(w => !w.Join(TimeSpan.FromMilliseconds(100))))
        {
            Look();
        }
        foreach (var text in slow.Values)
        {
            TestContext.Current.AddWarning(text);
        }
        Assert.True(failures.IsEmpty, string.Join("\n\n", failures.Take(3)));
    }

    private void Work(int worker, int first, int count)
    {
        for (
            var i = Interlocked.Increment(ref next) - 1;
            i < count && failures.IsEmpty;
            i = Interlocked.Increment(ref next) - 1
        )
        {
            var seed = unchecked(first + i);
            var text = makeText(seed);
            working[worker] = (seed, text, Stopwatch.GetTimestamp());
            try
            {
                check(seed, text);
            }
            catch (Exception e)
            {
                failures.Enqueue($"{Told(seed, text)}\n{e}");
            }
            working.TryRemove(worker, out _);
        }
    }

    private void Look()
    {
        foreach (var (seed, text, since) in working.Values)
        {
            var taken = Stopwatch.GetElapsedTime(since);
            if (taken > Long)
            {
                slow[seed] = $"more than {Long.TotalSeconds} s for {Told(seed, text)}";
            }
            Assert.True(taken < Forever, $"no end after {Forever.TotalSeconds} s: {Told(seed, text)}");
        }
    }

    private static string Told(int seed, string text) => $"RECKONER_SEED={seed}, text:\n{text}";
}
