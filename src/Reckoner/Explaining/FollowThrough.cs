using Reckoner.Classroom;

namespace Reckoner.Explaining;

/// <summary>A row beside what follows from the one above it, as that was written.</summary>
/// <param name="Expected">What the machine makes of the row above.</param>
/// <param name="Standing">As a row that is judged by itself stands.</param>
internal readonly record struct FollowedRow(int Row, UInt128 Expected, SeenRow Seen, RowStanding Standing);

/// <summary>
/// A table row by row, each from the row above as it was written: the fast twin of <see cref="TableJudgement"/>.
/// </summary>
/// <param name="TooMany">Rows below the last cycle.</param>
/// <param name="TooFew">Cycles for which there is no row.</param>
internal sealed record FollowThrough(IReadOnlyList<FollowedRow> Rows, int TooMany, int TooFew)
{
    /// <summary>Rows that do not follow from the one above, and rows that are too many or too few.</summary>
    public int Wrong => Rows.Count(r => r.Standing == RowStanding.Wrong) + TooMany + TooFew;

    public static FollowThrough Of(Ways ways, ulong[] operands, IReadOnlyList<SeenRow> rows) =>
        Of(ways, operands, rows, _ => ways.Layout.Mask);

    /// <param name="compared">
    /// For each row the bits that are judged; those that are not stand as they are written, and what is below follows from them.
    /// </param>
    public static FollowThrough Of(
        Ways ways,
        ulong[] operands,
        IReadOnlyList<SeenRow> rows,
        Func<int, UInt128> compared
    )
    {
        var (way, walked) = (ways.Right, ways.Right.Table(operands));
        var (own, at) = (walked[0], 0);
        var followed = new List<FollowedRow>();
        for (var i = 0; i < rows.Count; i++)
        {
            if (i > 0)
            {
                at = way.Next(at, own);
                if (at >= way.MostCycles)
                {
                    break;
                }
                own = way.After(at++, own);
            }
            var (expected, row) = (own, rows[i]);
            own = row.Over(expected);
            followed.Add(
                new FollowedRow(
                    i,
                    expected,
                    row,
                    !row.Within(compared(i)).Agrees(expected) ? RowStanding.Wrong
                        : row.Known != ways.Layout.Mask ? RowStanding.Unfinished
                        : i < walked.Count && own == walked[i] ? RowStanding.Right
                        : RowStanding.Follows
                )
            );
        }
        var tooFew = 0;
        if (followed.Count == rows.Count)
        {
            for (at = way.Next(at, own); at < way.MostCycles; at = way.Next(at, own))
            {
                own = way.After(at++, own);
                tooFew++;
            }
        }
        return new FollowThrough(followed, rows.Count - followed.Count, tooFew);
    }

    /// <summary>What it takes to say no more than which registers are wrong in which row, and what stands there.</summary>
    public double PlainBits(RowLayout layout)
    {
        var row = 3 + Math.Log2(Math.Max(2, Rows.Count + TooMany));
        return Rows.Where(r => r.Standing == RowStanding.Wrong)
                .Sum(r => row + TableSearch.Plainly(layout, r.Expected, r.Seen.Over(r.Expected)))
            + TooMany * row
            + (TooFew > 0 ? row : 0);
    }
}
