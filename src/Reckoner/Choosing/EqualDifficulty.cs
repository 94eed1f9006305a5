using System.Numerics;
using Reckoner.Numbers;

namespace Reckoner.Choosing;

/// <summary>Operands of equal difficulty that were drawn.</summary>
/// <param name="Class">The class they are drawn from, or the largest where it has too few.</param>
/// <param name="Drawn">None where there are too few.</param>
/// <param name="NoneTrivial">Whether operands that show little were left out: 0, 1, -1 and two alike.</param>
public sealed record EqualDraw(EqualClass Class, IReadOnlyList<ChosenOperands> Drawn, bool NoneTrivial);

/// <summary>Ways on where no class has as many operands as are asked for.</summary>
/// <param name="Wider">A width at which one has, and how many.</param>
/// <param name="Neighbour">The class that differs least from the largest.</param>
public sealed record EqualWays(
    (IReadOnlyList<(string Name, BigInteger Value)> Widths, int Size)? Wider,
    EqualClass? Neighbour
);

/// <summary>Sorts candidates into classes of equal difficulty and draws from one of them.</summary>
internal sealed class EqualDifficulty
{
    /// <summary>Wider machines are tried as long as their operands have so many bits together.</summary>
    private const int MostOfferedBits = 16;

    private readonly Candidates candidates;
    private readonly DecisionTables tables;
    private readonly List<EqualClass> classes;

    public EqualDifficulty(Candidates candidates)
    {
        this.candidates = candidates;
        tables = new DecisionTables(candidates);
        classes = Classes(candidates.Chosen);
    }

    /// <summary>The class with the most operands; null when there are no operands at all.</summary>
    public EqualClass? Largest => classes.MaxBy(c => (c.Size, c.Happening));

    internal IReadOnlyList<EqualClass> All => classes;

    /// <summary>
    /// So many different operands of one class. Operands that show little are left out if there are enough others. Of the classes
    /// that have enough, one is drawn in which the most outcomes come about; then its operands are drawn.
    /// </summary>
    /// <param name="mayRepeat">Where no class has enough, all of the largest, and again from the first drawn on.</param>
    public EqualDraw? Draw(int count, ulong seed, bool mayRepeat)
    {
        if (Largest is not { } largest)
        {
            return null;
        }
        var generator = new Generator(seed);
        var telling = Enough(Classes(candidates.Chosen.Where(i => !BestFew.IsTrivial(candidates, i))), count);
        var enough = telling.Count > 0 ? telling : Enough(classes, count);
        if (enough.Count == 0)
        {
            var all = mayRepeat ? generator.Drawn(largest.Members, largest.Size) : [];
            var again = all.Count == 0 ? [] : Enumerable.Range(0, count).Select(i => tables.At(all[i % all.Count]));
            return new EqualDraw(largest, [.. again], NoneTrivial: false);
        }
        var drawn = enough[generator.Below(enough.Count)];
        return new EqualDraw(
            drawn,
            [.. generator.Drawn(drawn.Members, count).Select(tables.At)],
            NoneTrivial: telling.Count > 0
        );
    }

    public EqualWays Ways(int count)
    {
        var neighbour = classes
            .Where(c => c != Largest)
            .OrderBy(c => c.Distance(Largest!))
            .ThenByDescending(c => c.Size)
            .FirstOrDefault();
        return new EqualWays(Wider(count), neighbour);
    }

    private (IReadOnlyList<(string, BigInteger)>, int)? Wider(int count)
    {
        for (
            var wider = candidates.AtNextWidth(MostOfferedBits);
            wider is not null;
            wider = wider.AtNextWidth(MostOfferedBits)
        )
        {
            if (new EqualDifficulty(wider).Largest is { } largest && largest.Size >= count)
            {
                return (wider.Datapath.Widths, largest.Size);
            }
        }
        return null;
    }

    private static List<EqualClass> Enough(IEnumerable<EqualClass> classes, int count)
    {
        var enough = classes.Where(c => c.Size >= count).ToList();
        var most = enough.Select(c => c.Happening).DefaultIfEmpty().Max();
        return [.. enough.Where(c => c.Happening == most)];
    }

    private List<EqualClass> Classes(IEnumerable<int> cases)
    {
        var counted = tables.Counted;
        return
        [
            .. cases
                // Counts as letters make a key that is quickly compared.
                .GroupBy(i => string.Concat(tables.Counts(i).Prepend(tables.Cycles(i)).Select(c => (char)c)))
                .Select(g => new EqualClass(g.Key[0], [.. counted.Zip(g.Key.Skip(1), (text, c) => (text, (int)c))])
                {
                    Members = [.. g],
                }),
        ];
    }
}
