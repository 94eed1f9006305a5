using Reckoner.Datapaths;
using Reckoner.Running;
using Reckoner.Structure;
using Reckoner.Words;

namespace Reckoner.Drawing;

/// <summary>Which cycle of a walk did what a line of the sum by hand does.</summary>
internal static class HandCycles
{
    /// <summary>For each bit of a result from the lowest the cycle in which it came to be; null where it was there from the load.</summary>
    public static IReadOnlyList<int?> Made(Walk walk, Result result)
    {
        var provenance = Provenance.Of(walk);
        var index = walk.Datapath.Results.ToList().IndexOf(result);
        return [.. Provenance.OfResults(walk)[index].Select(Cycle)];

        int? Cycle(BitSource source)
        {
            for (var cycle = walk.Cycles; cycle > 0; cycle--)
            {
                if (source.Kind != SourceKind.Register)
                {
                    return source.Kind == SourceKind.Constant ? null : cycle + 1;
                }
                source = provenance[cycle].Sources[source.Register!.Index][source.Bit];
            }
            return source.Kind is SourceKind.Register or SourceKind.Constant or SourceKind.Operand ? null : 1;
        }
    }

    /// <summary>For each bit of an operand from the lowest the first cycle in which it steers a choice; null where none does.</summary>
    public static IReadOnlyList<int?> Steered(Walk walk, Operand operand, Vocabulary words)
    {
        var provenance = Provenance.Of(walk);
        var origins = new Origins(provenance);
        var states = MachineStructure.Of(walk.Datapath).States;
        var found = new int?[operand.Width];
        foreach (var row in walk.Rows.Skip(1))
        {
            var before = provenance[row.Cycle - 1].Origins;
            var state = states[row.Step!.Number];
            var levels = Wiring.OfState(state, walk, row, words, provenance[row.Cycle - 1], origins);
            var held = levels.SelectMany(l => l.Before).DistinctBy(l => l.Register).ToHashSet();
            var taps = levels
                .SelectMany(l => l.Blocks.SelectMany(b => b.Taps).Concat(l.Arrivals.SelectMany(a => a.Taps)))
                .Where(t => t.Steers && held.Contains(t.Lane));
            foreach (var (tap, bit) in taps.SelectMany(t => Enumerable.Range(t.Low, t.Width).Select(b => (t, b))))
            {
                var origin = before[tap.Lane.Register!.Index][bit];
                if (origin.Operand == operand)
                {
                    found[origin.Bit] ??= row.Cycle;
                }
            }
        }
        return found;
    }
}
