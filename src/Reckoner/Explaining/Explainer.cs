namespace Reckoner.Explaining;

/// <summary>Finds the fewest causes that give just what somebody got.</summary>
internal static class Explainer
{
    /// <summary>
    /// So much more must it take to say rows without a cause that one is named: below, random registers of 4 bits are given one too
    /// often. In bits; from the second on nothing else is to be expected.
    /// </summary>
    private const double ProbableMargin = 4;
    private const double SureMargin = 8;

    /// <param name="operands">Their bits, in the order of the text.</param>
    /// <param name="most">How many causes together are tried.</param>
    public static Verdict Of(Ways ways, ulong[] operands, Seen seen, int most)
    {
        var modes = Mode.Of(ways, operands);
        return seen.Rows.Count == 0
            ? OfResults(ways, operands, seen, modes, most)
            : OfTable(ways, operands, seen, modes, most);
    }

    private static Verdict OfTable(Ways ways, ulong[] operands, Seen seen, IReadOnlyList<Mode> modes, int most)
    {
        var rows = FollowThrough.Of(ways, operands, seen.Rows);
        var search = new TableSearch(ways, seen);
        var found = Fewest(causes => search.With(modes, causes), ways, operands, most);
        var kind =
            found.Count == 0 ? VerdictKind.Unexplained
            // Where every row follows, the rows say nothing of how likely its cause is.
            : found[0].Causes > 0 && rows.Wrong == 0 ? VerdictKind.Perhaps
            : Kind(found[0], ways, rows.PlainBits(ways.Layout) - found[0].Bits, seen);
        return new Verdict(ways, operands, seen, kind, found, most)
        {
            Rows = seen.IsPart ? null : rows,
            TellingApart = Merging.TellingApart(ways, found),
        };
    }

    private static Verdict OfResults(Ways ways, ulong[] operands, Seen seen, IReadOnlyList<Mode> modes, int most)
    {
        var search = new ResultSearch(ways, operands, seen);
        var found = Fewest(causes => search.With(modes, causes), ways, operands, most);
        var kind =
            found.Count == 0 ? VerdictKind.Unexplained
            // A result says nothing of the way to it.
            : found[0].Causes == 0 ? VerdictKind.Right
            : VerdictKind.Perhaps;
        return new Verdict(ways, operands, seen, kind, found, most)
        {
            TellingApart = Merging.TellingApart(ways, found),
        };
    }

    private static IReadOnlyList<Explanation> Fewest(
        Func<int, IReadOnlyList<Explanation>> search,
        Ways ways,
        ulong[] operands,
        int most
    )
    {
        for (var causes = 0; causes <= most; causes++)
        {
            if (search(causes) is { Count: > 0 } found)
            {
                var right = ways.Right.Table(operands);
                return [.. Merging.Of(ways, found).Select(e => e.Placed(ways, right))];
            }
        }
        return [];
    }

    private static VerdictKind Kind(Explanation best, Ways ways, double margin, Seen seen) =>
        best.Causes == 0 ? (best.Way == ways.Right ? VerdictKind.Right : VerdictKind.OtherWay)
        : seen.IsPart ? VerdictKind.Perhaps
        : margin >= SureMargin ? VerdictKind.Surely
        : margin >= ProbableMargin ? VerdictKind.Probably
        : VerdictKind.Described;
}
