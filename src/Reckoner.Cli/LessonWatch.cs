using System.Threading.Channels;
using Reckoner.Diagnostics;
using Reckoner.Host;
using Reckoner.Words;

namespace Reckoner.Cli;

/// <summary>
/// Builds a lesson, serves its pack to this machine's browsers and builds it again whenever something in the lesson's folder is
/// saved; the page that is open is then loaded anew. Ends with Ctrl-C.
/// </summary>
internal static class LessonWatch
{
    /// <summary>Editors save in several strokes.</summary>
    private static readonly TimeSpan Quiet = TimeSpan.FromMilliseconds(150);

    public static int Run(Session session, Request request)
    {
        var port = OpenVerb.Port(request);
        if (request.Report.HasErrors)
        {
            return session.Refuse(request);
        }
        if (request[Option.Output] is { } output && LessonFolder.Holds(output, request.File!.Text))
        {
            request.Report.Add(Id.PackAroundLesson, output.Span, ("folder", output.Text));
            return session.Refuse(request);
        }
        // Begun before the first build, so that nothing that is saved meanwhile is missed.
        var saved = Channel.CreateBounded<bool>(
            new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite }
        );
        using var watcher = Watcher(request, () => saved.Writer.TryWrite(true));
        var pack = new Pack(session, request);
        if (pack.Build() is not Exit.Done and var wrong)
        {
            return wrong;
        }
        try
        {
            session.UntilStopped(stop => Served(session, request, pack, port, saved.Reader, stop));
            return Exit.Done;
        }
        catch (IOException e)
        {
            return OpenVerb.Taken(session, request, e);
        }
    }

    /// <summary>Where the port cannot be had nothing is built again either.</summary>
    private static async Task Served(
        Session session,
        Request request,
        Pack pack,
        int port,
        ChannelReader<bool> saved,
        CancellationToken stop
    )
    {
        using var end = CancellationTokenSource.CreateLinkedTokenSource(stop);
        var rebuilt = Rebuilt(session, pack, saved, end.Token);
        try
        {
            await PageHost.Run(
                Path.GetFullPath(request[Option.Output]!.Text),
                port,
                address => OpenVerb.Opened(session, request, address),
                stop,
                isWatched: true,
                isServed: pack.Has
            );
        }
        finally
        {
            await end.CancelAsync();
            await rebuilt;
        }
    }

    private static async Task Rebuilt(Session session, Pack pack, ChannelReader<bool> saved, CancellationToken stop)
    {
        try
        {
            while (await saved.WaitToReadAsync(stop))
            {
                await Task.Delay(Quiet, stop);
                saved.TryRead(out _);
                // What is wrong is said, and the pack stays as it was until it is mended.
                try
                {
                    pack.Build();
                }
                catch (Exception e) when (e is IOException or UnauthorizedAccessException)
                {
                    // A file that was being exchanged while it was read; the next saving tries again.
                    session.Tell(e.Message);
                }
            }
        }
        catch (OperationCanceledException)
        {
            // The end that Ctrl-C asks for.
        }
    }

    /// <summary>The pack that is watched: built again and again, each time in the words that the command was started with.</summary>
    private sealed class Pack(Session session, Request request)
    {
        private readonly Vocabulary spoken = session.Words;
        private volatile HashSet<string>? files;

        public int Build()
        {
            // A line of the lesson that chose a language may be gone.
            session.Words = spoken;
            request.Report.Clear();
            return LessonVerb.Build(session, request, files, made => files = [.. made]);
        }

        public bool Has(string path) => files?.Contains(path) ?? false;
    }

    /// <summary>Of everything below the lesson's folder, the pack excepted.</summary>
    private static FileSystemWatcher? Watcher(Request request, Action saved)
    {
        var folder = Path.GetDirectoryName(Path.GetFullPath(request.File!.Text))!;
        if (!Directory.Exists(folder) || request[Option.Output] is not { } output)
        {
            return null;
        }
        // Beside the pack stands, for a moment, the one that takes its place.
        var pack = Path.TrimEndingDirectorySeparator(Path.GetFullPath(output.Text));
        var watcher = new FileSystemWatcher(folder) { IncludeSubdirectories = true };
        watcher.Changed += (_, e) => Tell(e.FullPath);
        watcher.Created += (_, e) => Tell(e.FullPath);
        watcher.Renamed += (_, e) => Tell(e.FullPath);
        watcher.EnableRaisingEvents = true;
        return watcher;

        bool IsOfPack(string path) =>
            path == pack
            || path.StartsWith(pack + Path.DirectorySeparatorChar, StringComparison.Ordinal)
            || FolderExchange.IsBeside(path, pack);

        void Tell(string path)
        {
            if (!IsOfPack(path) && !Directory.Exists(path))
            {
                saved();
            }
        }
    }
}
