using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Running;

namespace Reckoner.Drawing;

/// <summary>The cycles, first to last, that did what a line of a sum by hand does.</summary>
internal readonly record struct CycleSpan(int From, int To)
{
    public static CycleSpan Over(IEnumerable<int> cycles)
    {
        var all = cycles.ToList();
        return new CycleSpan(all.Min(), all.Max());
    }
}

/// <summary>
/// Which cycles of a walk did what a line of the sum by hand does. Nothing is said of cycles unless every line is what its cycles
/// added or took, by the tally of the walk, and nothing else was added or taken.
/// </summary>
internal static class HandCycles
{
    /// <summary>
    /// For each bit of a quotient or root from the lowest its cycles, none for a 0 that was there from the load; null where some
    /// line is not what single cycles took.
    /// </summary>
    /// <param name="taken">What the sum by hand takes away for each bit, from the lowest.</param>
    public static IReadOnlyList<CycleSpan?>? Taking(Walk walk, HandSum sum, IReadOnlyList<BigInteger> taken)
    {
        var provenance = Provenance.Of(walk);
        var made = Made(walk, provenance, sum.Result).Take(taken.Count).ToList();
        if (taken.Where((t, bit) => !t.IsZero && (bit >= made.Count || made[bit] is null)).Any())
        {
            return null;
        }
        var start = sum.First.Number(walk.Operands[sum.First.Index]);
        return walk
            .Datapath.Results.Select((r, i) => r == sum.Result ? null : Tally.Of(walk, provenance, i))
            .Where(t => t?.Loaded == start)
            .Select(t => Taking(walk, t!, made, taken))
            .FirstOrDefault(s => s is not null);
    }

    private static List<CycleSpan?>? Taking(Walk walk, Tally tally, List<int?> made, IReadOnlyList<BigInteger> taken)
    {
        var spans = made.ConvertAll(c =>
            c is { } cycle ? CycleSpan.Over([.. Gaining(RoundOf(walk, cycle), tally), cycle]) : (CycleSpan?)null
        );
        var isSo = spans.Select((s, bit) => s is not { } own || Gain(tally, own) == -taken[bit]).All(x => x);
        return isSo && AreAll(tally, [.. spans.OfType<CycleSpan>()]) ? spans : null;
    }

    /// <summary>For each bit of a result from the lowest the cycle in which it came to be; null where it was there from the load.</summary>
    private static IEnumerable<int?> Made(Walk walk, IReadOnlyList<ProvenanceRow> provenance, Result result)
    {
        var index = walk.Datapath.Results.ToList().IndexOf(result);
        return Provenance.OfResults(walk)[index].Select(Cycle);

        int? Cycle(BitSource source)
        {
            for (var cycle = walk.Cycles; cycle > 0; cycle--)
            {
                if (source.Kind != SourceKind.Register)
                {
                    return source.Kind == SourceKind.Constant ? null : cycle + 1;
                }
                source = provenance[cycle].Sources[source.Register!.Index][source.Bit];
            }
            return source.Kind is SourceKind.Register or SourceKind.Constant or SourceKind.Operand ? null : 1;
        }
    }

    internal static BigInteger Gain(Tally tally, CycleSpan cycles) =>
        Enumerable
            .Range(cycles.From, cycles.To - cycles.From + 1)
            .Aggregate(BigInteger.Zero, (sum, cycle) => sum + tally.Gains[cycle]);

    internal static IEnumerable<int> Gaining(IEnumerable<Row> rows, Tally tally) =>
        rows.Select(r => r.Cycle).Where(c => !tally.Gains[c].IsZero);

    /// <summary>Whether spans lie apart and nothing was gained outside them.</summary>
    internal static bool AreAll(Tally tally, IReadOnlyList<CycleSpan> spans)
    {
        var inside = spans.SelectMany(s => Enumerable.Range(s.From, s.To - s.From + 1)).ToList();
        var within = inside.ToHashSet();
        return inside.Count == within.Count
            && Enumerable.Range(1, tally.Gains.Count - 1).All(c => tally.Gains[c].IsZero || within.Contains(c));
    }

    private static IEnumerable<Row> RoundOf(Walk walk, int cycle)
    {
        var own = walk.Rows[cycle];
        return walk.Rows.Where(r => r == own || (r.Repeat == own.Repeat && r.Repeat > 0 && r.Round == own.Round));
    }
}
