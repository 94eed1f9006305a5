using Reckoner.Datapaths;
using Reckoner.Numbers;

namespace Reckoner.Structure;

/// <summary>The next-state logic of a schedule. Needs the wires that conditions of loops stand on.</summary>
internal sealed class NextStates(IReadOnlyList<Segment> segments, Func<Value, Bundle> word)
{
    private static readonly Value Last = new(Operation.Last, Size.Of(1), Reading.Bare);

    /// <summary>All ways, from the load first, then in the order of the schedule.</summary>
    public IEnumerable<Transition> All()
    {
        foreach (var way in Enter(0))
        {
            yield return way;
        }
        for (var i = 0; i < segments.Count; i++)
        {
            var segment = segments[i];
            for (var s = 0; s < segment.Steps.Count - 1; s++)
            {
                yield return new Transition(segment.Steps[s], [], null, segment.Steps[s + 1]);
            }
            foreach (var way in segment.Count > 0 ? Leave(i) : [])
            {
                yield return way with
                {
                    From = segment.Steps[^1],
                };
            }
        }
    }

    /// <summary>What the last step of a round leads to.</summary>
    private IEnumerable<Transition> Leave(int index)
    {
        var segment = segments[index];
        var again = new Transition(null, [], null, segment.Steps[0]) { Round = RoundChange.Counts };
        if (segment.While is { } condition)
        {
            yield return again with
            {
                When = [Guard.If(condition, word)],
                Below = segment.Count,
            };
            foreach (var way in Enter(index + 1))
            {
                yield return way with
                {
                    When = [Guard.If(condition, word, isTurned: true), .. way.When],
                    Reached = segment.Count,
                };
            }
            yield break;
        }
        if (segment.Count > 1)
        {
            yield return again with
            {
                When = [Guard.If(Last, word, isTurned: true)],
            };
        }
        foreach (var way in Enter(index + 1))
        {
            yield return segment.Count > 1 ? way with { When = [Guard.If(Last, word), .. way.When] } : way;
        }
    }

    /// <summary>The ways into the schedule from one of its segments on.</summary>
    private IEnumerable<Transition> Enter(int index)
    {
        if (index == segments.Count)
        {
            yield return new Transition(null, [], null, null);
            yield break;
        }
        var segment = segments[index];
        if (segment.Count > 0)
        {
            IReadOnlyList<Guard> when = segment.While is null ? [] : [Guard.If(segment.While, word)];
            yield return new Transition(null, when, null, segment.Steps[0]) { Round = RoundChange.Starts };
        }
        if (segment.Count == 0 || segment.While is not null)
        {
            foreach (var way in Enter(index + 1))
            {
                yield return segment.Count == 0
                    ? way
                    : way with
                    {
                        When = [Guard.If(segment.While!, word, isTurned: true), .. way.When],
                    };
            }
        }
    }
}
