using Reckoner.Checking;
using Reckoner.Costing;
using Reckoner.Datapaths;
using Reckoner.Measuring;
using Reckoner.Words;

namespace Reckoner.Refining;

/// <summary>From a machine to ranked proposals: of what a search finds, whatever takes less area or less time than the machine itself.</summary>
internal static class Refinery
{
    /// <param name="datapath">The machine at the widths at which costs are compared.</param>
    /// <param name="isFrontier">
    /// Whether a version is left out where another takes neither more area nor more time; else where another takes no more of anything
    /// that is counted.
    /// </param>
    public static Refined Of(
        Datapath datapath,
        int depth,
        bool isFrontier,
        IPlaneEngine engine,
        Vocabulary words,
        Func<bool> isSpent
    )
    {
        var machine = datapath.Machine;
        var workshop = new Workshop(machine, ReasonWords.Names(machine, words));
        var search = Search.Of(workshop, datapath, depth, isSpent);
        var widths = datapath.Widths.ToDictionary(w => w.Name, w => w.Value);
        var first = Costs.Of(datapath, AdderKind.Ripple);
        var own = Place(first, search.Versions[0].Mean);
        var found = search
            .Versions.Skip(1)
            .Select(v => (Version: v, Costs: Costs.Of(v.Machine.Built(widths)!, AdderKind.Ripple)))
            .Select(f => (f.Version, f.Costs, Place: Place(f.Costs, f.Version.Mean)))
            .Where(f => f.Place.Area < own.Area || f.Place.Time < own.Time)
            .OrderBy(f => f.Place.Area * f.Place.Time)
            .ThenBy(f => f.Costs.Area)
            .ThenBy(f => f.Version.Measure.Choices)
            .ToList();
        var proposing = new Proposing(datapath, engine, words);
        var (proposals, places) = (new List<Proposal>(), new List<double[]>());
        var (late, isComplete) = (0, search.IsComplete);
        foreach (var (version, costs, (area, time)) in found)
        {
            double[] place = isFrontier ? [area, time] : [area, time, .. Counts(costs.Datapath, version)];
            if (places.Exists(p => p.Zip(place).All(both => both.First <= both.Second)))
            {
                continue;
            }
            if (isSpent() && late++ == MostLate)
            {
                isComplete = false;
                break;
            }
            if (proposing.Of(version, proposals.Count + 1) is { } proposal)
            {
                places.Add(place);
                proposals.Add(proposal);
            }
        }
        return new Refined
        {
            Cost = first,
            Hardware = Hardware.Of(datapath),
            Proposals = proposals,
            IsFrontier = isFrontier,
            Made = search.Made,
            Tried = search.Tried,
            IsComplete = isComplete,
        };
    }

    /// <summary>So many of the best are still written and run after the time was spent, so that what was found is shown.</summary>
    private const int MostLate = 3;

    /// <summary>What is counted beside area and time.</summary>
    private static IEnumerable<double> Counts(Datapath datapath, Version version)
    {
        var hardware = Hardware.Of(datapath);
        return
        [
            hardware.RegisterBits.Count,
            hardware.AdderBits,
            hardware.ChoiceBits,
            hardware.Cycles.Most * (version.Mean?.Share ?? 1),
        ];
    }

    /// <summary>Its area, and its time: on average over all operands where it may stop early.</summary>
    private static (long Area, double Time) Place(MachineCost costs, MeanCycles? mean) =>
        (costs.Area, costs.Time.Most * (mean?.Share ?? 1));
}
