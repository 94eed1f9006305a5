using Reckoner.Checking;
using Reckoner.Conditions;
using Reckoner.Timelines;

namespace Reckoner.Choosing;

/// <summary>A decision as it is shown, with the outcomes it can have: yes alone where the other is no, or the arms of a choice.</summary>
/// <param name="Labels">Null for yes and no.</param>
internal sealed record ShownDecision(string Text, IReadOnlyList<string>? Labels, IReadOnlyList<ShownOutcome> Outcomes)
{
    /// <summary>Everything that a machine decides, over all its cycles; what occurs in several lines in the same words is one.</summary>
    public static IReadOnlyList<ShownDecision> Of(MachineGates gates) =>
        [
            .. gates
                .Timeline.Edges.SelectMany((e, i) => e.Outcomes.Select(o => (Edge: i, Outcome: o)))
                .GroupBy(o => o.Outcome.Arm?.Subject ?? o.Outcome.Text)
                .SelectMany(same => Of(gates, same.Key, [.. same])),
        ];

    private static IEnumerable<ShownDecision> Of(
        MachineGates gates,
        string text,
        IReadOnlyList<(int Edge, Outcome Outcome)> outcomes
    )
    {
        var arms = outcomes.Where(o => o.Outcome.Arm is not null).GroupBy(o => o.Outcome.Arm!.Value.Label).ToList();
        if (arms.Count > 0)
        {
            yield return new ShownDecision(
                text,
                [.. arms.Select(a => a.Key)],
                [.. arms.Select(a => ShownOutcome.Of(gates, a))]
            );
        }
        var branches = outcomes.Where(o => o.Outcome.Arm is null).ToList();
        if (branches.Count > 0)
        {
            yield return new ShownDecision(text, null, [ShownOutcome.Of(gates, branches)]);
        }
    }
}

/// <summary>An outcome of a decision, with the cycles in which it is decided.</summary>
internal sealed record ShownOutcome(IReadOnlyList<Asking> Askings)
{
    /// <summary>What is met several times in one cycle is so there when it once is.</summary>
    public static ShownOutcome Of(MachineGates gates, IEnumerable<(int Edge, Outcome Outcome)> outcomes) =>
        new([
            .. outcomes
                .GroupBy(o => o.Edge)
                .OrderBy(g => g.Key)
                .Select(g => new Asking(
                    g.Key,
                    Any(gates, g.Select(o => Met(gates, o))),
                    Any(gates, g.Select(o => gates.Graph.And(Met(gates, o), gates.Planes[o.Outcome.Word][0])))
                )),
        ]);

    private static int Met(MachineGates gates, (int Edge, Outcome Outcome) decided) =>
        gates.Graph.And(gates.Active[decided.Edge], gates.Planes[decided.Outcome.Path][0]);

    private static int Any(MachineGates gates, IEnumerable<int> literals) =>
        literals.Aggregate(GateGraph.Zero, gates.Graph.Or);
}
