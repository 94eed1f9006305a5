using Reckoner.Datapaths;

namespace Reckoner.Structure;

/// <summary>
/// Which units wait for each other. A state that lets one unit take what another gives, and a second state that does the reverse,
/// close a circle of wires although no cycle ever runs round it: who writes or times hardware must know.
/// </summary>
internal static class UnitCircles
{
    /// <summary>The units that wait for themselves in this way, in the order of the datapath.</summary>
    public static IReadOnlyList<Unit> Of(MachineStructure structure)
    {
        var waits = structure.Units.ToDictionary(u => u.Unit, WaitsFor);
        return [.. structure.Units.Select(u => u.Unit).Where(u => Reach.From(waits[u], n => waits[n]).Contains(u))];
    }

    /// <summary>The units whose outputs a unit's operands and the conditions of its settings are taken from.</summary>
    private static HashSet<Unit> WaitsFor(UnitStructure unit)
    {
        var words = unit.Settings.SelectMany(s => s.Operands.Concat(s.When.Select(g => g.Word)));
        var nets = Reach.From(words.SelectMany(w => w.Nets), n => n.Inputs.SelectMany(i => i.Nets));
        return [.. nets.Select(n => n.Unit).OfType<Unit>()];
    }
}
