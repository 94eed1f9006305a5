using Reckoner.Datapaths;
using Reckoner.Numbers;

namespace Reckoner.Binding;

/// <summary>
/// The sharing rule: operations of one kind and width that never act in the same cycle on the same path are one unit.
/// Needs every use of the machine; leaves each value with its unit.
/// </summary>
internal static class Sharing
{
    public static void Assign(Build build)
    {
        var busy = new Dictionary<(Unit, int Step), List<PendingUse>>();
        foreach (var use in build.Uses.Where(u => u.Via is not null))
        {
            if (Others(busy, use.Via!, use).FirstOrDefault(o => !BranchPath.Exclude(o.Path, use.Path)) is { } other)
            {
                use.Busy(other.Line);
            }
            Take(busy, use.Via!, use);
        }
        foreach (var use in build.Uses.Where(u => u.Via is null))
        {
            var unit = build.Units.Find(u =>
                Suits(u, use) && Others(busy, u, use).All(o => BranchPath.Exclude(o.Path, use.Path))
            );
            if (unit is null)
            {
                unit = new Unit(null, use.Kind, Width(use.Value), By(use.Value), build.Units.Count + 1);
                build.Units.Add(unit);
            }
            Take(busy, unit, use);
        }
    }

    /// <summary>The width a unit must have for an operation: that of its (first) input.</summary>
    public static Size Width(Value value) => value.Inputs[0].Size;

    /// <summary>The second width of a multiplier; else the same.</summary>
    public static Size By(Value value) =>
        value.Operation == Operation.Multiply ? value.Inputs[1].Size : value.Inputs[0].Size;

    private static bool Suits(Unit unit, PendingUse use) =>
        unit.Kind == use.Kind && unit.Size.Count == Width(use.Value).Count && unit.By.Count == By(use.Value).Count;

    private static List<PendingUse> Others(Dictionary<(Unit, int), List<PendingUse>> busy, Unit unit, PendingUse use) =>
        busy.TryGetValue((unit, use.Step), out var others) ? others : [];

    private static void Take(Dictionary<(Unit, int), List<PendingUse>> busy, Unit unit, PendingUse use)
    {
        if (!busy.TryGetValue((unit, use.Step), out var uses))
        {
            busy[(unit, use.Step)] = uses = [];
        }
        uses.Add(use);
        use.Value.Unit = unit;
        unit.Add(new UnitUse(use.Value, use.Step, use.Line));
    }
}
