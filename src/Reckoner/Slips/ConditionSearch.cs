using Reckoner.Conditions;
using Reckoner.Numbers;

namespace Reckoner.Slips;

/// <summary>Finds conditions whose cases are exactly those of a slip, among the cases inside "given".</summary>
internal sealed class ConditionSearch
{
    /// <summary>So many that fit are found: more than one, since the first may fit by chance at this width.</summary>
    private const int MostFitting = 12;

    private readonly List<(Condition Condition, ulong[] Bits)> candidates;
    private readonly ulong[] given;

    /// <param name="candidates">Simplest first; of equal ones the first counts.</param>
    public ConditionSearch(IEnumerable<(Condition Condition, ulong[] Bits)> candidates, ulong[] given)
    {
        this.given = given;
        this.candidates = [.. candidates.Select(c => (c.Condition, Bits: And(c.Bits, given)))];
        this.candidates.RemoveAll(c => BitSets.IsEmpty(c.Bits));
    }

    /// <summary>
    /// "always", then single conditions, then two joined by "and" or "or"; empty when none fits, and for a slip that nothing exposes,
    /// which two that exclude each other would fit.
    /// </summary>
    public IReadOnlyList<Condition> Exactly(ulong[] exposed)
    {
        if (candidates.Count == 0 || BitSets.IsEmpty(exposed))
        {
            return [];
        }
        if (exposed.AsSpan().SequenceEqual(given))
        {
            return [new Always()];
        }
        var alone = candidates.Where(c => c.Bits.AsSpan().SequenceEqual(exposed)).Select(c => c.Condition);
        return [.. alone.Concat(Pairs(exposed)).Take(MostFitting)];
    }

    /// <summary>
    /// Two wider conditions fit together when what each has too much is apart from what the other has; two narrower ones when
    /// what each lacks is.
    /// </summary>
    private IEnumerable<Condition> Pairs(ulong[] exposed)
    {
        var wider = Beyond(c => BitSets.Without(c, exposed), c => BitSets.IsWithin(exposed, c));
        foreach (var (a, b) in Apart(wider))
        {
            yield return new Combined(Joint.And, [a, b]);
        }
        var narrower = Beyond(c => BitSets.Without(exposed, c), c => BitSets.IsWithin(c, exposed));
        foreach (var (a, b) in Apart(narrower))
        {
            yield return new Combined(Joint.Or, [a, b]);
        }
    }

    private List<(Condition Condition, ulong[] Bits)> Beyond(Func<ulong[], ulong[]> rest, Func<ulong[], bool> fits) =>
        [.. candidates.Where(c => fits(c.Bits)).Select(c => (c.Condition, rest(c.Bits)))];

    private static IEnumerable<(Condition, Condition)> Apart(List<(Condition Condition, ulong[] Bits)> rests)
    {
        for (var i = 0; i < rests.Count; i++)
        {
            for (var j = 0; j < i; j++)
            {
                if (!BitSets.Meet(rests[i].Bits, rests[j].Bits))
                {
                    yield return (rests[j].Condition, rests[i].Condition);
                }
            }
        }
    }

    private static ulong[] And(ulong[] a, ulong[] b)
    {
        var both = new ulong[a.Length];
        for (var i = 0; i < both.Length; i++)
        {
            both[i] = a[i] & b[i];
        }
        return both;
    }
}
