using System.Diagnostics;
using System.Globalization;

namespace Reckoner.Bench;

/// <summary>Something that runs checks in a process of its own and prints thousand million cases a second of processor time.</summary>
internal sealed record Contestant(string Name, Func<string, int, ProcessStartInfo> Start)
{
    public double Rate(string machine, int width)
    {
        var start = Start(machine, width);
        start.RedirectStandardOutput = true;
        using var process = Process.Start(start)!;
        var said = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return process.ExitCode == 0
            ? double.Parse(said, CultureInfo.InvariantCulture)
            : throw new InvalidOperationException($"{Name} failed at {width}: {said}");
    }

    /// <summary>One of our engines: this program again, as it is or as if the processor had no AVX-512.</summary>
    public static Contestant Ours(string name, string engine, bool withAvx512 = true) =>
        new(
            name,
            (machine, width) =>
            {
                var program = Path.Combine(AppContext.BaseDirectory, "Reckoner.Bench");
                var start = new ProcessStartInfo(program, ["rate", engine, machine, $"{width}"]);
                if (!withAvx512)
                {
                    start.Environment["DOTNET_EnableAVX512"] = "0";
                }
                return start;
            }
        );

    public static Contestant Program(string name, string path, string kind) =>
        new(name, (_, width) => new ProcessStartInfo(path, [kind, $"{width}"]));
}
