using Reckoner.Checking;
using Reckoner.Costing;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Numbers;

namespace Reckoner.Questions;

/// <summary>
/// What do machines cost under a model: area by part, the longest paths, clock, cycles, time? One machine may be asked about at a
/// range of widths.
/// </summary>
public sealed record CostQuestion(IReadOnlyList<AskedMachine> Machines)
{
    /// <summary>Cycles of machines that may stop early are averaged over all operands of so many bits.</summary>
    internal const int MostBits = 16;

    /// <summary>For so many widths at once adders are looked for that meet a clock; each may have to be timed some hundred times.</summary>
    internal const int MostSearched = 32;

    /// <summary>How the adders of units, comparators and the last rows of multipliers among them, hand on their carries.</summary>
    public AdderChoice Adders { get; init; } = new(AdderKind.Ripple);

    /// <summary>What pieces take.</summary>
    public CostModel Model { get; init; } = CostModel.UnitGates;

    /// <summary>A clock for which the adders with the least area are looked for; null takes those that are given.</summary>
    public int? Clock { get; init; }

    /// <summary>Whether it is counted what changes while machines work.</summary>
    public bool CountsActivity { get; init; }

    /// <summary>The operands over which that is counted; null for all, or the usual number where these are too many.</summary>
    public DrawnSample? Sample { get; init; }

    public Answer<IReadOnlyList<MachineCost>> Ask()
    {
        var found = new Findings();
        if (CompareQuestion.Count(Machines.Count, "cost", fewest: 1) is { } count)
        {
            found.AddRange([count]);
            return found.Refused<IReadOnlyList<MachineCost>>();
        }
        if (Datapaths(found) is not { } datapaths)
        {
            return found.Refused<IReadOnlyList<MachineCost>>();
        }
        UnitNames.AddUnknown(Adders, datapaths, found);
        if (Clock is not null && Machines.Count == 1 && datapaths.Count > MostSearched)
        {
            found.Add(Id.WidthsTooMany, AskedPart.Widths, 0, ("count", datapaths.Count), ("most", MostSearched));
        }
        if (found.HasErrors)
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

    private MachineCost? Of(Datapath datapath, int index, Findings found)
    {
        if (Model.TableBit is null && TableGates.Refusal(datapath) is { } refusal)
        {
            found.AddRange([new Finding(refusal, AskedPart.Machine, index)]);
            return null;
        }
        if (Clock is not { } clock)
        {
            return Worked(Costs.Of(datapath, Adders, Model), index, found);
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
            return null;
        }
        return Worked(cost, index, found);
    }

    /// <summary>With what is known of it only by running it.</summary>
    private MachineCost Worked(MachineCost cost, int index, Findings found)
    {
        var activity = CountsActivity
            ? Activity.Of(cost.Datapath, Sample?.Count, Sample?.Seed ?? Activity.UsualSeed)
            : null;
        if (CountsActivity && activity is null)
        {
            found.Add(Id.ActivityOfNone, AskedPart.Machine, index, ("machine", cost.Datapath.Machine.Name));
        }
        return cost with
        {
            Activity = activity,
            AverageCycles = cost.Datapath.MayStopEarly
                ? activity is { IsAll: true }
                    ? activity.AverageCycles
                    : AverageCycles(cost.Datapath)
                : null,
        };
    }

    /// <summary>Exact, where there are few operands.</summary>
    private static Rational? AverageCycles(Datapath datapath)
    {
        if (datapath.Operands.Sum(o => o.Width) > MostBits)
        {
            return null;
        }
        try
        {
            return Averages.Of(datapath, InterpretedEngine.Widest)?.AverageCycles;
        }
        catch (Exception e) when (e is GatesBeyondRoomException or LawBeyondPlanesException)
        {
            return null;
        }
    }
}
