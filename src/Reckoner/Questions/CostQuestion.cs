using Reckoner.Costing;

namespace Reckoner.Questions;

/// <summary>
/// What do machines cost under a model: area by part, the longest paths, clock, cycles, time? One machine may be asked about at a
/// range of widths.
/// </summary>
public sealed record CostQuestion(IReadOnlyList<AskedMachine> Machines)
{
    /// <summary>How the adders of all units, comparators and the last rows of multipliers among them, hand on their carries.</summary>
    public AdderKind Adder { get; init; }

    public Answer<IReadOnlyList<MachineCost>> Ask()
    {
        var found = new Findings();
        if (CompareQuestion.Count(Machines.Count, "cost", fewest: 1) is { } count)
        {
            found.AddRange([count]);
            return found.Refused<IReadOnlyList<MachineCost>>();
        }
        if (Machines.Count == 1)
        {
            return Machines[0].BoundAtAll(found) is var (_, datapaths)
                ? found.Given<IReadOnlyList<MachineCost>>([.. datapaths.Select(d => Costs.Of(d, Adder))])
                : found.Refused<IReadOnlyList<MachineCost>>();
        }
        var costs = new List<MachineCost>();
        foreach (var machine in Machines)
        {
            if (machine.Bound(costs.Count, found) is not { } datapath)
            {
                return found.Refused<IReadOnlyList<MachineCost>>();
            }
            costs.Add(Costs.Of(datapath, Adder));
        }
        return found.Given<IReadOnlyList<MachineCost>>(costs);
    }
}
