using Reckoner.Diagnostics;

namespace Reckoner.Documents.HandedIn;

/// <summary>A file as it was handed in.</summary>
/// <param name="Path">From the folder on, with slashes; of a file in an archive that of the archive before it.</param>
/// <param name="Time">When it was last changed, as far as that is known.</param>
/// <param name="Bytes">Empty where it could not be read.</param>
internal sealed record HandedFile(string Path, DateTimeOffset Time, byte[] Bytes)
{
    /// <summary>Larger is nothing that a student fills in.</summary>
    public const int Largest = 20_000_000;

    /// <summary>Why it could not be read; null where it could.</summary>
    public Term? Trouble { get; init; }

    /// <summary>A folder into which marks were written: no student made it.</summary>
    public bool IsOurs { get; init; }

    /// <summary>What systems and spreadsheets leave in folders of their own accord.</summary>
    public bool IsLitter
    {
        get
        {
            var name = Path[(Path.LastIndexOf('/') + 1)..];
            return IsOurs
                || name is ".DS_Store" or "Thumbs.db" or "desktop.ini"
                || name.StartsWith("._", StringComparison.Ordinal)
                || name.StartsWith("~$", StringComparison.Ordinal)
                || name.StartsWith(".~lock.", StringComparison.Ordinal)
                || Path.Contains("__MACOSX/", StringComparison.Ordinal);
        }
    }
}
