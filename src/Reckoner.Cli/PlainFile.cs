using System.Formats.Tar;

namespace Reckoner.Cli;

/// <summary>Tells files from what only looks like one: pipes and devices, which may never end or lose what is put in their place.</summary>
internal static class PlainFile
{
    /// <summary>
    /// Whether a file has a length, so that reading it ends. Pipes and devices have none; nor has an empty file, in which there is
    /// nothing to read either.
    /// </summary>
    public static bool HasLength(string path)
    {
        try
        {
            // A link's own length is that of the path it holds.
            var file = new FileInfo(path);
            var behind = file.LinkTarget is null ? file : file.ResolveLinkTarget(returnFinalTarget: true);
            return behind is FileInfo { Exists: true, Length: > 0 };
        }
        catch (IOException)
        {
            // Links that lead in a circle.
            return false;
        }
    }

    /// <summary>Whether another file may be put in the place of this one: it is no link, no pipe and no device.</summary>
    public static bool IsReplaceable(string path)
    {
        var file = new FileInfo(path);
        return file.LinkTarget is null && (OperatingSystem.IsWindows() || file.Length > 0 || Kind(path) == Regular);
    }

    private const TarEntryType Regular = TarEntryType.RegularFile;

    /// <summary>Of what has no length only the entry of an archive says what kind of file it is; nothing is opened for it.</summary>
    private static TarEntryType? Kind(string path)
    {
        using var archive = new MemoryStream();
        using (var writer = new TarWriter(archive, leaveOpen: true))
        {
            writer.WriteEntry(path, "file");
        }
        archive.Position = 0;
        using var reader = new TarReader(archive);
        return reader.GetNextEntry()?.EntryType;
    }
}
