using Reckoner.Diagnostics;
using Reckoner.Running;

namespace Reckoner.Cli;

/// <summary>Writes files whole or not at all; what is there stays unless --overwrite is said.</summary>
internal static class OutputFile
{
    public static bool Write(Session session, Request request, RequestWord file, Action<Stream> write) =>
        Write(session, request, file, [new NewFile(file.Text, write)]);

    /// <summary>Several files of one request: all are written beside their places before the first is put there.</summary>
    public static bool Write(Session session, Request request, RequestWord file, IReadOnlyList<NewFile> files)
    {
        var replaces = request.Has(Option.Overwrite);
        return MayBe(request, file, [.. files.Select(f => f.Path)], replaces)
            && Put(session.Disk, request, file, files, replaces);
    }

    /// <summary>A file that was asked to be rewritten.</summary>
    public static bool Replace(Session session, Request request, RequestWord file, byte[] bytes) =>
        MayBe(request, file, [file.Text], replaces: true)
        && Put(session.Disk, request, file, [NewFile.Of(file.Text, bytes)], replaces: true);

    /// <summary>A link is there also where what it leads to is not.</summary>
    public static bool IsThere(string path) => File.Exists(path) || new FileInfo(path).LinkTarget is not null;

    /// <summary>
    /// Whether files may be put in these places, or with a reason in the request's report: found before anything is put anywhere,
    /// since of several all are written or none.
    /// </summary>
    public static bool MayBe(Request request, RequestWord file, IReadOnlyList<string> paths, bool replaces)
    {
        if (paths.FirstOrDefault(IsThere) is { } there && !replaces)
        {
            request.Report.Add(Id.FileExists, file.Span, ("file", there));
            return false;
        }
        if (paths.FirstOrDefault(Directory.Exists) is { } folder)
        {
            Refuse(request, file, folder, new Term("is-folder"));
            return false;
        }
        if (paths.FirstOrDefault(p => IsThere(p) && !PlainFile.IsReplaceable(p)) is { } odd)
        {
            Refuse(request, file, odd, new Term("is-no-file"));
            return false;
        }
        return true;
    }

    private static bool Put(Disk disk, Request request, RequestWord file, IReadOnlyList<NewFile> files, bool replaces)
    {
        try
        {
            new FileExchange(disk, replaces).Put(files);
            return true;
        }
        catch (Exception e) when (Disk.IsTrouble(e))
        {
            Refuse(request, file, file.Text, Trouble.Of(e));
            return false;
        }
    }

    /// <summary>Says that a file cannot be written.</summary>
    public static void Refuse(Request request, RequestWord word, string file, object reason) =>
        request.Report.Add(Id.FileUnwritable, word.Span, ("file", file), ("reason", reason));
}
