using System.Diagnostics;

namespace Reckoner.Bench;

/// <summary>The C++ programs, compiled here and now for this processor.</summary>
internal static class Baselines
{
    public static readonly string Command = "g++ -O3 -march=native";

    /// <summary>Scalar, then vectorised; null where there is no compiler.</summary>
    public static IReadOnlyList<Contestant>? Compiled(string folder)
    {
        var program = Path.Combine(folder, "baseline");
        var source = Path.Combine(AppContext.BaseDirectory, "baseline.cpp");
        try
        {
            using var compiler = Process.Start("g++", ["-O3", "-march=native", "-o", program, source]);
            compiler.WaitForExit();
            if (compiler.ExitCode != 0)
            {
                throw new InvalidOperationException("g++ did not compile the baselines");
            }
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return null;
        }
        return
        [
            Contestant.Program("C++, scalar", program, "scalar"),
            Contestant.Program("C++, vectorised", program, "vectorised"),
        ];
    }
}
