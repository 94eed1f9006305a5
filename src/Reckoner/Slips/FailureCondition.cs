using Reckoner.Checking;
using Reckoner.Conditions;
using Reckoner.Datapaths;

namespace Reckoner.Slips;

/// <summary>For which operands a wrong machine breaks its laws, as a short condition.</summary>
/// <param name="Cases">Operands inside "given", <paramref name="Failures"/> of which break a law.</param>
/// <param name="When">A condition that is so exactly for those; null where no short one fits.</param>
internal sealed record FailureCondition(Datapath Datapath, long Cases, long Failures, Condition? When)
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
        catch (Exception e) when (e is LawBeyondPlanesException or GatesBeyondRoomException)
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
        var gates = MachineGates.Of(model ?? wrong);
        var asked = model is null ? gates : gates.Beside(wrong);
        var fails = Failing(asked, asked);
        var modelFails = Failing(asked, gates);
        var conditions = new ShortConditions(gates).All(withResults: model is not null);
        var program = PlaneProgram.Of(
            gates.Graph,
            [asked.Given, fails, modelFails, .. conditions.Select(c => c.Literal)]
        );
        var bits = CaseTable.All(wrong).Run(program, engine);
        if (model is not null && CaseTable.Count(bits[2]) > 0)
        {
            return null;
        }
        var search = new ConditionSearch(conditions.Zip(bits.Skip(3), (c, b) => (c.Condition, b)), bits[0]);
        var failures = CaseTable.Count(bits[1]);
        var when = failures == 0 || search.Exactly(bits[1]) is not [var first, ..] ? null : first;
        return new FailureCondition(wrong, CaseTable.Count(bits[0]), failures, when);
    }

    /// <summary>Where the laws of one machine do not hold with the results of another of its shape.</summary>
    private static int Failing(MachineGates claims, MachineGates machine) =>
        claims.Graph.And(claims.Given, GateGraph.Not(claims.Hold(claims.Datapath.Laws, machine.Results)));
}
