using Reckoner.Datapaths;
using Reckoner.Timelines;

namespace Reckoner.Structure;

/// <summary>What loops and the control unit look at.</summary>
internal sealed partial class Structuring
{
    private readonly Dictionary<Value, Bundle> inLoops = new(ReferenceEqualityComparer.Instance);
    private readonly List<Decision> looks = [];

    private EarlyStop Stop(Segment loop)
    {
        var (condition, first) = (loop.While!, loop.Steps[0]);
        seen.Clear();
        step = first.Number;
        execution.Begin(held);
        graph.Origin = new Origin(first.Number, condition.Source, loop.Line, null);
        execution.Aloud(condition);
        foreach (var value in seen.Keys)
        {
            inLoops[value] = WordOf(value);
        }
        var settings = Settings(condition, first.Number, 0, [], condition.Source!, loop.Line);
        return new EarlyStop(loop, Guard.If(condition, WordOf), [.. settings]);
    }

    private Bundle InLoop(Value value) => value.Operation == Operation.Last ? nets[execution.Last] : inLoops[value];

    private Decision Decided(Value value, int state, int line) => new(value, WordOf(value), state, value.Source!, line);

    private IEnumerable<Decision> Decisions() =>
        datapath.Schedule.SelectMany(segment =>
        {
            var steps = segment.Steps.Select(s => s.Number).ToHashSet();
            var own = looks.Where(d => steps.Contains(d.State));
            return segment.While is { } condition
                ? own.Prepend(
                    new Decision(
                        condition,
                        inLoops[condition],
                        segment.Steps[0].Number,
                        condition.Source!,
                        segment.Line
                    )
                )
                : own;
        });
}
