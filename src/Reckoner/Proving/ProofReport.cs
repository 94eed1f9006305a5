using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Verifier;

namespace Reckoner.Proving;

/// <summary>What is proved of a machine for every width from a least one on, and what is not.</summary>
/// <param name="Laws">About operands inside "given".</param>
/// <param name="Outside">About all others; null where nothing is claimed of them.</param>
/// <param name="Certificate">What the verifier was given; null where there was nothing to give.</param>
/// <param name="Refusal">Why the verifier did not believe it; null where it did.</param>
internal sealed record ProofReport(
    IMachine Machine,
    int Least,
    ProofSection Laws,
    ProofSection? Outside,
    string? Certificate,
    Refusal? Refusal
)
{
    public TimeSpan Time { get; init; }

    public IEnumerable<ProofSection> Sections => Outside is null ? [Laws] : [Laws, Outside];

    /// <summary>Whether everything that is claimed is proved.</summary>
    public bool IsWhole => Sections.All(s => s.Claims.All(c => c.IsProved));

    /// <summary>Whether nothing was left off for want of time.</summary>
    public bool IsComplete => Sections.All(s => s.Obstacle is not Proving.Obstacle.Budget);

    /// <summary>Proves what can be proved of a machine; "proved" is what the verifier accepted and nothing else.</summary>
    public static ProofReport Of(IMachine machine, Datapath datapath, Func<bool> isSpent)
    {
        var allowance = new Allowance(isSpent);
        var laws = Tried(machine, datapath.Laws, allowance, isInside: true);
        var outside = datapath.Outside.Count > 0 ? Tried(machine, datapath.Outside, allowance, isInside: false) : null;
        var least = laws.Machine?.Least ?? outside?.Machine?.Least ?? 0;
        if (!(laws.Proof is { HasAny: true } || outside?.Proof is { HasAny: true }))
        {
            return new(machine, least, Section(laws, []), outside is null ? null : Section(outside, []), null, null);
        }
        var certificate = CertificateText.Of(machine.Hash, laws.Proof, outside?.Proof);
        var verdict = Verification.Of(CanonicalTree.Of(machine), machine.Hash, certificate);
        return new(
            machine,
            least,
            Section(laws, verdict.Laws),
            outside is null ? null : Section(outside, verdict.Outside),
            certificate,
            verdict.Refusal
        );
    }

    private sealed record Try(
        IReadOnlyList<Claim> Claims,
        LiftedMachine? Machine,
        SectionProof? Proof,
        NotReachedException? End
    );

    private static Try Tried(IMachine machine, IReadOnlyList<Claim> claims, Allowance allowance, bool isInside)
    {
        LiftedMachine? lifted = null;
        try
        {
            lifted = LiftedMachine.Of(machine);
            return new(claims, lifted, Prover.Of(lifted, allowance, isInside), null);
        }
        catch (NotReachedException end)
        {
            return new(claims, lifted, null, end);
        }
    }

    private static ProofSection Section(Try tried, IReadOnlyList<int> verified) =>
        new(
            [.. tried.Claims.Select((c, i) => new ProvedClaim(c, verified.Contains(i), tried.Proof?.Claims[i]))],
            tried.Proof,
            tried.End?.Obstacle,
            tried.End?.What ?? ""
        );
}

/// <summary>The claims about one set of operands.</summary>
/// <param name="Proof">What was found; null where the reasoning ended before.</param>
/// <param name="Obstacle">Why it ended; null where it did not.</param>
/// <param name="What">Of what in the description that speaks; may be empty.</param>
internal sealed record ProofSection(
    IReadOnlyList<ProvedClaim> Claims,
    SectionProof? Proof,
    Obstacle? Obstacle,
    string What
);

/// <param name="Proof">What was found of it; null where nothing was looked at.</param>
internal sealed record ProvedClaim(Claim Claim, bool IsProved, ClaimProof? Proof);
