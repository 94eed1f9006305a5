using Reckoner.Datapaths;

namespace Reckoner.Costing;

/// <summary>Which kind of adder stands where: one everywhere, and another in some units.</summary>
public sealed record AdderChoice(AdderKind Everywhere)
{
    /// <summary>By the names of units.</summary>
    public IReadOnlyDictionary<string, AdderKind> Named { get; init; } = new Dictionary<string, AdderKind>();

    /// <summary>Of units by themselves, as they were chosen for one datapath; these come first.</summary>
    internal IReadOnlyDictionary<Unit, AdderKind> Found { get; init; } = new Dictionary<Unit, AdderKind>();

    /// <summary>The kind in a unit.</summary>
    public AdderKind Of(Unit unit)
    {
        ArgumentNullException.ThrowIfNull(unit);
        return Found.TryGetValue(unit, out var found) ? found
            : unit.Name is { } name && Named.TryGetValue(name, out var named) ? named
            : Everywhere;
    }

    /// <summary>Whether any unit has one of its own.</summary>
    internal bool IsMixed => Named.Count > 0 || Found.Count > 0;
}
