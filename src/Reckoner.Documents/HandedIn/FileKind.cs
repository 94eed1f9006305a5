using System.IO.Compression;

namespace Reckoner.Documents.HandedIn;

/// <summary>What a file is, by what stands in it: names and endings are often others.</summary>
internal enum HandedKind
{
    Text,
    Html,
    Workbook,
    OpenDocument,

    /// <summary>Files packed together.</summary>
    Archive,

    /// <summary>A workbook with a password, or of the form before 2007.</summary>
    LockedOrOld,
    Paper,
    Picture,

    /// <summary>A document of running text.</summary>
    Letter,

    /// <summary>Packed in a way that is not read.</summary>
    OtherArchive,

    /// <summary>No text at all.</summary>
    Other,
    Broken,
    Empty,
}

internal static class FileKind
{
    public static HandedKind Of(HandedFile file)
    {
        ReadOnlySpan<byte> bytes = file.Bytes;
        return bytes switch
        {
            [] => HandedKind.Empty,
            [(byte)'P', (byte)'K', 3 or 5, 4 or 6, ..] => Packed(file.Bytes),
            [0xD0, 0xCF, 0x11, 0xE0, ..] => HandedKind.LockedOrOld,
            [(byte)'%', (byte)'P', (byte)'D', (byte)'F', ..] => HandedKind.Paper,
            [0x89, (byte)'P', (byte)'N', (byte)'G', ..]
            or [0xFF, 0xD8, 0xFF, ..]
            or [(byte)'G', (byte)'I', (byte)'F', (byte)'8', ..]
            or [(byte)'R', (byte)'I', (byte)'F', (byte)'F', ..]
            or [_, _, _, _, (byte)'f', (byte)'t', (byte)'y', (byte)'p', ..] => HandedKind.Picture,
            [(byte)'{', (byte)'\\', (byte)'r', (byte)'t', (byte)'f', ..] => HandedKind.Letter,
            [0x1F, 0x8B, ..]
            or [(byte)'R', (byte)'a', (byte)'r', (byte)'!', ..]
            or [(byte)'7', (byte)'z', 0xBC, 0xAF, ..] => HandedKind.OtherArchive,
            _ => Plain(bytes),
        };
    }

    private static HandedKind Plain(ReadOnlySpan<byte> bytes)
    {
        var isWide = bytes is [0xFF, 0xFE, ..] or [0xFE, 0xFF, ..];
        var head = bytes[..Math.Min(bytes.Length, 4096)];
        var zeros = head.Count((byte)0);
        var control = 0;
        foreach (var one in head)
        {
            control += one is < 32 and not (0 or 9 or 10 or 12 or 13) ? 1 : 0;
        }
        // Of UTF-16 every second byte is 0, and no text has others that mean nothing.
        if (control > head.Length / 16 || (!isWide && zeros > 0 && zeros * 3 < head.Length))
        {
            return HandedKind.Other;
        }
        var text = Sheets.ListText.Of(head.Length % 2 == 0 || !isWide ? head : head[..^1]).TrimStart();
        return
            text.StartsWith("<!DOCTYPE html", StringComparison.OrdinalIgnoreCase)
            || text.StartsWith("<html", StringComparison.OrdinalIgnoreCase)
            || text.StartsWith("<p", StringComparison.OrdinalIgnoreCase)
            || text.StartsWith("<div", StringComparison.OrdinalIgnoreCase)
            ? HandedKind.Html
            : HandedKind.Text;
    }

    private static HandedKind Packed(byte[] bytes)
    {
        try
        {
            using var archive = new ZipArchive(new MemoryStream(bytes), ZipArchiveMode.Read);
            return Of(archive);
        }
        catch (Exception e) when (IsDamage(e))
        {
            return HandedKind.Broken;
        }
    }

    /// <summary>What a file that is packed is.</summary>
    public static HandedKind Of(ZipArchive archive) =>
        archive.GetEntry("xl/workbook.xml") is not null ? HandedKind.Workbook
        : archive.GetEntry("word/document.xml") is not null ? HandedKind.Letter
        : archive.GetEntry("content.xml") is not null && archive.GetEntry("META-INF/manifest.xml") is not null
            ? HandedKind.OpenDocument
        : HandedKind.Archive;

    /// <summary>
    /// What readers throw at bytes that are not what they seem, which may be anything: one file that nobody can read keeps nobody else
    /// from being marked.
    /// </summary>
    public static bool IsDamage(Exception e) =>
        e is not (OutOfMemoryException or OperationCanceledException or TooMuchException);
}
