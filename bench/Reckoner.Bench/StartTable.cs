using System.Diagnostics;
using System.Globalization;

namespace Reckoner.Bench;

/// <summary>
/// How long the command takes to say what it is, from its start to its end, beside a program of the same kind that writes nothing:
/// both compiled ahead, in turn. Processor time, so that whatever else runs on the machine does not count.
/// </summary>
internal static class StartTable
{
    private const int Rounds = 15;

    private const string Project = """
        <Project Sdk="Microsoft.NET.Sdk">
          <PropertyGroup>
            <OutputType>Exe</OutputType>
            <TargetFramework>net10.0</TargetFramework>
            <InvariantGlobalization>true</InvariantGlobalization>
            <TieredPGO>false</TieredPGO>
          </PropertyGroup>
        </Project>
        """;

    private static readonly string[] Publish =
    [
        "publish",
        "-c",
        "Release",
        "--use-current-runtime",
        "--no-self-contained",
        "-p:PublishReadyToRun=true",
        "-v",
        "quiet",
        "-o",
    ];

    /// <param name="start">The script that starts the command; what it compiles ahead lies in the tree.</param>
    public static void Print(string start, string folder)
    {
        Run("bash", [start, "--version"]);
        var command = Path.Combine(Path.GetDirectoryName(start)!, "artifacts/command/reckoner");
        var sources = Path.Combine(folder, "empty");
        Directory.CreateDirectory(sources);
        File.WriteAllText(Path.Combine(sources, "Empty.csproj"), Project);
        File.WriteAllText(Path.Combine(sources, "Program.cs"), "System.Console.Out.Write(\"\");\n");
        var published = Path.Combine(folder, "published");
        Run("dotnet", [.. Publish, published, sources]);
        var empty = Path.Combine(published, "Empty");
        var rounds = Enumerable
            .Range(0, Rounds)
            .Select(_ => (Empty: Seconds(empty), Help: Seconds($"{command} --help")))
            .ToList();
        Console.WriteLine($"\nA start, processor time; median of {Rounds} rounds\n");
        Line("a program that writes nothing", Middle(rounds.Select(r => r.Empty)) * 1000, "ms");
        Line("reckoner --help", Middle(rounds.Select(r => r.Help)) * 1000, "ms");
        Line("ratio", Middle(rounds.Select(r => r.Help / r.Empty)), "");
    }

    private static void Line(string what, double value, string unit) =>
        Console.WriteLine(
            string.Create(CultureInfo.InvariantCulture, $"    {what, -30} {value, 7:0.0#} {unit}").TrimEnd()
        );

    private static double Middle(IEnumerable<double> values) => values.Order().ElementAt(Rounds / 2);

    private static double Seconds(string line)
    {
        var said = Run("bash", ["-c", $"TIMEFORMAT='%U %S'; time {line} >/dev/null"]);
        return said.Trim().Split(' ').Sum(s => double.Parse(s, CultureInfo.InvariantCulture));
    }

    /// <summary>What it says on its error stream.</summary>
    private static string Run(string program, string[] arguments)
    {
        var start = new ProcessStartInfo(program, arguments)
        {
            RedirectStandardError = true,
            RedirectStandardOutput = true,
        };
        using var process = Process.Start(start)!;
        var said = process.StandardError.ReadToEndAsync();
        process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return process.ExitCode == 0
            ? said.GetAwaiter().GetResult()
            : throw new InvalidOperationException($"{program}: {said.Result}");
    }
}
