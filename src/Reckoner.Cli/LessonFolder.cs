using Reckoner.Diagnostics;
using Reckoner.Running;

namespace Reckoner.Cli;

/// <summary>
/// Writes the files of a pack into a folder, all or none. A new folder is made beside its place and put there in one step. One that
/// has something in it is left alone without --overwrite; nothing is ever deleted from it, and of its files only those of the pack
/// are replaced.
/// </summary>
internal static class LessonFolder
{
    public static bool Write(Request request, RequestWord folder, IReadOnlyList<(string Path, byte[] Bytes)> files)
    {
        if (File.Exists(folder.Text))
        {
            request.Report.Add(Id.FileUnwritable, folder.Span, ("file", folder.Text), ("reason", new Term("is-file")));
            return false;
        }
        if (!Directory.Exists(folder.Text))
        {
            return Fresh(request, folder, files);
        }
        var placed = files.Select(f => (Path: Path.Combine([folder.Text, .. f.Path.Split('/')]), f.Bytes)).ToList();
        if (Directory.EnumerateFileSystemEntries(folder.Text).Any())
        {
            if (!request.Has(Option.Overwrite))
            {
                request.Report.Add(Id.FolderNotEmpty, folder.Span, ("folder", folder.Text));
                return false;
            }
            var lesson = Path.GetFullPath(request.File!.Value.Text);
            if (placed.Any(f => Path.GetFullPath(f.Path) == lesson))
            {
                request.Report.Add(Id.PackOverLesson, folder.Span, ("file", request.File!.Value.Text));
                return false;
            }
        }
        var made = new Stack<string>();
        var written = false;
        try
        {
            foreach (var path in placed.Select(f => Path.GetDirectoryName(Path.GetFullPath(f.Path))!).Distinct())
            {
                Make(path, made);
            }
            written = OutputFile.Write(request, folder, placed);
        }
        catch (Exception e)
            when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            request.Report.Add(Id.FileUnwritable, folder.Span, ("file", folder.Text), ("reason", e.Message));
        }
        if (!written)
        {
            Unmake(made);
        }
        return written;
    }

    private static bool Fresh(Request request, RequestWord folder, IReadOnlyList<(string Path, byte[] Bytes)> files)
    {
        var made = new Stack<string>();
        var place = Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder.Text));
        var beside = $"{place}.{Path.GetRandomFileName()}";
        try
        {
            Make(Path.GetDirectoryName(place)!, made);
            foreach (var (path, bytes) in files)
            {
                var file = Path.Combine([beside, .. path.Split('/')]);
                Directory.CreateDirectory(Path.GetDirectoryName(file)!);
                File.WriteAllBytes(file, bytes);
            }
            Directory.Move(beside, place);
            return true;
        }
        catch (Exception e)
            when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            // The system speaks of the folder beside, of which nobody knows.
            var reason = e.Message.Replace(beside, folder.Text, StringComparison.Ordinal);
            request.Report.Add(Id.FileUnwritable, folder.Span, ("file", folder.Text), ("reason", reason));
            if (Directory.Exists(beside))
            {
                Directory.Delete(beside, recursive: true);
            }
            Unmake(made);
            return false;
        }
    }

    private static void Unmake(Stack<string> made)
    {
        foreach (var empty in made.Where(m => Directory.Exists(m) && !Directory.EnumerateFileSystemEntries(m).Any()))
        {
            Directory.Delete(empty);
        }
    }

    /// <summary>Makes a folder and those above it, and notes which were not there, the innermost on top.</summary>
    private static void Make(string folder, Stack<string> made)
    {
        if (Directory.Exists(folder))
        {
            return;
        }
        if (Path.GetDirectoryName(folder) is { } above)
        {
            Make(above, made);
        }
        Directory.CreateDirectory(folder);
        made.Push(folder);
    }
}
