using System.IO.Compression;
using Reckoner.Diagnostics;

namespace Reckoner.Documents.HandedIn;

/// <summary>
/// The files of an archive, as learning platforms give them out: one folder or one archive for each student. Nothing is put on a
/// disk, so that names which lead out of a folder lead nowhere.
/// </summary>
internal static class HandedArchive
{
    /// <summary>Archives in archives, no deeper.</summary>
    private const int Deepest = 3;

    /// <summary>So many files, and so many bytes of them in all, are read of one archive.</summary>
    private const int MostFiles = 20_000;
    private const long MostBytes = 2_000_000_000;

    /// <summary>The file itself where it is no archive of files.</summary>
    public static IEnumerable<HandedFile> Of(HandedFile file) => Of(file, Deepest);

    private static IEnumerable<HandedFile> Of(HandedFile file, int deepest)
    {
        if (file.Trouble is not null || FileKind.Of(file) != HandedKind.Archive)
        {
            return [file];
        }
        return deepest == 0
            ? [file with { Trouble = new Term("handed.too-deep") }]
            : Inside(file, new MemoryStream(file.Bytes), deepest);
    }

    /// <summary>The same of an archive that is too long to be held at once.</summary>
    /// <param name="file">Its name and time.</param>
    public static IEnumerable<HandedFile> Of(HandedFile file, Stream stream) => Inside(file, stream, Deepest);

    private static IEnumerable<HandedFile> Inside(HandedFile file, Stream stream, int deepest)
    {
        var (count, bytes) = (0, 0L);
        ZipArchive archive;
        HandedFile? broken = null;
        var files = new List<ZipArchiveEntry>();
        try
        {
            archive = new ZipArchive(stream, ZipArchiveMode.Read);
            files = [.. archive.Entries.Where(e => e.Name.Length > 0).OrderBy(e => e.FullName, StringComparer.Ordinal)];
        }
        catch (InvalidDataException)
        {
            broken = file with { Trouble = new Term("handed.broken") };
            archive = null!;
        }
        if (broken is not null)
        {
            yield return broken;
            yield break;
        }
        using (archive)
        {
            if (files.Count == 0)
            {
                yield return file with
                {
                    Trouble = new Term("handed.empty"),
                };
            }
            foreach (var entry in files)
            {
                if (++count > MostFiles || bytes > MostBytes)
                {
                    yield return file with
                    {
                        Trouble = new Term("handed.too-many"),
                    };
                    yield break;
                }
                var inner = Read(file, entry);
                bytes += inner.Bytes.Length;
                foreach (var one in Of(inner, deepest - 1))
                {
                    yield return one;
                }
            }
        }
    }

    private static HandedFile Read(HandedFile file, ZipArchiveEntry entry)
    {
        var path = $"{file.Path}/{entry.FullName.Replace('\\', '/')}";
        var read = new HandedFile(path, entry.LastWriteTime, []);
        try
        {
            using var stream = new LimitedStream(entry.Open(), HandedFile.Largest);
            using var bytes = new MemoryStream();
            stream.CopyTo(bytes);
            return read with { Bytes = bytes.ToArray() };
        }
        catch (TooMuchException)
        {
            return read with { Trouble = new Term("handed.too-large") };
        }
        catch (Exception e) when (e is InvalidDataException or NotSupportedException or IOException)
        {
            return read with { Trouble = new Term(entry.IsEncrypted ? "handed.locked" : "handed.broken") };
        }
    }
}
