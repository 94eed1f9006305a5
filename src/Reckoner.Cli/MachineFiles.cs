using System.Numerics;
using System.Text;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Reckoner.Running;
using Reckoner.Slips;

namespace Reckoner.Cli;

/// <summary>Finds and reads the machine that a request names: one of the catalogue, or a file (a name with / or a dot).</summary>
internal static class MachineFiles
{
    private const long LargestFile = 2_000_000;

    public static bool IsFile(string name) =>
        name.Contains('/', StringComparison.Ordinal)
        || name.Contains('\\', StringComparison.Ordinal)
        || name.Contains('.', StringComparison.Ordinal);

    /// <summary>The machine, with the slip that is asked for, or null with the reason in the request's report.</summary>
    public static IMachine? Read(Request request) => Read(request, request.Machine!.Value);

    private static IMachine? Read(Request request, RequestWord word)
    {
        if (ReadRight(request, word) is not { } machine)
        {
            return null;
        }
        if (request.SlipOf(word) is not { } asked || machine.Found.Any(d => d.Severity == Severity.Error))
        {
            return machine;
        }
        var slips = Slip.Of(machine);
        if (slips.FirstOrDefault(s => s.Name == asked.Text) is { } slip)
        {
            return slip.Machine;
        }
        ReportSlip(request, asked, machine.Name, slips.Select(s => s.Name));
        return null;
    }

    /// <summary>Says that a machine has no slip of that name, with the near ones.</summary>
    public static void ReportSlip(Request request, RequestWord asked, string machine, IEnumerable<string> names) =>
        request.Report.Add(
            Id.UnknownSlip,
            asked.Span,
            ("machine", machine),
            ("slip", asked.Text),
            ("near", NearNames.Of(asked.Text, names))
        );

    private static IMachine? ReadRight(Request request, RequestWord word)
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
        if (ReadText(path, word.Span, request.Report, word.Text) is not { } text)
        {
            return null;
        }
        var folder = Path.GetDirectoryName(Path.GetFullPath(path))!;
        return Machine.Read(
            new Source(Path.GetFileName(path), text),
            name => Beside(folder, name) ?? MachineCatalogue.Find(name)
        );
    }

    /// <summary>A machine named by another is looked for beside the file first; one that cannot be read counts as not there.</summary>
    private static Source? Beside(string folder, string name)
    {
        var path = Path.Combine(folder, name + ".machine");
        var text = File.Exists(path) ? ReadText(path, default, new Report(null)) : null;
        return text is null ? null : new Source(name + ".machine", text);
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
        catch (Exception e)
            when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            report.Add(Id.FileUnreadable, span, ("file", said), ("reason", e.Message));
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

    /// <summary>The widths that --width asks for: a number for the main one, or name=number, several joined by commas.</summary>
    public static Dictionary<string, BigInteger>? Widths(Request request, IMachine machine) =>
        request[Option.Width] is { } asked ? Widths(request, machine, asked) : [];

    public static Dictionary<string, BigInteger>? Widths(Request request, IMachine machine, RequestWord asked)
    {
        var widths = new Dictionary<string, BigInteger>();
        var names = machine.Widths.Select(w => w.Name.Text).ToList();
        if (names.Count == 0)
        {
            return widths;
        }
        foreach (var item in asked.Text.Split(','))
        {
            var parts = item.Split('=', 2);
            var name = parts.Length == 2 ? parts[0] : names[0];
            if (OperandReader.Number(parts[^1]) is not { } number || number.GetBitLength() > 64)
            {
                request.Report.Add(
                    Id.WidthNotNumber,
                    asked.Span,
                    ("value", Shortened(parts[^1])),
                    ("example", string.Join(',', names.Select((n, i) => $"{n}={8 - 4 * (i % 2)}")))
                );
                return null;
            }
            if (!names.Contains(name))
            {
                request.Report.Add(
                    Id.UnknownWidth,
                    asked.Span,
                    ("machine", machine.Name),
                    ("name", name),
                    ("known", names),
                    ("near", NearNames.Of(name, names))
                );
                return null;
            }
            if (!widths.TryAdd(name, number))
            {
                request.Report.Add(Id.OptionTwice, asked.Span, ("option", name));
                return null;
            }
        }
        return widths;
    }

    private static string Shortened(string text) => text.Length > 40 ? text[..39] + "…" : text;

    /// <summary>The hardware a request asks for, or null with everything that is wrong said.</summary>
    public static (Datapath? Datapath, int Status) Bind(Session session, Request request, bool remarks) =>
        Bind(session, request, remarks, request.Machine!.Value);

    public static (Datapath? Datapath, int Status) Bind(
        Session session,
        Request request,
        bool remarks,
        RequestWord word
    )
    {
        if (Read(request, word) is not { } machine || Widths(request, machine) is not { } widths)
        {
            return (null, session.Refuse(request));
        }
        var (datapath, found) = machine.At(widths);
        if (datapath is null)
        {
            return (
                null,
                session.Refuse([
                    .. found.Where(d => d.Severity == Severity.Error).Select(d => AsAsked(d, request, widths)),
                ])
            );
        }
        if (!IsListed(request, word, datapath))
        {
            return (null, session.Refuse(request));
        }
        if (remarks && IsFile(word.Text))
        {
            session.Remark([.. datapath.Remarks.Where(d => d.Severity == Severity.Remark)]);
        }
        return (datapath, Exit.Done);
    }

    /// <summary>Whether the slip that is asked for is one of those listed at these widths; otherwise it is said.</summary>
    public static bool IsListed(Request request, RequestWord word, Datapath datapath)
    {
        if (SlipStudy.IsListed(datapath, out var listed))
        {
            return true;
        }
        ReportSlip(request, request.SlipOf(word)!.Value, datapath.Machine.Name, listed);
        return false;
    }

    /// <summary>Whether "given" cannot be asked of all operands; then the report says so.</summary>
    public static bool IsGivenBeyondGates(Request request, Datapath datapath)
    {
        if (CheckProgram.GivenBeyondGates(datapath) is not { } given)
        {
            return false;
        }
        request.Report.Add(Id.GivenBeyondGates, request.Machine!.Value.Span, ("formula", $"{given}"));
        return true;
    }

    /// <summary>A width that was asked for and is out of range is a slip of the request, not of the description.</summary>
    public static Diagnostic AsAsked(Diagnostic diagnostic, Request request, Dictionary<string, BigInteger> widths) =>
        diagnostic.Id == Id.WidthOutOfRange
        && request[Option.Width] is { } asked
        && widths.ContainsKey((string)diagnostic.Facts[0].Value)
            ? diagnostic with
            {
                Source = request.Line,
                Span = asked.Span,
            }
            : diagnostic;
}
