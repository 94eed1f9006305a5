using System.Text;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Running;

namespace Reckoner.Cli;

/// <summary>Finds and reads the machine that a request names: one of the catalogue, or a file (a name with / or a dot).</summary>
internal static class MachineFiles
{
    private const long LargestFile = 2_000_000;

    public static bool IsFile(string name) =>
        name.Contains('/', StringComparison.Ordinal)
        || name.Contains('\\', StringComparison.Ordinal)
        || name.Contains('.', StringComparison.Ordinal);

    /// <summary>The machine as it is described; null with the reason in the request's report.</summary>
    public static Machine? Read(Request request, RequestWord word)
    {
        if (!IsFile(word.Text))
        {
            if (MachineCatalogue.Find(word.Text) is { } known)
            {
                return Machine.Read(known, MachineCatalogue.Find);
            }
            request.Report.Add(
                Id.NoSuchMachine,
                word.Span,
                ("machine", word.Text),
                ("near", NearNames.Of(word.Text, MachineCatalogue.Names))
            );
            return null;
        }
        if (request.Defaults is { } defaults && !defaults.IsInside(word, request.Report))
        {
            return null;
        }
        var path = Path.Combine(request.Folder, word.Text);
        var read = request.Defaults is null
            ? ReadText(path, word.Span, request.Report, word.Text)
            : ReadNamed(path, word, request.Report);
        if (read is not { } text)
        {
            return null;
        }
        var folder = Path.GetDirectoryName(Path.GetFullPath(path))!;
        var machine = Machine.Read(
            new Source(Path.GetFileName(path), text),
            name => Beside(request, word, folder, name) ?? MachineCatalogue.Find(name)
        );
        return request.Report.HasErrors ? null : machine;
    }

    /// <summary>
    /// A machine named by another is looked for beside the file first; one that cannot be read counts as not there. A lesson reads
    /// nothing outside its folder, so that there a link is refused.
    /// </summary>
    private static Source? Beside(Request request, RequestWord word, string folder, string name)
    {
        var path = Path.Combine(folder, name + ".machine");
        if (request.Defaults is not null && new FileInfo(path).LinkTarget is not null)
        {
            request.Report.Add(Id.FileOutside, word.Span, ("file", name + ".machine"));
            return null;
        }
        var text = PlainFile.HasLength(path) ? ReadText(path, default, new Report(null)) : null;
        return text is null ? null : new Source(name + ".machine", text);
    }

    /// <summary>A file that a text names and not the person at the keyboard, who may well name a pipe.</summary>
    public static string? ReadNamed(string path, RequestWord named, Report report)
    {
        if (!File.Exists(path) || PlainFile.HasLength(path))
        {
            return ReadText(path, named.Span, report, named.Text);
        }
        report.Add(Id.FileUnreadable, named.Span, ("file", named.Text), ("reason", new Term("is-empty")));
        return null;
    }

    /// <param name="named">How the file was named, where the path says more than that.</param>
    public static string? ReadText(string path, Span span, Report report, string? named = null)
    {
        var said = named ?? path;
        try
        {
            if (Directory.Exists(path))
            {
                report.Add(Id.FileUnreadable, span, ("file", said), ("reason", new Term("is-folder")));
                return null;
            }
            if (!File.Exists(path))
            {
                report.Add(Id.NoSuchFile, span, ("file", said));
                return null;
            }
            using var stream = File.OpenRead(path);
            var bytes = new byte[LargestFile + 1];
            var length = stream.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
            if (length > LargestFile)
            {
                report.Add(
                    Id.FileTooLarge,
                    span,
                    ("file", said),
                    ("size", stream.CanSeek ? stream.Length : length),
                    ("limit", LargestFile)
                );
                return null;
            }
            return Decoded(bytes.AsSpan(0, length), said, span, report);
        }
        catch (Exception e) when (Disk.IsTrouble(e))
        {
            report.Add(Id.FileUnreadable, span, ("file", said), ("reason", Trouble.Of(e)));
            return null;
        }
    }

    private static string? Decoded(ReadOnlySpan<byte> bytes, string path, Span span, Report report)
    {
        for (var at = 0; at < bytes.Length; )
        {
            if (Rune.DecodeFromUtf8(bytes[at..], out _, out var consumed) != System.Buffers.OperationStatus.Done)
            {
                report.Add(Id.FileNotText, span, ("file", path), ("place", at));
                return null;
            }
            at += consumed;
        }
        return Encoding.UTF8.GetString(bytes);
    }

    /// <summary>The hardware a request asks for; null when something is wrong, which has been said.</summary>
    public static Datapath? Bind(Session session, Request request, bool remarks) =>
        session.Asked(request, Asking.Machine(request)?.Bind(), remarks);
}
