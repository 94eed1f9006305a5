using Reckoner.Datapaths;
using Reckoner.Numbers;

namespace Reckoner.Binding;

/// <summary>
/// The sharing rule: operations of one kind and width that never act in the same cycle on the same path are one unit.
/// Needs every use of the machine; leaves each value with its unit.
/// </summary>
internal sealed class Sharing
{
    private readonly Build build;
    private readonly Dictionary<(Unit, int Step), List<PendingUse>> busy = [];

    private Sharing(Build build) => this.build = build;

    public static void Assign(Build build)
    {
        var sharing = new Sharing(build);
        foreach (var use in build.Uses.Where(u => u.Via is not null))
        {
            if (sharing.Others(use.Via!, use).FirstOrDefault() is { } other)
            {
                use.Busy(other.Line);
            }
            sharing.Take(use.Via!, use);
        }
        foreach (var use in build.Uses.Where(u => u.Via is null))
        {
            var unit = build.Units.Find(u => Suits(u, use) && !sharing.Others(u, use).Any());
            if (unit is null)
            {
                unit = new Unit(null, use.Kind, Width(use.Value), By(use.Value), build.Units.Count + 1);
                build.Units.Add(unit);
            }
            sharing.Take(unit, use);
        }
    }

    /// <summary>The width a unit must have for an operation: that of its (first) input.</summary>
    public static Size Width(Value value) => value.Inputs[0].Size;

    /// <summary>The second width of a multiplier; else the same.</summary>
    public static Size By(Value value) =>
        value.Operation == Operation.Multiply ? value.Inputs[1].Size : value.Inputs[0].Size;

    private static bool Suits(Unit unit, PendingUse use) =>
        unit.Kind == use.Kind && unit.Size.Count == Width(use.Value).Count && unit.By.Count == By(use.Value).Count;

    /// <summary>What a unit does otherwise in a cycle in which it would act, on a path that does not exclude this one.</summary>
    private IEnumerable<PendingUse> Others(Unit unit, PendingUse use) =>
        Cycles(use)
            .SelectMany(step => busy.GetValueOrDefault((unit, step), []))
            .Where(other => !BranchPath.Exclude(other.Path, use.Path));

    private void Take(Unit unit, PendingUse use)
    {
        foreach (var step in Cycles(use))
        {
            if (!busy.TryGetValue((unit, step), out var uses))
            {
                busy[(unit, step)] = uses = [];
            }
            uses.Add(use);
        }
        use.Value.Unit = unit;
        unit.Add(new UnitUse(use.Value, use.Step, use.Line));
    }

    /// <summary>
    /// The steps in whose cycle it acts. A loop's condition is looked at on the way into a cycle, by wires that settle in it: that
    /// of the loop's first step, or of any that can be next when the loop does not go on, past other loops too. The number behind
    /// the last step stands for the end, where conditions alone are looked at. What is never gone round asks and does nothing.
    /// </summary>
    private IEnumerable<int> Cycles(PendingUse use)
    {
        yield return use.Step;
        if (!use.IsOfLoop)
        {
            yield break;
        }
        var met = build
            .Schedule.Where(s => s.Count > 0 && s.Steps.Count > 0)
            .Select(s => (First: s.Steps[0].Number, s.While));
        var from = met.SkipWhile(s => s.First != use.Step).ToList();
        foreach (var next in from.Skip(1))
        {
            yield return next.First;
            if (next.While is null)
            {
                yield break;
            }
        }
        if (from.Count > 0)
        {
            yield return build.Steps + 1;
        }
    }
}
