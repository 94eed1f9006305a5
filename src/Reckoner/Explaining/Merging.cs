namespace Reckoner.Explaining;

/// <summary>Explanations that say the same.</summary>
internal static class Merging
{
    /// <summary>
    /// Of slips whose tables are all the same the first in the text, and a slip throughout instead of the same in just those rows in
    /// which it shows. Another way is told only where the machine's own does not do with the same mishaps.
    /// </summary>
    /// <param name="found">The likeliest first.</param>
    public static IReadOnlyList<Explanation> Of(Ways ways, IReadOnlyList<Explanation> found)
    {
        if (found[0].Causes == 0)
        {
            // Nobody is to be blamed, and the machine's own way comes first.
            return [found.FirstOrDefault(e => e.Way == ways.Right) ?? found[0]];
        }
        var seen = new HashSet<string>();
        var merged = new List<Explanation>();
        foreach (var explanation in found.OrderBy(e => e.IsAnotherWay(ways)).ThenBy(e => !e.IsThroughout))
        {
            var way = OtherWay(ways, explanation);
            var key = Key(ways, explanation.Mishaps, withExtent: true);
            var throughout = Key(ways, explanation.Mishaps, withExtent: false);
            if (
                !seen.Contains(key)
                && !seen.Contains(throughout)
                && !seen.Contains(way + throughout)
                && seen.Add(way + key)
            )
            {
                merged.Add(explanation);
            }
        }
        return [.. merged.OrderBy(e => e.Bits)];
    }

    /// <summary>Whether one says what the other says: the same slip, or another throughout which shows the same.</summary>
    public static bool IsSame(Ways ways, Mishap found, Mishap other) =>
        Key(ways, [found], withExtent: true) == Key(ways, [other], withExtent: true)
        || Key(ways, [found], withExtent: true) == Key(ways, [other], withExtent: false);

    /// <summary>The way that no mishap names; of slips whose tables are all the same the first.</summary>
    private static string OtherWay(Ways ways, Explanation explanation) =>
        !explanation.IsAnotherWay(ways) ? ""
        : ways.Slips.FirstOrDefault(s => s.Way == explanation.Way) is { } slip ? $"by {slip.Like.Name}: "
        : $"by {explanation.Machine.Name}: ";

    /// <summary>Without extent it is that of the same slips throughout.</summary>
    private static string Key(Ways ways, IReadOnlyList<Mishap> mishaps, bool withExtent) =>
        string.Join(
            " + ",
            mishaps.Select(mishap =>
                mishap.Match(
                    slipped: m => Key(ways, m, withExtent),
                    workedOtherwise: m => $"as {m.As.Machine.Name}",
                    misread: m => $"{m.Reading.Kind} {m.Reading.Operand?.Name}",
                    miscopied: m => $"{m.How} {m.Register.Name} {m.Other?.Name} {m.Place} {m.AtRow} {m.IsCarriedOn}",
                    rowsOff: m => $"{m.How} {m.AtRow} {m.Count}",
                    resultOff: m => $"{m.How} {m.Result} {m.Place}"
                )
            )
        );

    private static string Key(Ways ways, Slipped slipped, bool withExtent)
    {
        var like = ways.Slips.First(s => s.Slip.Name == slipped.Slip.Name).Like.Name;
        return withExtent && slipped.Extent != SlipExtent.Throughout
            ? $"{like} {slipped.Extent} {string.Join(',', slipped.Rows)}"
            : like;
    }

    /// <summary>Operands for which the first two give different results; null where they cannot be told apart so.</summary>
    public static ulong[]? TellingApart(Ways ways, IReadOnlyList<Explanation> found) =>
        found.Count > 1 && found[0].IsThroughout && found[1].IsThroughout
            ? ways.Samples.FirstOrDefault(o =>
                found[0].Final(ways, o) is { } first
                && found[1].Final(ways, o) is { } second
                && !first.AsSpan().SequenceEqual(second)
            )
            : null;
}
