using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Timelines;

namespace Reckoner.Slips;

/// <summary>For which operands a wrong machine breaks its laws, as a short condition.</summary>
/// <param name="Cases">Operands inside "given", <paramref name="Failures"/> of which break a law.</param>
/// <param name="When">A condition that is so exactly for those; null where no short one fits.</param>
public sealed record FailureCondition(Datapath Datapath, long Cases, long Failures, Condition? When)
{
    /// <summary>So many operand bits are tried.</summary>
    public const int MostBits = 12;

    /// <param name="right">
    /// A machine that keeps the laws, of the same operands and results: then conditions may speak of its results and decisions,
    /// else of the operands and of what the wrong machine decides.
    /// </param>
    /// <returns>Null where there are too many operands or the laws cannot become gates.</returns>
    public static FailureCondition? Of(Datapath wrong, Datapath? right, IPlaneEngine engine)
    {
        if (wrong.Operands.Sum(o => o.Width) > MostBits)
        {
            return null;
        }
        try
        {
            var model = right is not null && HasSameShape(wrong, right) ? right : null;
            return (model is null ? null : Searched(wrong, model, engine)) ?? Searched(wrong, null, engine);
        }
        catch (LawBeyondPlanesException)
        {
            return null;
        }
    }

    private static bool HasSameShape(Datapath a, Datapath b) =>
        a.Operands.Select(o => (o.Name, o.Width, o.IsSigned))
            .SequenceEqual(b.Operands.Select(o => (o.Name, o.Width, o.IsSigned)))
        && a.Results.Select(r => (r.Name, r.Width)).SequenceEqual(b.Results.Select(r => (r.Name, r.Width)));

    /// <summary>Null where the model breaks the laws itself.</summary>
    private static FailureCondition? Searched(Datapath wrong, Datapath? model, IPlaneEngine engine)
    {
        var gates = new RightGates(model ?? wrong);
        var (given, fails) = Failing(wrong, gates.Graph);
        var (_, modelFails) = model is null ? (given, GateGraph.Zero) : Failing(wrong, model, gates.Graph);
        var conditions = gates
            .Candidates(withResults: model is not null)
            .DistinctBy(c => c.Literal)
            .Where(c => c.Literal > GateGraph.One)
            .ToList();
        var program = PlaneProgram.Of(gates.Graph, [given, fails, modelFails, .. conditions.Select(c => c.Literal)]);
        var bits = CaseTable.All(wrong).Run(program, engine);
        if (CaseTable.Count(bits[2]) > 0)
        {
            return null;
        }
        var search = new ConditionSearch(conditions.Zip(bits.Skip(3), (c, b) => (c.Condition, b)), bits[0]);
        var failures = CaseTable.Count(bits[1]);
        var when = failures == 0 || search.Exactly(bits[1]) is not [var first, ..] ? null : first;
        return new FailureCondition(wrong, CaseTable.Count(bits[0]), failures, when);
    }

    private static (int Given, int Fails) Failing(Datapath datapath, GateGraph graph) =>
        Failing(datapath, datapath, graph);

    /// <summary>Where the laws of one machine do not hold with the results of another.</summary>
    private static (int Given, int Fails) Failing(Datapath claims, Datapath machine, GateGraph graph)
    {
        var operands = CheckProgram.OperandLiterals(claims.Operands);
        var timeline = Timeline.Of(machine);
        var planes = new Planes(graph, timeline.Graph, operands);
        var results = claims.Results.Zip(timeline.Results).ToDictionary(r => r.First, r => planes[r.Second]);
        var formulas = new FormulaPlanes(graph, CheckProgram.Words(claims, operands, results));
        var given = All(graph, claims.Given.Select(formulas.Holds));
        var holds = All(graph, claims.Laws.Select(l => formulas.Holds(l)));
        return (given, graph.And(given, GateGraph.Not(holds)));
    }

    private static int All(GateGraph graph, IEnumerable<int> literals) => literals.Aggregate(GateGraph.One, graph.And);
}
