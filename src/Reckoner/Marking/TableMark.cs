using Reckoner.Classroom;
using Reckoner.Explaining;

namespace Reckoner.Marking;

/// <summary>A table that was filled in, with what is wrong in it and what it is worth.</summary>
/// <param name="Verdict">Why it is as it is.</param>
/// <param name="Rows">Each row beside what follows from the one above.</param>
/// <param name="Unfinished">Rows in which cells were left empty, and nothing that was written is wrong.</param>
/// <param name="AreResultsWrong">Whether what was said below the table is not what its last row gives, and not right either.</param>
/// <param name="AreResultsUnsupported">Whether what was said is right, and the last row gives something else.</param>
internal sealed record TableMark(
    Verdict Verdict,
    FollowThrough Rows,
    TableForm Form,
    IReadOnlyList<int> Unfinished,
    bool AreResultsWrong,
    bool AreResultsUnsupported,
    Credit Credit
)
{
    /// <summary>The first row that does not follow from the one above; null where each does.</summary>
    public int? FirstWrong => WrongRows.Select(r => (int?)r.Row).FirstOrDefault();

    /// <summary>Rows that were to be filled in and do not follow from the one above.</summary>
    public IEnumerable<FollowedRow> WrongRows =>
        Rows.Rows.Where(r => r.Standing == RowStanding.Wrong && !Form.IsPrinted(r.Row));

    public bool IsRight => Credit.Lost == 0;

    /// <param name="operands">Their bits.</param>
    /// <param name="seen">Rows and results as they were written; what was printed is among them.</param>
    /// <param name="most">How many causes together are looked for.</param>
    public static TableMark Of(Ways ways, ulong[] operands, Seen seen, TableForm form, MarkScheme scheme, int most)
    {
        var rows = FollowThrough.Of(ways, operands, seen.Rows);
        var said = Said(ways, operands, seen, rows);
        // A right result that the rows do not give is pointed out and costs nothing.
        var judged =
            said == ResultStanding.Unsupported
                ? seen with
                {
                    Results = [.. seen.Results.Select(_ => (System.Numerics.BigInteger?)null)],
                }
                : seen;
        var verdict = Explainer.Of(ways, operands, judged, most);
        List<int> unfinished =
        [
            .. rows.Rows.Where(r => r.Standing == RowStanding.Unfinished && !form.IsPrinted(r.Row)).Select(r => r.Row),
        ];
        var lacksResults = form.AsksResults && seen.Results.Any(r => r is null);
        if (lacksResults && rows.TooFew == 0 && rows.Rows.Count > 0 && !unfinished.Contains(rows.Rows.Count - 1))
        {
            unfinished.Add(rows.Rows.Count - 1);
        }
        var mark = new TableMark(
            verdict,
            rows,
            form,
            unfinished,
            said == ResultStanding.Wrong,
            said == ResultStanding.Unsupported,
            default
        );
        return mark with { Credit = Lost.Of(mark, ways, operands, seen, scheme) };
    }

    private enum ResultStanding
    {
        /// <summary>They are those of the last row, or were not said.</summary>
        Follows,
        Unsupported,
        Wrong,
    }

    private static ResultStanding Said(Ways ways, ulong[] operands, Seen seen, FollowThrough rows)
    {
        if (seen.Results.All(r => r is null))
        {
            return ResultStanding.Follows;
        }
        var isWhole = rows is { TooFew: 0, Rows.Count: > 0 };
        var last = isWhole ? rows.Rows[^1].Seen.Over(rows.Rows[^1].Expected) : UInt128.Zero;
        return isWhole && seen.Agrees(ways.Right.Results(last)) ? ResultStanding.Follows
            : seen.Agrees(ways.Right.Final(operands)) ? ResultStanding.Unsupported
            : ResultStanding.Wrong;
    }
}
