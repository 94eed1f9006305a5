namespace Reckoner.Engines;

/// <summary>
/// Work with a driver that goes on when nobody waits for it any more, such as compiling for a check that was stopped. A call of the
/// driver cannot be broken off, and a process that ends in the middle of one may crash in it: so its end waits for them.
/// </summary>
internal static class DriverWork
{
    /// <summary>The longest call that was seen, a large kernel compiled for the first time, took half of it. A driver that hangs must
    /// not keep the process.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(3);

    private static readonly Lock Gate = new();
    private static readonly HashSet<Task> Going = [];
    private static bool isEndWatched;

    /// <summary>Begins it on a thread of its own.</summary>
    public static Task<T> Begin<T>(Func<T> work)
    {
        var task = new Task<T>(work, TaskCreationOptions.LongRunning);
        lock (Gate)
        {
            if (!isEndWatched)
            {
                AppDomain.CurrentDomain.ProcessExit += (_, _) => Finish(Patience);
                isEndWatched = true;
            }
            Going.Add(task);
        }
        _ = task.ContinueWith(Forget, TaskScheduler.Default);
        task.Start(TaskScheduler.Default);
        return task;
    }

    private static void Forget(Task done)
    {
        lock (Gate)
        {
            Going.Remove(done);
        }
    }

    /// <summary>Waits until all of it is done, however it ended, but no longer than that.</summary>
    internal static void Finish(TimeSpan patience)
    {
        Task[] going;
        lock (Gate)
        {
            going = [.. Going];
        }
        // Of a task that failed nobody is left who would ask why.
        Task.WhenAll(going).ContinueWith(_ => { }, TaskScheduler.Default).Wait(patience);
    }
}
