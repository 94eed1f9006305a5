using Xunit;

namespace Reckoner.Tests;

/// <summary>The text files that tests read: input beside expected output, under tests/cases.</summary>
internal static class CaseFiles
{
    private static readonly string Cases = Path.Combine(Root(), "tests", "cases");

    /// <summary>The names, without ending, of the files of a folder that end so; in order.</summary>
    public static IReadOnlyList<string> Names(string folder, string ending)
    {
        var names = Directory
            .EnumerateFiles(Path.Combine(Cases, folder), "*" + ending)
            .Select(f => Path.GetFileName(f)[..^ending.Length])
            .Order(StringComparer.Ordinal)
            .ToList();
        Assert.NotEmpty(names);
        return names;
    }

    public static string Read(string folder, string file) => File.ReadAllText(Path.Combine(Cases, folder, file));

    public static bool Exists(string folder, string file) => File.Exists(Path.Combine(Cases, folder, file));

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Reckoner.slnx")))
        {
            folder = folder.Parent ?? throw new InvalidOperationException("tests run inside the repository");
        }
        return folder.FullName;
    }
}
