using System.Diagnostics;
using Xunit;

namespace Reckoner.Documents.Tests;

/// <summary>Programs from outside that read what we wrote.</summary>
internal static class Program
{
    /// <summary>Runs it in a folder and gives what it printed.</summary>
    public static string Run(string folder, string name, params IReadOnlyList<string> arguments)
    {
        Assert.SkipUnless(IsHere(name), $"{name} is missing");
        var start = new ProcessStartInfo(name, arguments) { WorkingDirectory = folder };
        var (status, output, errors) = Child.Run(start);
        Assert.True(status == 0, $"{name}: {errors}");
        return output;
    }

    private static bool IsHere(string name) =>
        (Environment.GetEnvironmentVariable("PATH") ?? "")
            .Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries)
            .Any(folder => File.Exists(Path.Combine(folder, name)));
}
