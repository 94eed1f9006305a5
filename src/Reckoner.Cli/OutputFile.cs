using System.Text;
using Reckoner.Diagnostics;
using Reckoner.Running;

namespace Reckoner.Cli;

/// <summary>Writes files whole or not at all; what is there stays unless --overwrite is said.</summary>
internal static class OutputFile
{
    public static bool Write(Request request, RequestWord file, string text) =>
        Write(request, file, [(file.Text, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false).GetBytes(text))]);

    /// <summary>Several files of one request: all are written beside their places before the first is put there.</summary>
    public static bool Write(Request request, RequestWord file, IReadOnlyList<(string Path, byte[] Bytes)> files) =>
        Write(request, file, files, request.Has(Option.Overwrite));

    /// <summary>A file that was asked to be rewritten.</summary>
    public static bool Replace(Request request, RequestWord file, byte[] bytes) =>
        Write(request, file, [(file.Text, bytes)], replaces: true);

    /// <summary>A link is there also where what it leads to is not.</summary>
    private static bool IsThere(string path) => File.Exists(path) || new FileInfo(path).LinkTarget is not null;

    private static bool Write(
        Request request,
        RequestWord file,
        IReadOnlyList<(string Path, byte[] Bytes)> files,
        bool replaces
    )
    {
        var there = files.Select(f => f.Path).FirstOrDefault(IsThere);
        if (there is not null && !replaces)
        {
            request.Report.Add(Id.FileExists, file.Span, ("file", there));
            return false;
        }
        if (files.Select(f => f.Path).FirstOrDefault(Directory.Exists) is { } folder)
        {
            // Found before anything is put in its place, since of several files all are written or none.
            request.Report.Add(Id.FileUnwritable, file.Span, ("file", folder), ("reason", new Term("is-folder")));
            return false;
        }
        if (files.Select(f => f.Path).FirstOrDefault(p => IsThere(p) && !PlainFile.IsReplaceable(p)) is { } odd)
        {
            request.Report.Add(Id.FileUnwritable, file.Span, ("file", odd), ("reason", new Term("is-no-file")));
            return false;
        }
        List<(string From, string To)> moves = [.. files.Select(f => ($"{f.Path}.{Path.GetRandomFileName()}", f.Path))];
        try
        {
            foreach (var ((beside, _), (_, bytes)) in moves.Zip(files))
            {
                File.WriteAllBytes(beside, bytes);
            }
            if (!OperatingSystem.IsWindows())
            {
                foreach (var (from, to) in moves.Where(m => File.Exists(m.To)))
                {
                    File.SetUnixFileMode(from, File.GetUnixFileMode(to));
                }
            }
            if (moves is [var one])
            {
                // The system exchanges one in one step.
                File.Move(one.From, one.To, replaces);
            }
            else
            {
                new FileExchange(File.Move).Run(moves);
            }
            return true;
        }
        catch (Exception e)
            when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            // The system speaks of the file beside, of which nobody knows.
            var reason = moves.Aggregate(e.Message, (said, m) => said.Replace(m.From, m.To, StringComparison.Ordinal));
            request.Report.Add(Id.FileUnwritable, file.Span, ("file", file.Text), ("reason", reason));
            return false;
        }
        finally
        {
            // Nothing is left where the move failed; what cannot be removed could not be written either.
            foreach (var (beside, _) in moves.Where(m => File.Exists(m.From)))
            {
                File.Delete(beside);
            }
        }
    }
}
