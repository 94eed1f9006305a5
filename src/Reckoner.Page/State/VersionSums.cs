using Reckoner.Costing;
using Reckoner.Datapaths;

namespace Reckoner.Page.State;

/// <summary>
/// What versions cost, under the unit-gate model with ripple adders. They are counted once nothing was changed for a while, a path at a
/// time, so that keys are heard in between.
/// </summary>
public sealed class VersionSums
{
    private static readonly TimeSpan Breath = TimeSpan.FromMilliseconds(1);

    private readonly Dictionary<(string Hash, string? Slip, string Widths), MachineCost> known = [];

    /// <summary>In the order in which they were asked for; those are left out that are not counted in passing.</summary>
    internal IReadOnlyList<MachineCost> Costs { get; private set; } = [];

    /// <summary>Whether something was changed since.</summary>
    public bool IsOld { get; private set; }

    public void Age() => IsOld = Costs.Count > 0;

    /// <param name="told">Is called once all are there.</param>
    public async Task Run(IReadOnlyList<Datapath> versions, Action told, CancellationToken stop)
    {
        var costs = new List<MachineCost>();
        foreach (var version in versions.Where(Costing.Costs.InPassing))
        {
            costs.Add(known.GetValueOrDefault(Key(version)) ?? await Counted(version, stop));
        }
        known.Clear();
        costs.ForEach(c => known[Key(c.Datapath)] = c);
        (Costs, IsOld) = (costs, false);
        told();
    }

    private static (string Hash, string? Slip, string Widths) Key(Datapath datapath) =>
        (datapath.Machine.Hash, datapath.Machine.Slip, Verdict.Widths(datapath));

    private static async Task<MachineCost> Counted(Datapath version, CancellationToken stop)
    {
        var parts = new CostedParts(
            Structure.MachineStructure.Of(version),
            CostModel.UnitGates,
            new AdderChoice(AdderKind.Ripple)
        );
        var paths = new List<StepPath>();
        foreach (var path in Costing.Costs.Paths(parts))
        {
            paths.Add(path);
            await Task.Delay(Breath, stop);
        }
        return Costing.Costs.Of(parts, paths);
    }
}
