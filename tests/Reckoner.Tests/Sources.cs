using System.Runtime.CompilerServices;

namespace Reckoner.Tests;

/// <summary>Where the files of the repository are.</summary>
internal static class Sources
{
    public static string File(string path) => Path.Combine(Root(), path);

    private static string Root([CallerFilePath] string here = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", ".."));
}
