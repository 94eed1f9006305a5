using System.Numerics;
using Reckoner.Claims;
using Reckoner.Proving;

namespace Reckoner.Questions;

/// <summary>What is proved of a machine for every operand at every width, verified, and what is not.</summary>
/// <param name="Least">The least width that it is about.</param>
/// <param name="Laws">What is claimed of operands inside "given".</param>
/// <param name="Outside">What is claimed of the others.</param>
/// <param name="Invariant">What holds at the head of every round for operands inside "given", as formulas in n and i, the rounds done.</param>
/// <param name="Ends">What holds behind the last round.</param>
/// <param name="Certificate">What the verifier believed; null where nothing is proved.</param>
public sealed record Proved(
    int Least,
    IReadOnlyList<ProvedLaw> Laws,
    IReadOnlyList<ProvedLaw> Outside,
    IReadOnlyList<string> Invariant,
    IReadOnlyList<string> Ends,
    string? Certificate
)
{
    /// <summary>Whether something is claimed, and all of it is proved.</summary>
    public bool IsWhole => Laws.Count + Outside.Count > 0 && Laws.Concat(Outside).All(l => l.IsProved);

    internal static Proved Of(ProofReport report)
    {
        var loops = report
            .Laws.Proofs.SelectMany(p => p.Loops.Select(l => (Loop: l, p.Variables)))
            .Where(_ => report.Laws.Claims.Any(c => c.IsProved))
            .ToList();
        return new(
            report.Least,
            Claims(report.Laws),
            report.Outside is { } outside ? Claims(outside) : [],
            [.. loops.SelectMany(l => l.Loop.NeededHead.Select(f => InvariantText.Of(f, l.Variables)))],
            [.. loops.SelectMany(l => l.Loop.NeededExit.Select(f => InvariantText.Of(f, l.Variables)))],
            report.Refusal is null ? report.Certificate : null
        );
    }

    private static IReadOnlyList<ProvedLaw> Claims(ProofSection section) =>
        [.. section.Claims.Select(c => new ProvedLaw(c.Claim, c.IsProved, c.Fails?.Width, c.Fails?.Operands ?? []))];
}

/// <summary>A claim of which it is known, or not, that it holds for every operand at every width.</summary>
/// <param name="WrongAt">The least width at which operands were found for which it does not hold; null for none.</param>
/// <param name="WrongFor">Their bits, in the order of the text; empty for none.</param>
public sealed record ProvedLaw(Claim Claim, bool IsProved, int? WrongAt, IReadOnlyList<BigInteger> WrongFor);
