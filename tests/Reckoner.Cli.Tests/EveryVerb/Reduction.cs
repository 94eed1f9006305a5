using System.Diagnostics;
using System.Text.RegularExpressions;
using Reckoner.Tests;

namespace Reckoner.Cli.Tests;

/// <summary>Makes a description that shows a fault smaller, by leaving out lines as long as the fault stays the same.</summary>
internal static partial class Reduction
{
    /// <summary>Nobody waits for the last line, and whoever watches takes this for work on the machine itself.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(15);

    /// <param name="fault">What is wrong with a machine; null where nothing is.</param>
    public static RandomMachine Of(RandomMachine machine, Func<RandomMachine, string?> fault)
    {
        var kind = Kind(fault(machine));
        var lines = machine.Text.Split('\n').ToList();
        var clock = Stopwatch.StartNew();
        for (var stretch = lines.Count / 2; stretch > 0; stretch /= 2)
        {
            for (var from = 0; from < lines.Count && clock.Elapsed < Patience; )
            {
                List<string> fewer = [.. lines.Take(from), .. lines.Skip(from + stretch)];
                if (Kind(fault(machine with { Text = string.Join('\n', fewer) })) == kind)
                {
                    lines = fewer;
                }
                else
                {
                    from += stretch;
                }
            }
        }
        return machine with { Text = string.Join('\n', lines) };
    }

    /// <summary>Two faults are the same when only numbers differ in their first lines.</summary>
    private static string? Kind(string? fault) => fault is null ? null : Number().Replace(fault.Split('\n')[0], "#");

    [GeneratedRegex("[0-9]+")]
    private static partial Regex Number();
}
