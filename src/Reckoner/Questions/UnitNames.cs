using Reckoner.Costing;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;

namespace Reckoner.Questions;

/// <summary>Units that are named with an adder of their own.</summary>
internal static class UnitNames
{
    /// <summary>A unit that is named and that no machine has.</summary>
    public static void AddUnknown(AdderChoice adders, IReadOnlyList<Datapath> datapaths, Findings found)
    {
        var known = datapaths.SelectMany(d => d.Units).Select(u => u.Name).OfType<string>().Distinct().ToList();
        if (adders.Named.Keys.FirstOrDefault(name => !known.Contains(name)) is not { } unknown)
        {
            return;
        }
        if (known.Count == 0)
        {
            found.Add(Id.NoUnitNamed, AskedPart.Adders, 0, ("unit", unknown));
        }
        else
        {
            found.Add(
                Id.NoSuchUnit,
                AskedPart.Adders,
                0,
                ("unit", unknown),
                ("known", known),
                ("near", NearNames.Of(unknown, known))
            );
        }
    }
}
