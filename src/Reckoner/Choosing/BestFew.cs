namespace Reckoner.Choosing;

/// <summary>
/// The operands that teach most, by these in turn: no shortcut, or one that leaves the shifting; most outcomes of decisions; fewest cycles that decide just what the
/// one before did; fewest cycles; fewest decimal digits; and what counts as small in every list of operands.
/// </summary>
internal static class BestFew
{
    public static IReadOnlyList<ChosenOperands> Of(Candidates candidates, int count)
    {
        var work = new CaseWork(candidates);
        var ranked = candidates
            .Chosen.Select(index => (Index: index, Rank: Rank(work, index)))
            .OrderBy(c => c.Rank)
            .ThenBy(c => c.Index);
        return [.. ranked.Take(count).Select(c => work.Decisions.At(c.Index))];
    }

    private static (int Shortness, int Outcomes, int Alike, int Cycles, int Digits) Rank(CaseWork work, int index) =>
        (
            work.Shortness(index),
            -work.Decisions.Counts(index).Count(c => c > 0),
            work.Alike(index),
            work.Decisions.Cycles(index),
            work.Digits(index)
        );
}
