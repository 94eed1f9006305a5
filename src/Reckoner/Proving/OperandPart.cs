using System.Numerics;
using Reckoner.Claims;
using Reckoner.Datapaths;

namespace Reckoner.Proving;

/// <summary>Some of the operands: those inside "given" or outside, and of those the ones for which conditions of laws are so or not.</summary>
/// <param name="When">Laws, by their place, whose "when" is so or is not.</param>
internal sealed record OperandPart(bool IsInside, IReadOnlyList<(int Law, bool IsSo)> When)
{
    public static readonly OperandPart Inside = new(true, []);
    public static readonly OperandPart Outside = new(false, []);

    public bool Has(Datapath datapath, IReadOnlyList<BigInteger> operands) =>
        datapath.IsGiven(operands) == IsInside
        && When.All(w => ClaimJudge.Applies(datapath.Laws[w.Law], operands, []) == w.IsSo);

    /// <summary>
    /// Parts that make up all operands inside "given": those for which the first condition on operands alone is so, the second but
    /// not the first, and so on; last those for which none is. None where there is no such condition, or too many.
    /// </summary>
    public static IReadOnlyList<OperandPart> Of(Datapath datapath)
    {
        var laws = Enumerable
            .Range(0, datapath.Laws.Count)
            .Where(l =>
                datapath.Laws[l] is { Mode: ClaimMode.When, Condition: { } condition } && IsOfOperands(condition)
            )
            .DistinctBy(l => FormulaText.Of(datapath.Laws[l].Condition!))
            .ToList();
        return laws.Count is 0 or > 3
            ? []
            :
            [
                .. laws.Select(
                    (law, i) => new OperandPart(true, [.. laws.Take(i).Select(l => (l, false)), (law, true)])
                ),
                new OperandPart(true, [.. laws.Select(l => (l, false))]),
            ];
    }

    private static bool IsOfOperands(Truth condition) =>
        condition.Leaves.All(t => t.Variable is null or { Kind: VariableKind.Operand });
}
