namespace Reckoner.Refining;

/// <summary>A way to make other descriptions of one. Nothing that it makes is believed before it was tried.</summary>
/// <param name="Candidates">What it makes of a draft; ends with a <see cref="BeyondMoveException"/> where it cannot go on.</param>
/// <param name="IsTrimmed">Whether what it makes is narrowed at once: it leaves bits behind that are known.</param>
internal sealed record Move(
    MoveKind Kind,
    Func<Workshop, Draft, IEnumerable<Candidate>> Candidates,
    bool IsTrimmed = false,
    bool IsLast = false
)
{
    /// <summary>All moves. Those that only leave out what is not needed come after all others found nothing.</summary>
    public static readonly IReadOnlyList<Move> All =
    [
        new(MoveKind.Reframe, ReframeMove.Of, IsTrimmed: true),
        new(MoveKind.Narrow, NarrowMove.Of),
        new(MoveKind.Merge, MergeMove.Of, IsTrimmed: true),
        new(MoveKind.Share, ShareMove.Of, IsTrimmed: true),
        new(MoveKind.Drop, DropMove.Of, IsTrimmed: true),
        new(MoveKind.Skip, (_, draft) => SkipMove.Of(draft)),
        new(MoveKind.Cut, CutMove.Of, IsLast: true),
    ];

    /// <summary>What it makes, each also with everything narrowed that is known now, in one moment too.</summary>
    public IEnumerable<Candidate> Of(Workshop workshop, Draft draft)
    {
        foreach (var candidate in Candidate.IfPossible(() => Candidates(workshop, draft)))
        {
            foreach (var trimmed in IsTrimmed ? Trimmed(workshop, candidate) : [])
            {
                yield return trimmed;
            }
            yield return candidate;
        }
    }

    private static IEnumerable<Candidate> Trimmed(Workshop workshop, Candidate candidate)
    {
        foreach (var trimmed in Narrowed(workshop, candidate))
        {
            yield return trimmed;
        }
        foreach (var merged in Candidate.IfPossible(() => MergeMove.Of(workshop, candidate.Draft)))
        {
            foreach (var trimmed in Narrowed(workshop, With(candidate, merged)))
            {
                yield return trimmed;
            }
        }
    }

    private static IEnumerable<Candidate> Narrowed(Workshop workshop, Candidate candidate)
    {
        foreach (var narrow in new[] { NarrowMove.OfZeros, NarrowMove.OfSigns })
        {
            foreach (var narrower in Candidate.IfPossible(() => narrow(workshop, candidate.Draft)))
            {
                yield return With(candidate, narrower);
            }
        }
    }

    private static Candidate With(Candidate first, Candidate then) =>
        first with
        {
            Reasons = [.. first.Reasons, .. then.Reasons],
            Draft = then.Draft,
        };
}
