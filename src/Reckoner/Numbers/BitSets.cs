using System.Numerics;

namespace Reckoner.Numbers;

/// <summary>Sets of small numbers as bits; both sides of a function have the same length.</summary>
internal static class BitSets
{
    public static ulong[] Of(int size) => new ulong[(size + 63) / 64];

    public static bool Has(ulong[] set, int item) => ((set[item >> 6] >> (item & 63)) & 1) != 0;

    public static void Add(ulong[] set, int item) => set[item >> 6] |= 1UL << (item & 63);

    public static int Count(ulong[] set)
    {
        var count = 0;
        foreach (var word in set)
        {
            count += BitOperations.PopCount(word);
        }
        return count;
    }

    public static int CountCommon(ulong[] a, ulong[] b)
    {
        var count = 0;
        for (var i = 0; i < a.Length; i++)
        {
            count += BitOperations.PopCount(a[i] & b[i]);
        }
        return count;
    }

    public static bool Meet(ulong[] a, ulong[] b)
    {
        for (var i = 0; i < a.Length; i++)
        {
            if ((a[i] & b[i]) != 0)
            {
                return true;
            }
        }
        return false;
    }

    /// <summary>Whether everything in the one is in the other.</summary>
    public static bool IsWithin(ulong[] narrow, ulong[] wide)
    {
        for (var i = 0; i < narrow.Length; i++)
        {
            if ((narrow[i] & ~wide[i]) != 0)
            {
                return false;
            }
        }
        return true;
    }

    public static bool IsEmpty(ulong[] set) => set.AsSpan().IndexOfAnyExcept(0UL) < 0;

    public static ulong[] Without(ulong[] set, ulong[] taken)
    {
        var rest = new ulong[set.Length];
        for (var i = 0; i < rest.Length; i++)
        {
            rest[i] = set[i] & ~taken[i];
        }
        return rest;
    }

    public static IEnumerable<int> Items(ulong[] set)
    {
        for (var word = 0; word < set.Length; word++)
        {
            for (var left = set[word]; left != 0; left &= left - 1)
            {
                yield return 64 * word + BitOperations.TrailingZeroCount(left);
            }
        }
    }

    /// <summary>For every item the sets that have it, by their place.</summary>
    public static List<ulong[]> Turned(IReadOnlyList<ulong[]> sets, int items)
    {
        var turned = Enumerable.Range(0, items).Select(_ => Of(sets.Count)).ToList();
        for (var place = 0; place < sets.Count; place++)
        {
            foreach (var item in Items(sets[place]))
            {
                Add(turned[item], place);
            }
        }
        return turned;
    }
}
