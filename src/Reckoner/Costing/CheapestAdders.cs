using Reckoner.Datapaths;
using Reckoner.Structure;

namespace Reckoner.Costing;

/// <summary>
/// The adders that meet a clock with the least area. Every unit may have every kind; where there are more units than
/// <see cref="MostUnits"/>, those from there on share one, since all ways would be too many.
/// </summary>
internal static class CheapestAdders
{
    public const int MostUnits = 3;

    /// <summary>The machine with them; null where none meet the clock, and the least clock that there is.</summary>
    public static (MachineCost? Cost, int Least) Of(Datapath datapath, CostModel model, int clock)
    {
        var structure = MachineStructure.Of(datapath);
        var parts = new CostedParts(structure, model, new AdderChoice(default));
        var units = structure
            .Units.Where(u => u.Settings.Count > 0 && u.Unit.Kind != UnitKind.CarrySaveAdder)
            .Select(u => u.Unit)
            .ToList();
        var ways = Ways(units)
            .Select(parts.With)
            .Select(p => (Parts: p, Area: units.Sum(u => p.Units[u].Gates.Area(model))))
            .OrderBy(w => w.Area);
        var least = int.MaxValue;
        foreach (var (way, _) in ways)
        {
            least = Math.Min(least, Costs.Paths(way).Max(p => p.Delay));
            if (least <= clock)
            {
                return (Costs.Of(way), least);
            }
        }
        return (null, least);
    }

    private static IEnumerable<AdderChoice> Ways(IReadOnlyList<Unit> units)
    {
        var apart = Math.Min(units.Count, MostUnits);
        var count = (int)Math.Pow(Adders.All.Count, apart);
        for (var way = 0; way < count; way++)
        {
            var kinds = new AdderKind[apart];
            for (var (i, left) = (0, way); i < apart; i++, left /= Adders.All.Count)
            {
                kinds[i] = Adders.All[left % Adders.All.Count];
            }
            yield return new AdderChoice(kinds.FirstOrDefault())
            {
                Found = units.Index().ToDictionary(u => u.Item, u => kinds[Math.Min(u.Index, apart - 1)]),
            };
        }
    }
}
