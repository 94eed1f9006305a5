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

    /// <summary>What was found at one width, where that was asked for, or where it is not proved for every width; null where neither is.</summary>
    public AtWidth? At { get; init; }

    /// <summary>How many cycles it takes; null where that is not known as a formula, or was not asked.</summary>
    public CycleCount? Cycles { get; init; }

    public IEnumerable<ProofSection> Sections => Outside is null ? [Laws] : [Laws, Outside];

    /// <summary>Whether anything is claimed: of nothing it would be proved that it is so.</summary>
    public bool ClaimsAny => Sections.Any(s => s.Claims.Count > 0);

    /// <summary>Whether something is claimed, and all of it is proved.</summary>
    public bool IsWhole => ClaimsAny && Sections.All(s => s.Claims.All(c => c.IsProved));

    /// <summary>Whether what was asked about is so: every width, or one.</summary>
    public bool IsShown => IsWhole || At is { IsAsked: true, Holds: true };

    /// <summary>Whether it was stopped while operands were tried.</summary>
    public bool IsStopped { get; init; }

    /// <summary>Whether nothing was left off for want of time.</summary>
    public bool IsComplete => !IsStopped && Sections.All(s => s.Obstacle is not Proving.Obstacle.Budget);

    /// <summary>Whether some claim is wrong for operands that were found.</summary>
    public bool IsWrong => Sections.Any(s => s.Claims.Any(c => c.Fails is not null));

    /// <summary>
    /// Proves what can be proved of a machine; "proved" is what the verifier accepted and nothing else. For what was not proved
    /// operands are looked for that show it to be wrong.
    /// </summary>
    /// <param name="proposal">
    /// What is to hold in every round; then it is about the laws alone, and no operands are tried. Null where it is to be found.
    /// </param>
    public static ProofReport Of(
        IMachine machine,
        Datapath datapath,
        Func<bool> isSpent,
        Screening screening = Screening.Runs,
        Proposal? proposal = null
    )
    {
        var allowance = new Allowance(isSpent);
        bool IsWorthTrying(LiftedMachine lifted, bool isInside) =>
            screening == Screening.None || !Trials.AllFail(lifted.Datapath, isInside);
        LiftedMachine? lifted = null;
        NotReachedException? end = null;
        try
        {
            lifted = LiftedMachine.Of(machine);
        }
        catch (NotReachedException e)
        {
            end = e;
        }
        var laws = new List<Attempt>();
        var outside = new List<Attempt>();
        if (lifted is not null)
        {
            if (IsWorthTrying(lifted, isInside: true))
            {
                laws.Add(Attempt.At(lifted, allowance, OperandPart.Inside, proposal));
                if (laws[0].Proof is not { IsWhole: true } && proposal is null)
                {
                    laws.AddRange(OperandPart.Of(lifted.Datapath).Select(p => Attempt.At(lifted, allowance, p)));
                }
            }
            if (datapath.Outside.Count > 0 && proposal is null && IsWorthTrying(lifted, isInside: false))
            {
                outside.Add(Attempt.At(lifted, allowance, OperandPart.Outside));
            }
        }
        var proofs = laws.Concat(outside).Select(a => a.Proof).OfType<SectionProof>().Where(p => p.HasAny).ToList();
        var certificate = proofs.Count > 0 ? CertificateText.Of(machine.Hash, proofs) : null;
        var verdict = certificate is null
            ? null
            : Verification.Of(CanonicalTree.Of(machine), machine.Hash, certificate);
        return new(
            machine,
            lifted?.Least ?? 0,
            Section(datapath.Laws, laws, end, verdict?.Laws ?? [], Fails(isInside: true, datapath.Laws, verdict?.Laws)),
            datapath.Outside.Count > 0 && proposal is null
                ? Section(
                    datapath.Outside,
                    outside,
                    end,
                    verdict?.Outside ?? [],
                    Fails(isInside: false, datapath.Outside, verdict?.Outside)
                )
                : null,
            certificate,
            verdict?.Refusal
        );

        IReadOnlyDictionary<int, Failing> Fails(
            bool isInside,
            IReadOnlyList<Claim> claims,
            IReadOnlyList<int>? proved
        ) =>
            proposal is null
                ? Trials.Of(machine, isInside, [.. Enumerable.Range(0, claims.Count).Except(proved ?? [])], isSpent)
                : new Dictionary<int, Failing>();
    }

    private sealed record Attempt(SectionProof? Proof, NotReachedException? End)
    {
        public static Attempt At(
            LiftedMachine machine,
            Allowance allowance,
            OperandPart part,
            Proposal? proposal = null
        )
        {
            try
            {
                return new(Prover.Of(machine, allowance, part, proposal), null);
            }
            catch (NotReachedException end)
            {
                return new(null, end);
            }
        }
    }

    private static ProofSection Section(
        IReadOnlyList<Claim> claims,
        List<Attempt> attempts,
        NotReachedException? end,
        IReadOnlyList<int> verified,
        IReadOnlyDictionary<int, Failing> fails
    )
    {
        var proofs = attempts.Select(a => a.Proof).OfType<SectionProof>().ToList();
        var ends = attempts.Select(a => a.End).OfType<NotReachedException>().ToList();
        // Where the time was spent it cannot be said what else would have ended it.
        end ??= ends.Find(e => e.Obstacle is Proving.Obstacle.Budget) ?? ends.FirstOrDefault();
        var isWhole = verified.Count == claims.Count;
        var together = proofs.FindAll(p => p.Part.When.Count == 0);
        var isByParts = isWhole ? !together.Exists(p => p.IsWhole) : !together.Exists(p => p.HasAny);
        return new(
            [
                .. claims.Select(
                    (c, i) =>
                        new ProvedClaim(
                            c,
                            verified.Contains(i),
                            proofs.FirstOrDefault()?.Claims[i],
                            fails.GetValueOrDefault(i)
                        )
                ),
            ],
            // Parts are of interest only where all operands together were not enough; what proves nothing stands in no certificate.
            [.. proofs.Where(p => p.HasAny && p.Part.When.Count > 0 == isByParts)],
            isWhole ? null : end?.Obstacle,
            end?.What ?? ""
        )
        {
            Together = together,
        };
    }
}

/// <summary>The claims about one set of operands.</summary>
/// <param name="Proofs">What was found, for all of them or for parts; none where the reasoning ended before.</param>
/// <param name="Obstacle">Why it ended; null where it did not.</param>
/// <param name="What">Of what in the description that speaks; may be empty.</param>
internal sealed record ProofSection(
    IReadOnlyList<ProvedClaim> Claims,
    IReadOnlyList<SectionProof> Proofs,
    Obstacle? Obstacle,
    string What
)
{
    /// <summary>What was tried for all operands together, whether or not it proved anything: it knows what broke.</summary>
    public IReadOnlyList<SectionProof> Together { get; init; } = [];
}

/// <param name="Proof">What was found of it; null where nothing was looked at.</param>
/// <param name="Fails">Operands for which it does not hold; null where it is proved or none were found.</param>
internal sealed record ProvedClaim(Claim Claim, bool IsProved, ClaimProof? Proof, Failing? Fails)
{
    /// <summary>
    /// Whether every operand was tried, and another claim failed first: of this one it is known only that those operands do not
    /// break it.
    /// </summary>
    public bool IsUnseen { get; init; }
}

/// <summary>What is done before a proof is tried.</summary>
internal enum Screening
{
    /// <summary>Nothing: a proof is tried of what is wrong too.</summary>
    None,

    /// <summary>Some operands are run; where they show that every claim is wrong, there is nothing to prove.</summary>
    Runs,
}
