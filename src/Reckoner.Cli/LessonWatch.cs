using System.Threading.Channels;
using Reckoner.Host;

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
        // Begun before the first build, so that nothing that is saved meanwhile is missed.
        var saved = Channel.CreateBounded<bool>(
            new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite }
        );
        using var watcher = Watcher(request, () => saved.Writer.TryWrite(true));
        if (LessonVerb.Build(session, request, replaces: false) is not Exit.Done and var wrong)
        {
            return wrong;
        }
        try
        {
            session.UntilStopped(stop => Served(session, request, port, saved.Reader, stop));
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
        int port,
        ChannelReader<bool> saved,
        CancellationToken stop
    )
    {
        using var end = CancellationTokenSource.CreateLinkedTokenSource(stop);
        var rebuilt = Rebuilt(session, request, saved, end.Token);
        try
        {
            var pack = Path.GetFullPath(request[Option.Output]!.Value.Text);
            await PageHost.Run(
                pack,
                port,
                address => OpenVerb.Opened(session, request, address),
                stop,
                isWatched: true
            );
        }
        finally
        {
            await end.CancelAsync();
            await rebuilt;
        }
    }

    private static async Task Rebuilt(
        Session session,
        Request request,
        ChannelReader<bool> saved,
        CancellationToken stop
    )
    {
        try
        {
            while (await saved.WaitToReadAsync(stop))
            {
                await Task.Delay(Quiet, stop);
                saved.TryRead(out _);
                request.Report.Clear();
                // What is wrong is said, and the pack stays as it was until it is mended.
                try
                {
                    LessonVerb.Build(session, request, replaces: true);
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

    /// <summary>Of everything below the lesson's folder, the pack excepted.</summary>
    private static FileSystemWatcher? Watcher(Request request, Action saved)
    {
        var folder = Path.GetDirectoryName(Path.GetFullPath(request.File!.Value.Text))!;
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
