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

    /// <summary>So many files, and so many bytes of them in all, are read of one that was handed in, with the archives in it.</summary>
    private const int MostFiles = 20_000;
    private const long MostBytes = 2_000_000_000;

    /// <summary>The file itself where it is no archive of files.</summary>
    public static IEnumerable<HandedFile> Of(HandedFile file) => Of(file, Deepest, new Budget());

    private sealed class Budget
    {
        private int files;
        private long bytes;

        public bool IsSpent => files >= MostFiles || bytes > MostBytes;

        public void Spend(HandedFile file) => (files, bytes) = (files + 1, bytes + file.Bytes.Length);
    }

    private static IEnumerable<HandedFile> Of(HandedFile file, int deepest, Budget budget)
    {
        if (file.Trouble is not null || FileKind.Of(file) != HandedKind.Archive)
        {
            return [file];
        }
        return deepest == 0
            ? [file with { Trouble = new Term("handed.too-deep") }]
            : Inside(file, new MemoryStream(file.Bytes), deepest, budget);
    }

    /// <summary>The same of an archive that is too long to be held at once.</summary>
    /// <param name="file">Its name and time.</param>
    public static IEnumerable<HandedFile> Of(HandedFile file, Stream stream) =>
        Inside(file, stream, Deepest, new Budget());

    private static IEnumerable<HandedFile> Inside(HandedFile file, Stream stream, int deepest, Budget budget)
    {
        ZipArchive? archive = null;
        HandedFile? broken = null;
        var files = new List<ZipArchiveEntry>();
        try
        {
            archive = new ZipArchive(stream, ZipArchiveMode.Read);
            if (FileKind.Of(archive) != HandedKind.Archive)
            {
                // A workbook that is too long to be read is no archive of files.
                broken = file with
                {
                    Trouble = new Term("handed.too-large"),
                };
            }
            files = [.. archive.Entries.Where(e => e.Name.Length > 0).OrderBy(e => e.FullName, StringComparer.Ordinal)];
        }
        catch (Exception e) when (FileKind.IsDamage(e))
        {
            stream.Dispose();
            broken = file with { Trouble = new Term("handed.broken") };
        }
        if (broken is not null)
        {
            archive?.Dispose();
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
                if (budget.IsSpent)
                {
                    yield return file with
                    {
                        Trouble = new Term("handed.too-many"),
                    };
                    yield break;
                }
                var inner = Read(file, entry);
                budget.Spend(inner);
                foreach (var one in Of(inner, deepest - 1, budget))
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
        if (entry.IsEncrypted)
        {
            return read with { Trouble = new Term("handed.locked") };
        }
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
        catch (Exception e) when (FileKind.IsDamage(e))
        {
            return read with { Trouble = new Term("handed.broken") };
        }
    }
}
