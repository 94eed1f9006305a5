using Reckoner.Datapaths;
using Reckoner.Timelines;

namespace Reckoner.Conditions;

/// <summary>The slips of a machine, which are found by a later stage.</summary>
internal interface IKnownSlips
{
    IEnumerable<string> Names { get; }

    /// <summary>The machine with a slip at the same widths; null where it has none of that name there.</summary>
    Datapath? Built(string name);
}

/// <summary>What conditions are about: a machine at its widths, what it decides in its cycles, and its slips.</summary>
internal sealed class DecidedMachine(Timeline timeline, IKnownSlips slips)
{
    public Timeline Timeline { get; } = timeline;
    public Datapath Datapath => Timeline.Datapath;
    public DecisionNames Decisions { get; } = new(timeline);
    public IKnownSlips Slips { get; } = slips;

    /// <summary>Of every decision its outcomes, each once: both of a condition, of a choice every arm.</summary>
    public IEnumerable<Occasion> Outcomes =>
        Timeline
            .Edges.SelectMany(e => e.Outcomes)
            .SelectMany(o =>
                o.Arm is null ? [Occasion.Of(o.Text), Occasion.Of(o.Text).Opposite] : (Occasion[])[Occasion.Of(o.Text)]
            )
            .Distinct();
}
