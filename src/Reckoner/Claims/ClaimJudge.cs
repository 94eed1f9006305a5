using System.Numerics;
using Reckoner.Numbers;

namespace Reckoner.Claims;

/// <summary>
/// Judges claims by the bits of operands and results, each in the order of the text. A formula without a value does not hold.
/// </summary>
internal static class ClaimJudge
{
    public static bool Holds(Claim claim, IReadOnlyList<BigInteger> operands, IReadOnlyList<BigInteger> results)
    {
        var exact = Over(operands, results);
        var formula = exact.Truth(claim.Formula);
        return claim.Mode switch
        {
            ClaimMode.Always => formula is true,
            ClaimMode.When => exact.Truth(claim.Condition!) is false || formula is true,
            ClaimMode.ExactlyWhen => formula is not null && formula == exact.Truth(claim.Condition!),
        };
    }

    /// <summary>Whether a claim says anything here: its "when" is so, or it has none.</summary>
    public static bool Applies(Claim claim, IReadOnlyList<BigInteger> operands, IReadOnlyList<BigInteger> results) =>
        claim.Mode switch
        {
            ClaimMode.Always or ClaimMode.ExactlyWhen => true,
            ClaimMode.When => Over(operands, results).Truth(claim.Condition!) is true,
        };

    private static Exact Over(IReadOnlyList<BigInteger> operands, IReadOnlyList<BigInteger> results) =>
        new(v =>
            v.Kind switch
            {
                VariableKind.Operand => v.Number(operands[v.Index]),
                VariableKind.Result => v.Number(results[v.Index]),
                VariableKind.Index => (Rational?)null,
            }
        );
}
