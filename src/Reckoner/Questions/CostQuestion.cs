using Reckoner.Costing;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;

namespace Reckoner.Questions;

/// <summary>
/// What do machines cost under a model: area by part, the longest paths, clock, cycles, time? One machine may be asked about at a
/// range of widths.
/// </summary>
public sealed record CostQuestion(IReadOnlyList<AskedMachine> Machines)
{
    /// <summary>Tables of more cells are not made of gates.</summary>
    internal const int MostCells = 1 << 14;

    /// <summary>How the adders of units, comparators and the last rows of multipliers among them, hand on their carries.</summary>
    public AdderChoice Adders { get; init; } = new(AdderKind.Ripple);

    /// <summary>What pieces take.</summary>
    public CostModel Model { get; init; } = CostModel.UnitGates;

    /// <summary>A clock for which the adders with the least area are looked for; null takes those that are given.</summary>
    public int? Clock { get; init; }

    public Answer<IReadOnlyList<MachineCost>> Ask()
    {
        var found = new Findings();
        if (CompareQuestion.Count(Machines.Count, "cost", fewest: 1) is { } count)
        {
            found.AddRange([count]);
            return found.Refused<IReadOnlyList<MachineCost>>();
        }
        if (Datapaths(found) is not { } datapaths || HasUnknown(datapaths, found))
        {
            return found.Refused<IReadOnlyList<MachineCost>>();
        }
        var costs = new List<MachineCost>();
        foreach (var (index, datapath) in datapaths.Index())
        {
            if (Of(datapath, Machines.Count == 1 ? 0 : index, found) is not { } cost)
            {
                return found.Refused<IReadOnlyList<MachineCost>>();
            }
            costs.Add(cost);
        }
        return found.Given<IReadOnlyList<MachineCost>>(costs);
    }

    private IReadOnlyList<Datapath>? Datapaths(Findings found)
    {
        if (Machines.Count == 1)
        {
            return Machines[0].BoundAtAll(found)?.Datapaths;
        }
        var datapaths = new List<Datapath>();
        foreach (var (index, machine) in Machines.Index())
        {
            if (machine.Bound(index, found) is not { } datapath)
            {
                return null;
            }
            datapaths.Add(datapath);
        }
        return datapaths;
    }

    /// <summary>A unit that is named and that no machine has.</summary>
    private bool HasUnknown(IReadOnlyList<Datapath> datapaths, Findings found)
    {
        var known = datapaths.SelectMany(d => d.Units).Select(u => u.Name).OfType<string>().Distinct().ToList();
        if (Adders.Named.Keys.FirstOrDefault(name => !known.Contains(name)) is not { } unknown)
        {
            return false;
        }
        found.Add(
            Id.NoSuchUnit,
            AskedPart.Adders,
            0,
            ("unit", unknown),
            ("known", known),
            ("near", NearNames.Of(unknown, known))
        );
        return true;
    }

    private MachineCost? Of(Datapath datapath, int index, Findings found)
    {
        if (Model.TableBit is null && datapath.Tables.FirstOrDefault(t => t.Cells.Count > MostCells) is { } table)
        {
            found.Add(
                Id.TableBeyondGates,
                AskedPart.Machine,
                index,
                ("table", table.Name),
                ("cells", table.Cells.Count),
                ("most", MostCells)
            );
            return null;
        }
        if (Clock is not { } clock)
        {
            return Costs.Of(datapath, Adders, Model);
        }
        var (cost, least) = CheapestAdders.Of(datapath, Model, clock);
        if (cost is null)
        {
            found.Add(
                Id.ClockTooShort,
                AskedPart.Clock,
                index,
                ("clock", clock),
                ("machine", datapath.Machine.Name),
                ("least", least)
            );
        }
        return cost;
    }
}
