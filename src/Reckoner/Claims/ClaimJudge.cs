using System.Numerics;
using Reckoner.Diagnostics;
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

    /// <summary>Whether a formula over operands alone has a value and is true.</summary>
    public static bool IsSo(Truth formula, IReadOnlyList<BigInteger> operands) =>
        Over(operands, []).Truth(formula) is true;

    /// <summary>Whether a claim says anything here: its "when" is so, or it has none.</summary>
    public static bool Applies(Claim claim, IReadOnlyList<BigInteger> operands, IReadOnlyList<BigInteger> results) =>
        claim.Mode switch
        {
            ClaimMode.Always or ClaimMode.ExactlyWhen => true,
            ClaimMode.When => Over(operands, results).Truth(claim.Condition!) is true,
        };

    /// <summary>Of a claim that does not hold here, the part for want of whose value it does not; null where it is plainly false.</summary>
    public static Undefined? Undefined(
        Claim claim,
        IReadOnlyList<BigInteger> operands,
        IReadOnlyList<BigInteger> results
    )
    {
        var noting = new Noting(Values(operands, results));
        return noting.Truth(claim.Formula) is null || (claim.Condition is { } when && noting.Truth(when) is null)
            ? noting.First
            : null;
    }

    /// <summary>Keeps the first part that has no value.</summary>
    private sealed class Noting(Func<Variable, Rational?> values) : Exact(values)
    {
        public Undefined? First { get; private set; }

        protected override void Tell(Id why, Term part) => First ??= new Undefined(why, part);
    }

    private static Exact Over(IReadOnlyList<BigInteger> operands, IReadOnlyList<BigInteger> results) =>
        new(Values(operands, results));

    private static Func<Variable, Rational?> Values(
        IReadOnlyList<BigInteger> operands,
        IReadOnlyList<BigInteger> results
    ) =>
        v =>
            v.Kind switch
            {
                VariableKind.Operand => v.Number(operands[v.Index]),
                VariableKind.Result => v.Number(results[v.Index]),
                VariableKind.Index or VariableKind.Parameter => (Rational?)null,
            };
}
