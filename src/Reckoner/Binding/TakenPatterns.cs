using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Numbers;

namespace Reckoner.Binding;

/// <summary>The patterns of a case met so far, none overlapping another. Whole words are looked up, the few with x compared.</summary>
internal sealed class TakenPatterns
{
    private readonly Dictionary<BigInteger, int> words = [];
    private readonly List<(Pattern Pattern, int Line)> withFree = [];

    public void Add(Pattern pattern, int width, int line)
    {
        if (pattern.Mask == Bits.Mask(width))
        {
            words.Add(pattern.Bits, line);
        }
        else
        {
            withFree.Add((pattern, line));
        }
    }

    /// <summary>The line of a pattern that shares a value with this one, or null.</summary>
    public int? LineOfOverlap(Pattern pattern, int width)
    {
        foreach (var (other, line) in withFree)
        {
            if (other.Overlaps(pattern))
            {
                return line;
            }
        }
        if (pattern.Mask == Bits.Mask(width))
        {
            return words.TryGetValue(pattern.Bits, out var same) ? same : null;
        }
        foreach (var (word, line) in words)
        {
            if (pattern.Matches(word))
            {
                return line;
            }
        }
        return null;
    }

    /// <summary>How many values have an arm.</summary>
    public BigInteger Count(int width) => Count(All(width), width);

    /// <summary>A value without an arm, found bit by bit: into the half where more values are missing.</summary>
    public BigInteger Missing(int width)
    {
        var inside = All(width);
        var value = BigInteger.Zero;
        for (var place = width - 1; place >= 0 && inside.Count > 0; place--)
        {
            var bit = BigInteger.One << place;
            var zeros = Fixed(inside, new Pattern(bit, 0));
            var ones = Fixed(inside, new Pattern(bit, bit));
            var isZero = Count(zeros, width) <= Count(ones, width);
            inside = isZero ? zeros : ones;
            value |= isZero ? 0 : bit;
        }
        return value;
    }

    private List<Pattern> All(int width) =>
        [.. withFree.Select(t => t.Pattern), .. words.Keys.Select(w => new Pattern(Bits.Mask(width), w))];

    private static List<Pattern> Fixed(List<Pattern> patterns, Pattern half) =>
        [.. patterns.Where(p => p.Overlaps(half)).Select(p => new Pattern(p.Mask | half.Mask, p.Bits | half.Bits))];

    private static BigInteger Count(List<Pattern> patterns, int width) =>
        patterns.Aggregate(BigInteger.Zero, (sum, p) => sum + (BigInteger.One << (width - Ones(p.Mask))));

    private static int Ones(BigInteger mask) => mask.ToByteArray(isUnsigned: true).Sum(b => BitOperations.PopCount(b));
}
