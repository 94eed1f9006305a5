using Reckoner.Diagnostics;

namespace Reckoner.Cli;

/// <summary>Why a file could not be read or written, in our own words: the system's are of one language, and name files that nobody knows of.</summary>
internal static class Trouble
{
    private const int WindowsError = unchecked((int)0x80070000);

    /// <summary>A fact of a diagnostic.</summary>
    public static object Of(Exception e) =>
        e switch
        {
            DirectoryNotFoundException => new Term("trouble.no-folder"),
            FileNotFoundException => new Term("trouble.no-file"),
            PathTooLongException => new Term("trouble.name-too-long"),
            UnauthorizedAccessException => new Term("trouble.not-allowed"),
            ArgumentException or NotSupportedException => new Term("trouble.no-name"),
            IOException io => Kind(io.HResult) is { } kind ? new Term(kind) : Other(io),
            _ => Other(e),
        };

    /// <summary>By what the system numbers it: of POSIX, or of Windows.</summary>
    private static string? Kind(int number) =>
        number switch
        {
            28 or 122 or WindowsError + 112 or WindowsError + 39 => "trouble.full",
            27 => "trouble.too-large",
            30 or WindowsError + 19 => "trouble.only-read",
            5 => "trouble.broken",
            36 => "trouble.name-too-long",
            20 => "trouble.no-folder",
            13 or 1 => "trouble.not-allowed",
            11 or 16 or WindowsError + 32 or WindowsError + 33 => "trouble.in-use",
            17 or WindowsError + 80 or WindowsError + 183 => "trouble.is-there",
            _ => null,
        };

    private static Term Other(Exception e) => new("trouble.other", ("message", e.Message.TrimEnd('.')));
}
