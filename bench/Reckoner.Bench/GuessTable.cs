using System.Diagnostics;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Diagnostics;
using Reckoner.Invariants;

namespace Reckoner.Bench;

/// <summary>The proposals of examples/guess-the-invariant.md: how long each is judged, in one process that judged all of them before.</summary>
internal static class GuessTable
{
    public static void Print(string file)
    {
        var rows = File.ReadAllLines(file)
            .Where(l => l.StartsWith("| ", StringComparison.Ordinal) && l.Contains('`', StringComparison.Ordinal))
            .Select(l => (Machine: l.Split('|')[1].Trim(), Text: l.Split('`')[1]))
            .ToList();
        Console.WriteLine("\nWhat holds in every round, guessed: seconds of processor time in process, warm\n");
        _ = rows.ConvertAll(r => Judged(r.Machine, r.Text));
        var times = rows.ConvertAll(r => Judged(r.Machine, r.Text));
        foreach (var ((machine, text), (seconds, kind)) in rows.Zip(times))
        {
            Console.WriteLine($"    {seconds, 6:0.000}  {kind, -8} {machine, -28} {text}");
        }
        Console.WriteLine(
            $"    {rows.Count} proposals: median {times.Select(t => t.Seconds).Order().ElementAt(rows.Count / 2):0.000}, most {times.Max(t => t.Seconds):0.000}"
        );
    }

    private static (double Seconds, GuessKind Kind) Judged(string name, string text)
    {
        var machine = Machine.Read(MachineCatalogue.Find(name)!, MachineCatalogue.Find);
        var before = Process.GetCurrentProcess().TotalProcessorTime;
        var guessed = GuessJudge.Of(machine, machine.At().Datapath!, text, new Report(null), () => false)!;
        return ((Process.GetCurrentProcess().TotalProcessorTime - before).TotalSeconds, guessed.Kind);
    }
}
