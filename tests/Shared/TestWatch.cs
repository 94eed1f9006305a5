using System.Collections.Concurrent;
using System.Diagnostics;
using System.Reflection;
using Xunit.v3;

[assembly: Reckoner.Testing.WatchedTests]

namespace Reckoner.Testing;

/// <summary>
/// Knows which tests run and since when. One that runs for longer than any test may is named, and with it the whole run ends: a test
/// that hangs holds its thread, and nothing else could end it.
/// </summary>
internal sealed class TestWatch(Action<string> end)
{
    /// <summary>The longest quick test takes half a minute on two quiet cores.</summary>
    private static readonly TimeSpan Quick = TimeSpan.FromMinutes(15);

    /// <summary>Long ones go over hundreds of thousands of texts.</summary>
    private static readonly TimeSpan Lengthy = TimeSpan.FromHours(6);

    private readonly ConcurrentDictionary<string, (string Name, TimeSpan Limit, long Since)> running = new();

    public void Begin(string id, string name, bool isLong) =>
        running[id] = (name, isLong ? Lengthy : Quick, Stopwatch.GetTimestamp());

    public void Finish(string id) => running.TryRemove(id, out _);

    /// <param name="now">A time stamp of the stopwatch.</param>
    public void Look(long now)
    {
        var hanging = running
            .Values.Where(t => Stopwatch.GetElapsedTime(t.Since, now) > t.Limit)
            .Select(t => $"no end after {t.Limit.TotalMinutes:0} min: {t.Name}")
            .Order(StringComparer.Ordinal)
            .ToList();
        if (hanging.Count > 0)
        {
            end(string.Join('\n', hanging));
        }
    }
}

/// <summary>Watches every test of an assembly.</summary>
[AttributeUsage(AttributeTargets.Assembly)]
internal sealed class WatchedTestsAttribute : BeforeAfterTestAttribute
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(5);
    private static readonly TestWatch Watch = new(End);
    private static readonly Timer Looking = new(_ => Watch.Look(Stopwatch.GetTimestamp()), null, Pause, Pause);

    public override void Before(MethodInfo methodUnderTest, IXunitTest test)
    {
        GC.KeepAlive(Looking);
        var isLong = test.Traits.TryGetValue("Length", out var length) && length.Contains("long");
        Watch.Begin(test.UniqueID, test.TestDisplayName, isLong);
    }

    public override void After(MethodInfo methodUnderTest, IXunitTest test) => Watch.Finish(test.UniqueID);

    private static void End(string said)
    {
        Console.Error.WriteLine(said);
        Child.KillAll();
        // Whoever hangs may hold what an orderly end waits for.
        new Thread(() =>
        {
            Thread.Sleep(Pause);
            Process.GetCurrentProcess().Kill();
        })
        {
            IsBackground = true,
        }.Start();
        Environment.Exit(1);
    }
}
