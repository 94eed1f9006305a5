using System.Diagnostics;
using System.Globalization;
using Reckoner.Checking;

namespace Reckoner.Bench;

/// <summary>Measures the page's worker under node.</summary>
internal static class Worker
{
    private const string Script = """
        const [worker, text] = require("fs").readFileSync(0, "utf8").split("\0");
        const exported = { exports: {} };
        new Function("module", worker)(exported);
        const job = JSON.parse(text);
        const steps = Math.min(job.steps, 4096);
        const repeat = (seconds) => {
            const begin = performance.now();
            let done = 0;
            for (; performance.now() - begin < 1000 * seconds; done += steps) exported.exports.check(job, 0, steps);
            return done;
        };
        repeat(0.3);
        const before = process.cpuUsage();
        const cases = repeat(0.7) * job.lanes;
        const { user, system } = process.cpuUsage(before);
        console.log(cases / (user + system) / 1000);
        """;

    public static double Rate(CheckProgram check)
    {
        var start = new ProcessStartInfo("node", ["-e", Script])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
        };
        using var node = Process.Start(start)!;
        node.StandardInput.Write(WasmJob.Worker + "\0" + WasmJob.Of(check));
        node.StandardInput.Close();
        var said = node.StandardOutput.ReadToEnd();
        node.WaitForExit();
        return double.Parse(said, CultureInfo.InvariantCulture);
    }
}
