namespace Reckoner.Classroom;

/// <summary>Something that was missed, in one row or several.</summary>
/// <param name="About">What of the kind it is: a place, a slip, a register.</param>
/// <param name="First">The first time; null for a decision.</param>
/// <param name="Fork">The decision; null for bits.</param>
/// <param name="Cycles">Counted from 1.</param>
internal sealed record Missed(CauseKind Kind, string About, Cause? First, Fork? Fork, IReadOnlyList<int> Cycles);

/// <summary>How somebody worked a walk out by hand.</summary>
/// <param name="AtOnce">Rows that were right when they were first handed in.</param>
/// <param name="Told">Rows that the last hint filled in.</param>
/// <param name="Causes">What was missed, most often first.</param>
internal sealed record SittingReport(
    int Rows,
    int AtOnce,
    int Told,
    int Hints,
    int DecisionsMissed,
    IReadOnlyList<Missed> Causes
)
{
    public static SittingReport Of(Sitting sitting, Lapses lapses)
    {
        var rows = sitting.Rows;
        var found = rows.SelectMany((row, i) => Found(row, sitting.From + i + 1, lapses)).ToList();
        return new SittingReport(
            rows.Count,
            rows.Count(r => r.IsRightAtOnce),
            rows.Count(r => r.IsTold),
            rows.Sum(r => r.Hints),
            rows.Sum(r => r.Missed.Count),
            [
                .. found
                    .GroupBy(f => (f.Kind, f.About))
                    .Select(g => g.First() with { Cycles = [.. g.SelectMany(f => f.Cycles).Distinct()] })
                    .OrderByDescending(m => m.Cycles.Count),
            ]
        );
    }

    private static IEnumerable<Missed> Found(SatRow row, int cycle, Lapses lapses)
    {
        foreach (var fork in row.Missed)
        {
            yield return new Missed(CauseKind.Decision, $"{fork.Source.Name}:{fork.Line}", null, fork, [cycle]);
        }
        // Whoever decides wrongly and goes on with that has slipped once.
        if (row.Missed.Count == 0 && row.First is { HasWrong: true } wrong && Cause.Of(wrong, lapses) is { } cause)
        {
            yield return new Missed(cause.Kind, cause.Slip?.Name ?? cause.Word.Register.Name, cause, null, [cycle]);
        }
    }
}
