using System.Diagnostics;
using System.Text.Json;
using Reckoner.Checking;
using Xunit;

namespace Reckoner.Engines.Tests;

/// <summary>
/// Runs jobs in the worker's script under node. The script gets what a classic worker made from a blob has and nothing more: no
/// modules, no files.
/// </summary>
internal static class Node
{
    private const string Runner = """
        const vm = require("vm");
        const lines = require("fs").readFileSync(0, "utf8").split("\n").filter((line) => line);
        let said;
        const self = { postMessage: (message) => { if (!message.covered) said = message; } };
        vm.runInNewContext(JSON.parse(lines[0]), { self, WebAssembly, Uint8Array, atob, performance });
        for (const line of lines.slice(1)) {
            const job = JSON.parse(line);
            self.onmessage({ data: { job, from: 0, to: job.steps } });
            console.log(JSON.stringify(said));
        }
        """;

    public static void SkipWhenMissing() => Assert.SkipWhen(!IsHere, "node is missing");

    private static bool IsHere =>
        (Environment.GetEnvironmentVariable("PATH") ?? "")
            .Split(Path.PathSeparator)
            .Any(folder => File.Exists(Path.Combine(folder, OperatingSystem.IsWindows() ? "node.exe" : "node")));

    /// <summary>What the worker said about each check, as lines to compare.</summary>
    public static IReadOnlyList<string> Lines(IEnumerable<CheckProgram> checks)
    {
        var (status, said, errors) = Child.Run(
            new ProcessStartInfo("node", ["-e", Runner]),
            [JsonSerializer.Serialize(WasmJob.Worker) + "\n", .. checks.Select(check => WasmJob.Of(check) + "\n")]
        );
        Assert.Equal((0, ""), (status, errors));
        return [.. said.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(Line)];
    }

    private static string Line(string said)
    {
        using var document = JsonDocument.Parse(said);
        if (document.RootElement.TryGetProperty("error", out var error))
        {
            return error.GetString()!;
        }
        var sections = document.RootElement.GetProperty("result").GetProperty("sections");
        return string.Join(
            "; ",
            sections
                .EnumerateArray()
                .Select(s =>
                    $"{s.GetProperty("name").GetString()} {s.GetProperty("cases")} cases, {s.GetProperty("failures")} failures"
                    + Smallest(s.GetProperty("smallest"))
                )
        );
    }

    private static string Smallest(JsonElement smallest) =>
        smallest.ValueKind == JsonValueKind.Null
            ? ""
            : $", smallest {string.Join(" ", smallest.GetProperty("operands").EnumerateArray())}";
}
