using Reckoner.Costing;
using Reckoner.Datapaths;
using Reckoner.Numbers;

namespace Reckoner.Measuring;

/// <summary>The hardware of several machines side by side, in the order in which they are named.</summary>
internal sealed class Comparison
{
    public required IReadOnlyList<Hardware> Versions { get; init; }

    /// <summary>
    /// What each costs under the unit-gate model with ripple adders. None where that cannot be said of all: a number beside an empty
    /// place compares nothing.
    /// </summary>
    public required IReadOnlyList<MachineCost> Costs { get; init; }

    public static Comparison Of(IReadOnlyList<Datapath> datapaths) =>
        new()
        {
            Versions = [.. datapaths.Select(Hardware.Of)],
            Costs = datapaths.All(Costing.Costs.InPassing)
                ? [.. datapaths.Select(d => Costing.Costs.Of(d, AdderKind.Ripple))]
                : [],
        };

    /// <summary>The costs of a version; null where none are said.</summary>
    public MachineCost? CostOf(Hardware version) =>
        Costs.FirstOrDefault(c => ReferenceEquals(c.Datapath, version.Datapath));

    /// <summary>The names of all registers, each where it first comes.</summary>
    public IReadOnlyList<string> Registers =>
        [.. Versions.SelectMany(v => v.Datapath.Registers).Select(r => r.Name).Distinct()];

    /// <summary>The kinds of units that any of them has.</summary>
    public IReadOnlyList<UnitKind> Kinds =>
        [.. Versions.SelectMany(v => v.Units).Select(u => u.Kind).Distinct().Order()];

    /// <summary>The bits of all units of a kind; of a multiplier those of its first side.</summary>
    public static Size BitsOf(Hardware version, UnitKind kind) =>
        version.Units.Where(u => u.Kind == kind).Select(u => u.Size).Aggregate(Size.Of(0), (a, b) => a + b);

    /// <summary>The one of these that a version follows, directly or by way of others that are not among them; or null.</summary>
    public Hardware? Followed(Hardware version)
    {
        for (var machine = version.Datapath.Machine.Followed; machine is not null; machine = machine.Followed)
        {
            if (Versions.FirstOrDefault(v => v != version && v.Datapath.Machine.Name == machine.Name) is { } found)
            {
                return found;
            }
        }
        return null;
    }
}
