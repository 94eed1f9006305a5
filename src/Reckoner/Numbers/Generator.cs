namespace Reckoner.Numbers;

/// <summary>
/// SplitMix64: random numbers that are the same for a seed on every system and in every version, so that a printed seed gives the
/// same operands again. Steele, Lea, Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014, figure 17, with the
/// multipliers of Stafford's variant 13.
/// </summary>
internal sealed class Generator(ulong seed)
{
    private ulong state = seed;

    /// <summary>The next 64 bits.</summary>
    public ulong Next()
    {
        unchecked
        {
            state += 0x9E3779B97F4A7C15;
            var mixed = (state ^ (state >> 30)) * 0xBF58476D1CE4E5B9;
            mixed = (mixed ^ (mixed >> 27)) * 0x94D049BB133111EB;
            return mixed ^ (mixed >> 31);
        }
    }

    /// <summary>
    /// A number from 0 to <paramref name="count"/> - 1, all equally likely: those of the last, incomplete stretch of 64-bit numbers
    /// are drawn again.
    /// </summary>
    public int Below(int count)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        var whole = ulong.MaxValue - ulong.MaxValue % (ulong)count;
        var drawn = Next();
        while (drawn >= whole)
        {
            drawn = Next();
        }
        return (int)(drawn % (ulong)count);
    }

    /// <summary>So many different items in the order in which they were drawn.</summary>
    public IReadOnlyList<T> Drawn<T>(IReadOnlyList<T> items, int count)
    {
        var left = items.ToList();
        var drawn = new List<T>();
        while (drawn.Count < count)
        {
            var at = Below(left.Count);
            drawn.Add(left[at]);
            left[at] = left[^1];
            left.RemoveAt(left.Count - 1);
        }
        return drawn;
    }
}
