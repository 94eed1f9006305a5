namespace Reckoner.Proving;

/// <summary>
/// A node of the tree of cases of an obligation: a choice, of which each way is refuted or leads on, or the end of a path with what
/// is shown there.
/// </summary>
internal sealed class Case
{
    /// <summary>For each way of the choice here why it is impossible; null where it is gone.</summary>
    public Refutation?[] Refuted { get; private set; } = [];

    /// <summary>For each way what follows; null where it is impossible.</summary>
    public Case?[] Ways { get; private set; } = [];

    /// <summary>At the end of a path the proofs of the goals, in order.</summary>
    public IReadOnlyList<GoalProof>? Goals { get; set; }

    public void Split(IReadOnlyList<Refutation?> refuted)
    {
        Refuted = [.. refuted];
        Ways = [.. refuted.Select(r => r is null ? new Case() : null)];
    }

    public IEnumerable<Case> All => Ways.OfType<Case>().SelectMany(w => w.All).Prepend(this);
}

/// <summary>
/// Why something is so at the end of a path: times these factors it would be whole, and neither above nor below 0 (an equation), or
/// not below. Without parts it is plain.
/// </summary>
internal sealed record GoalProof(IReadOnlyList<GoalPart> Parts)
{
    public static readonly GoalProof Plain = new([]);
}

/// <param name="Scale">A positive number times a power that makes the form whole.</param>
internal sealed record GoalPart(Form Scale, Refutation Refutation);
