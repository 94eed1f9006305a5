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

    /// <summary>Rows that were to be filled in and do not follow from the one above; what was worked another right way has none.</summary>
    public IEnumerable<FollowedRow> WrongRows => Rows.Rows.Where(IsWrong);

    public bool IsWrong(FollowedRow row) =>
        row.Standing == RowStanding.Wrong && !Form.IsPrinted(row.Row) && !IsAsGoodAsRight;

    /// <summary>Rows of the form that are asked for by the rows above and not there. Beyond the form nobody can write any.</summary>
    public int Missing => IsAsGoodAsRight ? 0 : Math.Min(Room, Rows.TooFew);

    /// <summary>Rows of the form below the last that was written.</summary>
    public int Room => Math.Max(0, Form.Open.Count - Written);

    /// <summary>Rows behind the last cycle that the form does not have either.</summary>
    public int Extra => IsAsGoodAsRight ? 0 : Math.Clamp(Written - Form.Open.Count, 0, Rows.TooMany);

    private int Written => Rows.Rows.Count + Rows.TooMany;

    private bool IsAsGoodAsRight => Verdict.Kind is VerdictKind.Right or VerdictKind.OtherWay;

    public bool IsRight => Credit.Lost == 0;

    /// <param name="operands">Their bits.</param>
    /// <param name="seen">Rows and results as they were written; what was printed is among them.</param>
    /// <param name="most">How many causes together are looked for.</param>
    public static TableMark Of(Ways ways, ulong[] operands, Seen seen, TableForm form, MarkScheme scheme, int most)
    {
        var rows = FollowThrough.Of(ways, operands, seen.Rows, row => form.Compared(ways.Layout, row));
        var said = Said(ways, operands, seen, rows, form);
        var verdict = Explainer.Of(ways, operands, Judged(ways, seen, rows, form, said), most);
        List<int> unfinished =
        [
            .. rows.Rows.Where(r => r.Standing == RowStanding.Unfinished && !form.IsPrinted(r.Row)).Select(r => r.Row),
        ];
        var lacksResults = form.AsksResults && seen.Results.Any(r => r is null);
        if (lacksResults && !LacksRows(rows, form) && rows.Rows.Count > 0 && !unfinished.Contains(rows.Rows.Count - 1))
        {
            unfinished.Add(rows.Rows.Count - 1);
        }
        var mark = new TableMark(
            verdict,
            rows,
            form,
            unfinished,
            said == ResultStanding.Wrong,
            said == ResultStanding.Unsupported && verdict.Kind != VerdictKind.OtherWay,
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

    /// <summary>What a cause is looked for in.</summary>
    private static Seen Judged(Ways ways, Seen seen, FollowThrough rows, TableForm form, ResultStanding said)
    {
        // A right result that the rows do not give is pointed out and costs nothing; of a table that has no room for the last of its
        // own cycles nobody knows what it would have come to.
        var areResultsLeft = said == ResultStanding.Unsupported || (said == ResultStanding.Follows && rows.TooFew > 0);
        // What is printed beside own digits and contradicts them is nobody's mistake.
        var isContradicted = rows.Rows.Any(r =>
            !form.IsPrinted(r.Row) && !r.Seen.Within(~form.Asked(ways.Layout, r.Row)).Agrees(r.Expected)
        );
        return seen with
        {
            Rows = isContradicted
                ? [.. seen.Rows.Select((r, i) => r.Within(form.Compared(ways.Layout, i)))]
                : seen.Rows,
            Results = areResultsLeft ? [.. seen.Results.Select(_ => (System.Numerics.BigInteger?)null)] : seen.Results,
        };
    }

    /// <summary>Whether rows that the form has are not there.</summary>
    private static bool LacksRows(FollowThrough rows, TableForm form) =>
        rows.TooFew > 0 && rows.Rows.Count < form.Open.Count;

    private static ResultStanding Said(Ways ways, ulong[] operands, Seen seen, FollowThrough rows, TableForm form)
    {
        if (seen.Results.All(r => r is null))
        {
            return ResultStanding.Follows;
        }
        var isWhole = rows.Rows.Count > 0 && !LacksRows(rows, form);
        var last = isWhole ? rows.Rows[^1].Seen.Over(rows.Rows[^1].Expected) : UInt128.Zero;
        return isWhole && seen.Agrees(ways.Right.Results(last)) ? ResultStanding.Follows
            : seen.Agrees(ways.Right.Final(operands)) ? ResultStanding.Unsupported
            : ResultStanding.Wrong;
    }
}
