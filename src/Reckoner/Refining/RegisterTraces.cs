using Reckoner.Datapaths;
using Reckoner.Timelines;

namespace Reckoner.Refining;

/// <summary>
/// What each register of a machine holds behind every edge, for every operand of some case sets, as one number: two registers with
/// equal numbers hold the same throughout, whatever they are called.
/// </summary>
internal static class RegisterTraces
{
    public const int MostSets = 3;

    /// <summary>By register, its width and its trace; null where a set cannot be run.</summary>
    public static IReadOnlyList<(string Register, ulong Trace)>? Of(IMachine machine, IReadOnlyList<CaseSet> sets)
    {
        ulong[]? traces = null;
        string[] names = [];
        foreach (var set in sets)
        {
            if (Settings.Same(machine, set.Datapath) is not { } datapath)
            {
                return null;
            }
            names = [.. datapath.Registers.Select(r => r.Name)];
            traces ??= new ulong[names.Length];
            var timeline = Timeline.Of(datapath);
            int[] words = [.. timeline.Load, .. timeline.Edges.SelectMany(e => e.Registers)];
            if (WordCode.Of(timeline.Graph, words) is not { } code)
            {
                return null;
            }
            for (var r = 0; r < traces.Length; r++)
            {
                traces[r] = Mixed(traces[r], (ulong)datapath.Registers[r].Width);
            }
            var held = new ulong[words.Length];
            foreach (var operands in set.Operands)
            {
                code.Run(operands, held);
                for (var i = 0; i < held.Length; i++)
                {
                    traces[i % names.Length] = Mixed(traces[i % names.Length], held[i]);
                }
            }
        }
        return traces is null ? null : [.. names.Zip(traces)];
    }

    /// <summary>Sebastiano Vigna's finalizer of SplitMix64, over what was and what comes.</summary>
    internal static ulong Mixed(ulong before, ulong next)
    {
        var z = before ^ (next + 0x9E3779B97F4A7C15 + (before << 6) + (before >> 2));
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return z ^ (z >> 31);
    }
}
