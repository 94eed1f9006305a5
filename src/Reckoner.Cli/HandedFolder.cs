using Reckoner.Diagnostics;
using Reckoner.Documents.HandedIn;

namespace Reckoner.Cli;

/// <summary>
/// Every file of a folder, however deep, and what is packed in archives: one after the other, so that no more than one is held at a
/// time. A link is told and not followed.
/// </summary>
internal static class HandedFolder
{
    private const int Deepest = 32;

    /// <param name="path">A folder, or one file.</param>
    /// <param name="except">A folder whose files are our own; null for none.</param>
    public static IEnumerable<HandedFile> Files(string path, string? except)
    {
        var root = Path.GetFullPath(path);
        return File.Exists(root)
            ? Of(new FileInfo(root), Path.GetFileName(root))
            : Inside(new DirectoryInfo(root), "", except is null ? null : Path.GetFullPath(except), Deepest);
    }

    private static IEnumerable<HandedFile> Inside(DirectoryInfo folder, string above, string? except, int deepest)
    {
        if (
            except is not null
            && (
                folder.FullName.TrimEnd('/', '\\') == except.TrimEnd('/', '\\')
                || FolderExchange.IsBeside(folder.FullName, except.TrimEnd('/', '\\'))
            )
        )
        {
            yield break;
        }
        if (above.Length > 0 && MarkFolder.IsMarks(folder.FullName))
        {
            yield return new HandedFile(above, default, []) { IsOurs = true };
            yield break;
        }
        List<FileSystemInfo> entries = [];
        Term? trouble = null;
        try
        {
            entries = [.. folder.EnumerateFileSystemInfos().OrderBy(e => e.Name, StringComparer.Ordinal)];
        }
        catch (Exception e) when (Disk.IsTrouble(e))
        {
            trouble = (Term)Trouble.Of(e);
        }
        if (trouble is not null || deepest == 0)
        {
            yield return new HandedFile(above, default, []) { Trouble = trouble ?? new Term("handed.too-deep") };
            yield break;
        }
        foreach (var entry in entries)
        {
            var name = above.Length == 0 ? entry.Name : $"{above}/{entry.Name}";
            var files =
                entry.LinkTarget is not null ? [new HandedFile(name, default, []) { Trouble = new Term("handed.link") }]
                : entry is DirectoryInfo inner ? Inside(inner, name, except, deepest - 1)
                : Of((FileInfo)entry, name);
            foreach (var file in files)
            {
                yield return file;
            }
        }
    }

    private static IEnumerable<HandedFile> Of(FileInfo file, string name)
    {
        var handed = new HandedFile(name, default, []);
        if (handed.IsLitter)
        {
            return [handed];
        }
        Stream? stream = null;
        try
        {
            handed = handed with { Time = file.LastWriteTimeUtc };
            if (!PlainFile.HasLength(file.FullName))
            {
                return [handed];
            }
            if (file.Length <= HandedFile.Largest)
            {
                return HandedArchive.Of(handed with { Bytes = File.ReadAllBytes(file.FullName) });
            }
            stream = file.OpenRead();
            var isArchive = stream.ReadByte() == 'P' && stream.ReadByte() == 'K';
            stream.Position = 0;
            if (isArchive)
            {
                var archive = stream;
                stream = null;
                return HandedArchive.Of(handed, archive);
            }
            return [handed with { Trouble = new Term("handed.too-large") }];
        }
        catch (Exception e) when (Disk.IsTrouble(e))
        {
            return [handed with { Trouble = (Term)Trouble.Of(e) }];
        }
        finally
        {
            stream?.Dispose();
        }
    }
}
