using Reckoner.Diagnostics;

namespace Reckoner.Cli;

/// <summary>Reads a file that a request names.</summary>
internal static class NamedFile
{
    /// <summary>Null where it cannot be read, with the reason in the request's report.</summary>
    public static byte[]? Bytes(Request request, string path, Span place, long largest)
    {
        object reason = new Term("is-empty");
        try
        {
            if (new FileInfo(path) is { Exists: true } there && there.Length > largest)
            {
                request.Report.Add(
                    Id.LessonTooLarge,
                    place,
                    ("file", path),
                    ("size", there.Length),
                    ("limit", largest)
                );
                return null;
            }
            if (PlainFile.HasLength(path))
            {
                return File.ReadAllBytes(path);
            }
            if (!File.Exists(path) && !Directory.Exists(path))
            {
                request.Report.Add(Id.NoSuchFile, place, ("file", path));
                return null;
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            reason = Trouble.Of(e);
        }
        request.Report.Add(Id.FileUnreadable, place, ("file", path), ("reason", reason));
        return null;
    }
}
