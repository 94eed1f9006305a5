using Reckoner.Numbers;

namespace Reckoner.Sheets;

/// <summary>
/// Hands things out by a secret, each to one student as long as there are enough. Whoever comes later changes nobody's, and where
/// there are too few they come again evenly.
/// </summary>
internal static class Allotment
{
    /// <param name="what">For what they are handed out; of another nothing can be learnt from it.</param>
    /// <param name="items">How many there are, one at least.</param>
    /// <param name="kept">What was handed out before, by identifier.</param>
    /// <returns>The place of a thing, from 0, for each student.</returns>
    public static IReadOnlyDictionary<string, int> Of(
        SheetSecret secret,
        string what,
        int items,
        IReadOnlyList<string> students,
        IReadOnlyDictionary<string, int> kept
    )
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(items, 1);
        // Neighbours in order are alike, and whoever meets a thing that is taken gets the next one.
        var order = new Generator(secret.Number("order", what)).Drawn([.. Enumerable.Range(0, items)], items);
        var given = students.Where(kept.ContainsKey).ToDictionary(s => s, s => kept[s]);
        var uses = new int[items];
        foreach (var item in given.Values)
        {
            uses[item]++;
        }
        var round = uses.Min();
        var left = uses.Count(u => u == round);
        foreach (var student in students.Where(s => !given.ContainsKey(s)))
        {
            var at = (int)(secret.Number("allot", what, student) % (ulong)items);
            while (uses[order[at]] > round)
            {
                at = (at + 1) % items;
            }
            given.Add(student, order[at]);
            uses[order[at]]++;
            if (--left == 0)
            {
                round++;
                left = uses.Count(u => u == round);
            }
        }
        return given;
    }
}
