using System.Diagnostics;

namespace Reckoner.Bench;

/// <summary>The C++ programs, compiled here and now for this processor.</summary>
internal static class Baselines
{
    public static readonly string Command = "g++ -O3 -march=native";

    /// <summary>Scalar, then vectorised; null where there is no compiler.</summary>
    public static IReadOnlyList<Contestant>? Compiled(string folder) =>
        Program(folder, "baseline") is { } program
            ?
            [
                Contestant.Program("C++, scalar", program, "scalar"),
                Contestant.Program("C++, vectorised", program, "vectorised"),
            ]
            : null;

    /// <summary>The program of a source beside this one; null where there is no compiler.</summary>
    public static string? Program(string folder, string name)
    {
        var program = Path.Combine(folder, name);
        var source = Path.Combine(AppContext.BaseDirectory, name + ".cpp");
        try
        {
            using var compiler = Process.Start("g++", ["-O3", "-march=native", "-o", program, source]);
            compiler.WaitForExit();
            return compiler.ExitCode == 0
                ? program
                : throw new InvalidOperationException($"g++ did not compile {name}");
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return null;
        }
    }
}
