using System.Numerics;
using Reckoner.Numbers;

namespace Reckoner.Structure;

/// <summary>Bits side by side: bits high..low of a net, one bit of it so many times over, or, without a net, constant bits.</summary>
/// <param name="Times">1, unless it is one bit that is repeated.</param>
/// <param name="Bits">Of constant bits their number, from 0 to 2^width - 1.</param>
public readonly record struct Stretch(Net? Net, int High, int Low, int Times, BigInteger Bits)
{
    public int Width => (High - Low + 1) * Times;

    public static Stretch Of(Net net, int high, int low) => new(net, high, low, 1, BigInteger.Zero);

    public static Stretch Constant(BigInteger bits, int width) => new(null, width - 1, 0, 1, bits);

    /// <summary>So many of its bits from a place on, the lowest being 0.</summary>
    public Stretch Part(int low, int width) =>
        Net is null ? Constant(Numbers.Bits.Wrap(Bits >> low, width), width)
        : Times > 1 ? this with { Times = width }
        : this with { High = Low + low + width - 1, Low = Low + low };

    /// <summary>
    /// It with as many bits of its left neighbour as go on from it, and what is left of that; null where none does. Bits go on upwards
    /// one by one, or are one bit again and again.
    /// </summary>
    internal (Stretch Longer, Stretch? Left)? Under(Stretch above)
    {
        if (Net != above.Net)
        {
            return null;
        }
        if (Net is null)
        {
            return (Constant((above.Bits << Width) | Bits, Width + above.Width), null);
        }
        if (Times == 1 && above.Low == High + 1)
        {
            return above.Times == 1
                ? (this with { High = above.High }, null)
                : (this with { High = above.High }, above with { Times = above.Times - 1 });
        }
        if (High == Low && above.Low == Low)
        {
            return above.High == above.Low
                ? (this with { Times = Times + above.Times }, null)
                : (this with { Times = Times + 1 }, above with { Low = above.Low + 1 });
        }
        return null;
    }
}

/// <summary>
/// A word as it is wired together: stretches side by side, the most significant first, as few as they can be: the same bits are the
/// same stretches. Slices, joins, copies and shifts are no more than this.
/// </summary>
public sealed class Bundle : IEquatable<Bundle>
{
    public Bundle(IEnumerable<Stretch> stretches)
    {
        Stretches = Fewest(stretches);
        Width = Stretches.Sum(s => s.Width);
    }

    /// <summary>
    /// From the right each stretch as long as it can be: that makes the fewest, and the same ones however the bits came together.
    /// </summary>
    private static List<Stretch> Fewest(IEnumerable<Stretch> stretches)
    {
        var found = new List<Stretch>();
        foreach (var stretch in stretches.Reverse())
        {
            Stretch? above = stretch;
            while (above is { } next)
            {
                if (found.Count > 0 && found[^1].Under(next) is var (longer, left))
                {
                    found[^1] = longer;
                    above = left;
                }
                else
                {
                    found.Add(next);
                    above = null;
                }
            }
        }
        found.Reverse();
        return found;
    }

    public IReadOnlyList<Stretch> Stretches { get; }
    public int Width { get; }

    public static Bundle Constant(BigInteger bits, int width) => new([Stretch.Constant(bits, width)]);

    /// <summary>Words side by side, the most significant first.</summary>
    public static Bundle Join(IEnumerable<Bundle> parts) => new(parts.SelectMany(p => p.Stretches));

    /// <summary>So many of its bits from a place on, the lowest being 0.</summary>
    public Bundle Part(int low, int width)
    {
        var parts = new List<Stretch>();
        var bottom = Width;
        foreach (var stretch in Stretches)
        {
            bottom -= stretch.Width;
            var from = Math.Max(low, bottom);
            var to = Math.Min(low + width, bottom + stretch.Width);
            if (from < to)
            {
                parts.Add(stretch.Part(from - bottom, to - from));
            }
        }
        return new Bundle(parts);
    }

    /// <summary>One bit so many times over.</summary>
    public Bundle Copies(int count) => new(Enumerable.Repeat(Stretches[0], count));

    /// <summary>The nets it takes bits of.</summary>
    public IEnumerable<Net> Nets => Stretches.Select(s => s.Net).OfType<Net>();

    /// <summary>The lowest place of each stretch, from the top.</summary>
    public IEnumerable<int> Cuts
    {
        get
        {
            var low = Width;
            foreach (var stretch in Stretches)
            {
                yield return low -= stretch.Width;
            }
        }
    }

    public bool IsConstant(BigInteger bits) => Stretches is [{ Net: null } only] && only.Bits == bits;

    /// <summary>Its number, given that of each net: bits from 0 to 2^width - 1.</summary>
    public BigInteger Value(Func<Net, BigInteger> of) =>
        Stretches.Aggregate(BigInteger.Zero, (high, s) => (high << s.Width) | Value(s, of));

    private static BigInteger Value(Stretch stretch, Func<Net, BigInteger> of) =>
        stretch.Net is null ? stretch.Bits
        : stretch.Times > 1
            ? (of(stretch.Net) >> stretch.Low).IsEven ? 0
                : Bits.Mask(stretch.Width)
        : Bits.Wrap(of(stretch.Net) >> stretch.Low, stretch.Width);

    public bool Equals(Bundle? other) => other is not null && Stretches.SequenceEqual(other.Stretches);

    public override bool Equals(object? obj) => Equals(obj as Bundle);

    public override int GetHashCode()
    {
        var hash = new HashCode();
        foreach (var stretch in Stretches)
        {
            hash.Add(stretch);
        }
        return hash.ToHashCode();
    }
}
