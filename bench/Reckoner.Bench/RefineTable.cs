using System.Diagnostics;
using Reckoner.Questions;

namespace Reckoner.Bench;

/// <summary>
/// How long the next version of a machine takes to be found, and everything four steps far: seconds of processor time in one process,
/// warm. And what is not found anything in, by name: what resists.
/// </summary>
internal static class RefineTable
{
    private static readonly string[] First =
    [
        "divide-moving-divisor",
        "multiply-moving-multiplicand",
        "divide-shift-subtract-restore",
        "multiply-in-steps",
    ];

    public static void Print()
    {
        Console.WriteLine(
            "\nWhat could be saved: seconds of processor time in process, warm; descriptions made, run, proposed\n"
        );
        foreach (var name in First)
        {
            foreach (var steps in new[] { 1, 4 })
            {
                _ = Found(name, steps);
                var (seconds, text) = Found(name, steps);
                Console.WriteLine(
                    $"    {seconds, 6:0.000}  {name, -32} {steps} {(steps == 1 ? "step " : "steps")}  {text}"
                );
            }
        }
        var none = Reckon
            .List()
            .Select(e => e.Name)
            .Where(n => Found(n, 1).Text.EndsWith(" 0", StringComparison.Ordinal));
        Console.WriteLine($"    nothing in: {string.Join(", ", none)}");
    }

    private static (double Seconds, string Text) Found(string name, int steps)
    {
        var clock = Stopwatch.StartNew();
        var means = new Means(new InterpretedRunner(), () => clock.Elapsed);
        var before = Process.GetCurrentProcess().TotalProcessorTime;
        var answer = Reckon.Refine(
            new RefineQuestion(Reckon.Machine(name)) { Steps = steps, IsFrontier = steps > 1 },
            means
        );
        var seconds = (Process.GetCurrentProcess().TotalProcessorTime - before).TotalSeconds;
        return (
            seconds,
            answer.Data is { } data ? $"{data.Made, 4} {data.Tried, 4} {data.Proposals.Count}" : "refused"
        );
    }
}
