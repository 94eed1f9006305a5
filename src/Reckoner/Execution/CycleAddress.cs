using Reckoner.Datapaths;

namespace Reckoner.Execution;

/// <summary>Where a cycle stands in the schedule, whether or not it takes place.</summary>
/// <param name="Repeat">The loop from 1, 0 outside loops; <paramref name="Round"/> likewise.</param>
/// <param name="Step">The step's number, counted from 1 through the whole schedule.</param>
public readonly record struct CycleAddress(int Repeat, int Round, int Step);

/// <summary>A cycle of the schedule.</summary>
/// <param name="Number">Its number from 1, if every earlier cycle takes place.</param>
/// <param name="Round">From 1, also where a step stands outside loops.</param>
internal readonly record struct Cycle(int Number, Segment Segment, int Round, Step Step)
{
    public CycleAddress Address => new(Segment.Repeat, Segment.IsLoop ? Round : 0, Step.Number);

    public bool IsLastRound => Round == Segment.Count;

    /// <summary>In a loop of fixed count whether this is its last round, as its control says; else null.</summary>
    public bool? Last => Segment is { IsLoop: true, While: null } ? IsLastRound : null;

    /// <summary>Whether the loop asks, before this cycle, if it goes on.</summary>
    public bool AsksFirst => Segment.While is not null && Step == Segment.Steps[0];

    /// <summary>Every cycle of a datapath in order, those of loops that may stop early up to their bound.</summary>
    public static IEnumerable<Cycle> Of(Datapath datapath)
    {
        var number = 0;
        foreach (var segment in datapath.Schedule)
        {
            for (var round = 1; round <= segment.Count; round++)
            {
                foreach (var step in segment.Steps)
                {
                    yield return new Cycle(++number, segment, round, step);
                }
            }
        }
    }
}
