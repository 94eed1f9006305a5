using System.Runtime.CompilerServices;
using System.Text;

namespace Reckoner.Cli.Tests;

/// <summary>
/// The folder that all tests of the command run in, made anew for each run: the descriptions of tests/cases/command, and files
/// that cannot be committed well. The page is 80 columns wide.
/// </summary>
internal static class WorkFolder
{
    public static string Repository { get; } = Root();

    public static string Cases { get; } = Path.Combine(Repository, "tests", "cases", "command");

    private static string folder = "";

    /// <summary>Makes it the current folder; test runners change that after the tests are loaded.</summary>
    public static void Enter() => Environment.CurrentDirectory = folder;

    public static string At(string file) => Path.Combine(folder, file);

    private static string Root([CallerFilePath] string here = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", ".."));

#pragma warning disable CA2255 // The folder and the page's width must be there before any test looks at them.
    [ModuleInitializer]
#pragma warning restore CA2255
    internal static void Make()
    {
        folder = Directory.CreateTempSubdirectory("reckoner-command-").FullName;
        AppDomain.CurrentDomain.ProcessExit += (_, _) => Directory.Delete(folder, recursive: true);
        Environment.SetEnvironmentVariable("COLUMNS", "80");
        Environment.SetEnvironmentVariable("XDG_CONFIG_HOME", Path.Combine(folder, "configuration"));
        Enter();
        foreach (var description in Directory.EnumerateFiles(Cases, "*.machine"))
        {
            File.Copy(description, Path.GetFileName(description));
        }
        foreach (var table in Directory.EnumerateFiles(Cases, "*.csv"))
        {
            File.Copy(table, Path.GetFileName(table));
        }
        foreach (var model in Directory.EnumerateFiles(Cases, "*.model"))
        {
            File.Copy(model, Path.GetFileName(model));
        }
        foreach (var style in Directory.EnumerateFiles(Cases, "*.style"))
        {
            File.Copy(style, Path.GetFileName(style));
        }
        Directory.CreateDirectory("lessons");
        foreach (var file in Directory.EnumerateFiles(Path.Combine(Cases, "lessons")))
        {
            File.Copy(file, Path.Combine("lessons", Path.GetFileName(file)));
        }
        Directory.CreateDirectory("folder.machine");
        File.WriteAllText("format-2.json", "{\"format\":2,\"machine\":\"divide-still-divisor\"}\n");
        File.WriteAllText("there.txt", "as it was\n");
        File.WriteAllBytes("latin-1.machine", [.. "machine größe\n".Select(c => (byte)c)]);
        File.WriteAllText("empty.machine", "");
        File.WriteAllText("ten-megabytes.machine", new string('-', 10_000_000));
        var good = File.ReadAllText("halve.machine");
        File.WriteAllText("with-mark.machine", good, new UTF8Encoding(encoderShouldEmitUTF8Identifier: true));
        File.WriteAllText("line-ends.machine", good.ReplaceLineEndings("\r\n"));
    }
}
