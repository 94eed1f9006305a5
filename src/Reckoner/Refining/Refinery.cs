using System.Numerics;
using Reckoner.Binding;
using Reckoner.Checking;
using Reckoner.Costing;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Measuring;
using Reckoner.Notation;
using Reckoner.Words;

namespace Reckoner.Refining;

/// <summary>
/// From a machine to ranked proposals: what a search finds, each written as a description of its own and run once more as that, with
/// every operand, against its laws and the machine it follows. What then fails for any operand, or is not read without remark, is no
/// proposal.
/// </summary>
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
        var found = search
            .Versions.Skip(1)
            .Select(v => (Version: v, Costs: Costs.Of(v.Machine.Built(widths)!, AdderKind.Ripple)))
            .OrderBy(f => Place(f.Costs, f.Version.Mean) is var (area, time) ? area * time : 0)
            .ThenBy(f => f.Costs.Area)
            .ThenBy(f => f.Version.Measure.Choices)
            .ToList();
        var proposals = new List<Proposal>();
        var places = new List<double[]>();
        foreach (var (version, costs) in found)
        {
            var place = Place(costs, version.Mean) is var (area, time) ? new[] { area, time } : [];
            if (!isFrontier)
            {
                place = [.. place, .. Counts(costs.Datapath, version)];
            }
            if (
                !places.Exists(p => p.Zip(place).All(both => both.First <= both.Second))
                && Proposed(version, datapath, proposals.Count + 1, engine, words) is { } proposal
            )
            {
                places.Add(place);
                proposals.Add(proposal);
            }
        }
        return new Refined
        {
            Cost = Costs.Of(datapath, AdderKind.Ripple),
            Hardware = Hardware.Of(datapath),
            Proposals = proposals,
            Made = search.Made,
            Tried = search.Tried,
            IsComplete = search.IsComplete,
        };
    }

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

    /// <summary>The versions on the way to one, the first left out; null where one of them is none.</summary>
    public static IReadOnlyList<Proposal>? Steps(Version version, Datapath first, IPlaneEngine engine, Vocabulary words)
    {
        var steps = new List<Proposal>();
        for (var on = version; on.Before is not null; on = on.Before)
        {
            if (Proposed(on, first, on.Depth, engine, words) is not { } proposal)
            {
                return null;
            }
            steps.Insert(0, proposal);
        }
        return steps;
    }

    /// <summary>A version written, read and run; null where anything is remarked about it, or it fails for any operand.</summary>
    private static Proposal? Proposed(
        Version version,
        Datapath first,
        int number,
        IPlaneEngine engine,
        Vocabulary words
    ) =>
        Written(version, first.Machine, number, first.Widths.ToDictionary(w => w.Name, w => w.Value), words)
            is { } bound
        && Exhausted.Of(bound.Machine, first.Machine, engine) is { Fails: null, Widths: { Count: > 0 } run }
            ? new Proposal
            {
                Number = number,
                Steps = version.Steps,
                Cost = Costs.Of(bound, AdderKind.Ripple),
                Hardware = Hardware.Of(bound),
                Widths = run,
                Mean = version.Mean is { } mean ? (mean.Now, mean.Before) : null,
            }
            : null;

    /// <summary>Its area, and its time: on average over all operands where it may stop early.</summary>
    private static (long Area, double Time) Place(MachineCost costs, MeanCycles? mean) =>
        (costs.Area, costs.Time.Most * (mean?.Share ?? 1));

    /// <summary>A version as a text that is read again; null where anything is remarked about it.</summary>
    private static Datapath? Written(
        Version version,
        IMachine first,
        int number,
        IReadOnlyDictionary<string, BigInteger> widths,
        Vocabulary words
    )
    {
        var described = ReasonWords.Described(version.Draft, version.Steps, first, number, words);
        var text = Printer.Text(described);
        var read = Machine.Read(
            new Source($"{described.Name}.machine", text),
            name => name == first.Name ? new Source($"{name}.machine", Alone(first)) : null
        );
        var (datapath, found) = read.At(widths);
        return found.Any(d => d.Severity != Severity.Hint) ? null : datapath;
    }

    /// <summary>A machine's text without the one that it follows itself.</summary>
    private static string Alone(IMachine machine) =>
        Printer.Text(
            machine.Description with
            {
                Declarations = [.. machine.Description.Declarations.Where(d => d is not FollowsLine)],
            }
        );
}
