using Reckoner.Diagnostics;
using Reckoner.Running;

namespace Reckoner.Cli;

/// <summary>
/// Writes the files of a pack into a folder, all or none, in one step wherever that can be done. One that has something in it is
/// left alone without --overwrite; nothing is ever deleted from it, and of its files only those of the pack are replaced.
/// </summary>
internal static class LessonFolder
{
    /// <param name="replaces">Whether what stands there is a pack of ours from just before.</param>
    public static bool Write(
        Session session,
        Request request,
        RequestWord folder,
        IReadOnlyList<(string Path, byte[] Bytes)> pack,
        bool replaces
    ) => Write(session, request, folder, [.. pack.Select(f => NewFile.Of(f.Path, f.Bytes))], replaces);

    /// <param name="files">By their paths in the folder; each is made when it is written, in their order.</param>
    public static bool Write(
        Session session,
        Request request,
        RequestWord folder,
        IReadOnlyList<NewFile> files,
        bool replaces
    )
    {
        if (File.Exists(folder.Text))
        {
            OutputFile.Refuse(request, folder, folder.Text, new Term("is-file"));
            return false;
        }
        var place = Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder.Text));
        List<NewFile> placed = [.. files.Select(f => f with { Path = Within(place, f.Path) })];
        if (
            IsOverLesson(request, folder, placed)
            || (
                !replaces
                && Directory.Exists(place)
                && !MayReplace(request, folder, place, [.. placed.Select(f => f.Path)])
            )
        )
        {
            return false;
        }
        var made = new MadeFolders(session.Disk);
        try
        {
            made.Make(Path.GetDirectoryName(place) ?? place);
            if (!Directory.Exists(place))
            {
                new FolderExchange(session.Disk, place).Make(files);
            }
            else if (!IsExchanged(session.Disk, place, files))
            {
                placed.ForEach(f => made.Make(Path.GetDirectoryName(f.Path)!));
                new FileExchange(session.Disk, replaces: true).Put(placed);
            }
            return true;
        }
        catch (Exception e) when (Disk.IsTrouble(e))
        {
            OutputFile.Refuse(request, folder, folder.Text, Trouble.Of(e));
            made.Unmake();
            return false;
        }
        catch
        {
            made.Unmake();
            throw;
        }
    }

    private static string Within(string folder, string path) => Path.Combine([folder, .. path.Split('/')]);

    /// <summary>Whether the lesson itself would be replaced; also where a pack of just before may be, which had no such file.</summary>
    private static bool IsOverLesson(Request request, RequestWord folder, IReadOnlyList<NewFile> placed)
    {
        if (request.File is not { } lesson || !placed.Any(f => f.Path == Path.GetFullPath(lesson.Text)))
        {
            return false;
        }
        request.Report.Add(Id.PackOverLesson, folder.Span, ("file", lesson.Text));
        return true;
    }

    /// <summary>Whether the lesson lies in the folder of its pack, however deep.</summary>
    public static bool Holds(RequestWord folder, string lesson)
    {
        var place = Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder.Text));
        return Path.GetFullPath(lesson).StartsWith(place + Path.DirectorySeparatorChar, StringComparison.Ordinal);
    }

    private static bool MayReplace(Request request, RequestWord folder, string place, IReadOnlyList<string> paths)
    {
        if (Directory.EnumerateFileSystemEntries(place).Any())
        {
            if (!request.Has(Option.Overwrite))
            {
                request.Report.Add(Id.FolderNotEmpty, folder.Span, ("folder", folder.Text));
                return false;
            }
        }
        return OutputFile.MayBe(request, folder, paths, replaces: true);
    }

    /// <summary>False where that cannot be done here: then files are exchanged one by one.</summary>
    private static bool IsExchanged(Disk disk, string place, IReadOnlyList<NewFile> files)
    {
        if (!FolderExchange.IsFor(place))
        {
            return false;
        }
        try
        {
            new FolderExchange(disk, place).Replace(files);
            return true;
        }
        catch (Exception e) when (Disk.IsTrouble(e))
        {
            // What cannot be done at all fails again.
            return false;
        }
    }

    /// <summary>Folders that were made on the way, the innermost on top.</summary>
    private sealed class MadeFolders(Disk disk)
    {
        private readonly Stack<string> made = new();

        /// <summary>Makes a folder and those above it.</summary>
        public void Make(string folder)
        {
            if (Directory.Exists(folder))
            {
                return;
            }
            if (Path.GetDirectoryName(folder) is { } above)
            {
                Make(above);
            }
            disk.MakeFolder(folder);
            made.Push(folder);
        }

        public void Unmake()
        {
            foreach (
                var empty in made.Where(m => Directory.Exists(m) && !Directory.EnumerateFileSystemEntries(m).Any())
            )
            {
                Disk.Try(() => disk.DeleteFolder(empty));
            }
        }
    }
}
