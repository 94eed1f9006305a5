using Reckoner.Checking;
using Reckoner.Timelines;

namespace Reckoner.Slips;

/// <summary>
/// Conditions on what the right machine decides in its cycles. "The first time" and "the last time" count the times that a
/// decision is met, so a loop that stops early ends with its last round.
/// </summary>
internal static class DecisionConditions
{
    private const string Turned = "not ";

    /// <summary>A time that something is decided: whether it is met, and whether it then is so.</summary>
    private readonly record struct Met(int Here, int So)
    {
        /// <summary>Whether the cycle comes about, in which the decision need not be met.</summary>
        public int Active { get; init; }
    }

    public static IReadOnlyList<(Condition Condition, int Literal)> Of(
        GateGraph graph,
        Timeline timeline,
        Planes planes
    )
    {
        var found = new List<(Condition, int)>();
        var outcomes =
            from edge in timeline.Edges
            from outcome in edge.Outcomes
            where outcome.Arm?.Label != "else"
            group (edge, outcome) by Plain(outcome.Text).Name;
        foreach (var decision in outcomes)
        {
            var times = decision
                .GroupBy(d => d.edge.Cycle)
                .Select(g => Time(graph, planes, [.. g]))
                .Where(t => t.Here != GateGraph.Zero)
                .ToList();
            // A named value is there in cycles too in which nothing is decided by it, and a reader would count those.
            if (IsOne(decision.Key) && times.Exists(t => t.Here != t.Active))
            {
                continue;
            }
            Told(graph, times, decision.Key, found);
            var turned = times.Select(t => t with { So = graph.And(t.Here, GateGraph.Not(t.So)) });
            Told(graph, [.. turned], Opposite(decision.Key), found);
        }
        return found;
    }

    /// <summary>The decision without "not" in front, and whether it had one.</summary>
    private static (string Name, bool IsTurned) Plain(string text) =>
        text.StartsWith(Turned, StringComparison.Ordinal) && IsOne(text[Turned.Length..])
            ? (text[Turned.Length..], true)
            : (text, false);

    private static bool IsOne(string text) => !text.Contains(' ', StringComparison.Ordinal);

    private static string Opposite(string name) => Turned + (IsOne(name) ? name : $"({name})");

    /// <summary>What is met several times in one cycle is so there when it once is.</summary>
    private static Met Time(GateGraph graph, Planes planes, List<(Edge Edge, Outcome Outcome)> decided)
    {
        var (active, here, so) = (GateGraph.Zero, GateGraph.Zero, GateGraph.Zero);
        foreach (var (edge, outcome) in decided)
        {
            var met = graph.And(planes[edge.Active][0], planes[outcome.Path][0]);
            active = graph.Or(active, planes[edge.Active][0]);
            var comes = planes[outcome.Word][0];
            here = graph.Or(here, met);
            so = graph.Or(so, graph.And(met, Plain(outcome.Text).IsTurned ? GateGraph.Not(comes) : comes));
        }
        return new Met(here, so) { Active = active };
    }

    private static void Told(GateGraph graph, List<Met> times, string name, List<(Condition, int)> found)
    {
        if (times.Count < 2)
        {
            // What is decided once is either so or not; there is no first and last time.
            found.AddRange(times.Select(t => (new Condition("slips.once", name), t.So)));
            return;
        }
        var (once, twice, first, earlier, row) = (
            GateGraph.Zero,
            GateGraph.Zero,
            GateGraph.Zero,
            GateGraph.Zero,
            GateGraph.Zero
        );
        var (last, ever, always) = (GateGraph.Zero, GateGraph.Zero, GateGraph.One);
        foreach (var (here, so) in times)
        {
            first = graph.Or(first, graph.And(GateGraph.Not(ever), so));
            ever = graph.Or(ever, here);
            twice = graph.Or(twice, graph.And(once, so));
            once = graph.Or(once, so);
            row = graph.Or(row, graph.And(earlier, so));
            earlier = graph.Choose(here, so, earlier);
            last = graph.Choose(here, so, last);
            always = graph.And(always, graph.Or(GateGraph.Not(here), so));
        }
        found.Add((new Condition("slips.last-time", name), last));
        found.Add((new Condition("slips.first-time", name), first));
        found.Add((new Condition("slips.some-time", name), once));
        found.Add((new Condition("slips.never", name), GateGraph.Not(once)));
        found.Add((new Condition("slips.every-time", name), graph.And(ever, always)));
        found.Add((new Condition("slips.exactly-once", name), graph.And(once, GateGraph.Not(twice))));
        found.Add((new Condition("slips.in-a-row", name), row));
    }
}
