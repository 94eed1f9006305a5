using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Running;
using Reckoner.Styles;

namespace Reckoner.Reporting;

/// <summary>What one row of a walk's table shows: a cycle, a round or a moment.</summary>
/// <param name="Row">The cycle, or the last one of a round.</param>
/// <param name="Moments">The stretches of time it covers, in order.</param>
/// <param name="Earlier">The moment before them in the same cycle, or null.</param>
internal sealed record WalkRow(
    Row Row,
    IReadOnlyList<MomentOfWalk> Moments,
    MomentOfWalk? Earlier,
    Segment? Segment,
    bool IsOneOfSeveral
)
{
    public IReadOnlyList<BigInteger> Registers => Moments[^1].Registers;

    public bool IsStored => Moments[^1].Stored;

    public bool IsLoad => Row.Cycle == 0;

    /// <summary>Rounds still to come; at the load, those of the first loop; null where nobody can know.</summary>
    public int? Remaining => Segment is { While: null } loop ? loop.Count - Row.Round : null;

    /// <summary>Which way its first decision falls, from 1; null where nothing is decided in it. Which round it is counts for none.</summary>
    public int? Way =>
        Moments
            .SelectMany(m => m.Happenings)
            .OfType<Tested>()
            .Where(t => t.IsLast is null)
            .Select(t => (int?)t.Way + 1)
            .FirstOrDefault();

    /// <summary>Whether any register is written in it, be it with the bits it had.</summary>
    public bool Writes => Moments.Any(m => m.Happenings.Any(h => h.Written.Count > 0));

    /// <summary>The named values that come about in this row; of a name used twice, the later one.</summary>
    public WireValue? Value(string name) =>
        Moments
            .SelectMany(m => m.Values)
            .LastOrDefault(v => v.Wire.Name == name && Earlier?.Values.Any(e => e.Wire == v.Wire) != true);

    /// <summary>The rows of a walk by the unit of a style.</summary>
    public static IEnumerable<WalkRow> Of(Walk walk, HouseStyle style)
    {
        var rows = style.Rows switch
        {
            RowUnit.Cycle => walk.Rows.Select(r => Whole(walk, [r])),
            RowUnit.Round => Rounds(walk.Rows).Select(rows => Whole(walk, rows)),
            RowUnit.Moment => walk.Rows.SelectMany(r => Apart(walk, r)),
        };
        return style.LeavesOutIdle ? rows.Where(r => r.IsLoad || r.Writes) : rows;
    }

    private static WalkRow Whole(Walk walk, IReadOnlyList<Row> rows) =>
        new(rows[^1], [.. rows.SelectMany(r => r.Moments)], null, SegmentOf(walk, rows[^1]), false);

    private static IEnumerable<WalkRow> Apart(Walk walk, Row row) =>
        row.Moments.Select(
            (moment, i) =>
                new WalkRow(
                    row,
                    [moment],
                    i == 0 ? null : row.Moments[i - 1],
                    SegmentOf(walk, row),
                    row.Moments.Count > 1
                )
        );

    private static IEnumerable<IReadOnlyList<Row>> Rounds(IReadOnlyList<Row> rows)
    {
        for (var i = 0; i < rows.Count; )
        {
            var round = rows.Skip(i).TakeWhile(r => r.Round > 0 && Same(r, rows[i])).ToList();
            yield return round.Count == 0 ? [rows[i]] : round;
            i += Math.Max(1, round.Count);
        }
    }

    private static bool Same(Row a, Row b) => (a.Repeat, a.Round) == (b.Repeat, b.Round);

    private static Segment? SegmentOf(Walk walk, Row row) =>
        walk.Datapath.Schedule.FirstOrDefault(s => s.IsLoop && (row.Cycle == 0 || s.Repeat == row.Repeat));
}
