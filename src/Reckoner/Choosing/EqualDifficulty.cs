using System.Numerics;
using Reckoner.Numbers;

namespace Reckoner.Choosing;

/// <summary>Sorts candidates into classes of equal difficulty and draws from one of them.</summary>
internal sealed class EqualDifficulty
{
    /// <summary>Wider machines are tried as long as their operands have so many bits together.</summary>
    private const int MostOfferedBits = 16;

    private readonly Candidates candidates;
    private readonly EqualAllowed allowed;
    private readonly CaseWork work;
    private readonly List<EqualClass> classes;

    public EqualDifficulty(Candidates candidates, EqualAllowed? allowed = null)
        : this(candidates, allowed ?? EqualAllowed.Nothing, new CaseWork(candidates)) { }

    private EqualDifficulty(Candidates candidates, EqualAllowed allowed, CaseWork work)
    {
        (this.candidates, this.allowed, this.work) = (candidates, allowed, work);
        var left = Shortcuts.All.Except(allowed.Shortcuts).ToList();
        classes = Classes(candidates.Chosen.Where(i => !left.Exists(s => work.Has(s, i))));
    }

    /// <summary>Every class, that of the smallest operands first.</summary>
    internal IReadOnlyList<EqualClass> All => classes;

    /// <summary>The class with the most operands; null when there are none.</summary>
    public EqualClass? Largest => classes.MaxBy(c => (c.Size, c.Happening));

    public ChosenOperands At(int index) => work.Decisions.At(index);

    public IReadOnlyList<BigInteger> Operands(int index) => candidates.Table.Cases[index];

    /// <summary>
    /// So many different operands of one class. Of the classes that have enough, one is drawn in which the most outcomes come
    /// about, larger ones more often, and then its operands. Null where there are no operands at all.
    /// </summary>
    /// <param name="again">How often as many were drawn before with this seed, which none of these are.</param>
    public EqualDraw? Draw(int count, ulong seed, int again = 0)
    {
        if (candidates.Count == 0)
        {
            return null;
        }
        if (Largest is not { } largest)
        {
            return new EqualDraw(null, 0, [], []);
        }
        var generator = new Generator(seed);
        var enough = Enough(count);
        var one = enough.Count == 0 ? largest : Drawn(enough, generator);
        var order = generator.Drawn(one.Members, one.Size);
        var left = order.Skip(again * count).ToList();
        var sequence = order.Select(member => (Class: one, Member: member));
        if (allowed.Neighbours)
        {
            sequence = sequence.Concat(
                Nearest(one).SelectMany(near => generator.Drawn(near.Members, near.Size).Select(m => (near, m)))
            );
        }
        var taken = sequence.Skip(again * count).Take(count).ToList();
        var drawn = taken.ConvertAll(t => t.Member);
        List<(EqualClass, int)> neighbours =
        [
            .. taken.Where(t => t.Class != one).GroupBy(t => t.Class).Select(g => (g.Key, g.Count())),
        ];
        if (drawn.Count < count && allowed.Repeats && drawn.Count > 0)
        {
            var once = drawn.ToList();
            drawn.AddRange(Enumerable.Range(once.Count, count - once.Count).Select(i => once[i % once.Count]));
        }
        return drawn.Count < count
            ? new EqualDraw(one, left.Count, [], [])
            : new EqualDraw(one, left.Count, [.. drawn.Select(At)], neighbours)
            {
                Unused = UnusedMeasures.Of(candidates.Datapath, drawn.Select(Operands)),
            };
    }

    /// <summary>A class that is the more likely the larger it is, so that what it has in common is not seen by all at once.</summary>
    private static EqualClass Drawn(List<EqualClass> classes, Generator generator)
    {
        var at = generator.Below(classes.Sum(c => c.Size));
        return classes.SkipWhile(c => (at -= c.Size) >= 0).First();
    }

    /// <summary>The other classes, those first that differ least from one.</summary>
    public IEnumerable<EqualClass> Nearest(EqualClass one) =>
        classes.Where(c => c != one).OrderBy(c => c.Distance(one)).ThenByDescending(c => c.Size);

    /// <param name="one">The class that has too few; null where there is none.</param>
    public EqualWays Ways(EqualClass? one, int count)
    {
        var all = new EqualDifficulty(candidates, allowed with { Shortcuts = Shortcuts.All }, work).Largest;
        return new EqualWays(
            Wider(count),
            one is null || allowed.Neighbours ? null : Nearest(one).FirstOrDefault(),
            all?.Size > (Largest?.Size ?? 0) ? all.Size : null
        );
    }

    private (IReadOnlyList<(string, BigInteger)>, int)? Wider(int count)
    {
        for (
            var wider = candidates.AtNextWidth(MostOfferedBits);
            wider is not null;
            wider = wider.AtNextWidth(MostOfferedBits)
        )
        {
            if (new EqualDifficulty(wider, allowed).Largest is { } largest && largest.Size >= count)
            {
                return (wider.Datapath.Widths, largest.Size);
            }
        }
        return null;
    }

    private List<EqualClass> Enough(int count)
    {
        var enough = classes.Where(c => c.Size >= count).ToList();
        var most = enough.Select(c => c.Happening).DefaultIfEmpty().Max();
        return [.. enough.Where(c => c.Happening == most)];
    }

    /// <summary>What operands of one class have in common: bands where they need not be quite the same.</summary>
    private readonly record struct Key(int Cycles, int Decided, int Longest, int Carries, int Digits, int? Exposed);

    private List<EqualClass> Classes(IEnumerable<int> cases) =>
        [
            .. cases
                .GroupBy(i => new Key(
                    work.Decisions.Cycles(i),
                    work.Decided(i),
                    (work.WidestAdder - work.LongestCarry(i)) / 2,
                    work.Carries(i) / work.WidestAdder,
                    work.Digits(i) / 2,
                    (work.MostExposed - work.Exposed(i)) / 2
                ))
                .Select(g => Class(g.Key.Cycles, [.. g])),
        ];

    private EqualClass Class(int cycles, List<int> members)
    {
        var counts = work.Decisions.Counts(members[0]);
        return new EqualClass(
            cycles,
            [.. work.Decisions.Counted.Zip(counts)],
            new EqualWork(
                work.AddsSomething ? Extent.Of(members.Select(work.LongestCarry)) : null,
                Extent.Of(members.Select(work.Carries)),
                Extent.Of(members.Select(work.Digits)),
                work.Exposed(members[0]) is null ? null : Extent.Of(members.Select(m => work.Exposed(m)!.Value))
            )
        )
        {
            Members = members,
        };
    }
}
