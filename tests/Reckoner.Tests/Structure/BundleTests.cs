using System.Numerics;
using Reckoner.Structure;
using Xunit;

namespace Reckoner.Tests;

public class BundleTests
{
    private const int Longest = 6;

    /// <summary>Two nets of three bits each, and constant bits; a word is drawn bit by bit from these.</summary>
    private static readonly Net[] Nets = [.. Enumerable.Range(0, 2).Select(i => new Net(i, NetKind.Register, 3, []))];

    private static readonly Bundle[] Bits =
    [
        .. Nets.SelectMany(net => Enumerable.Range(0, 3).Select(bit => net.Word.Part(bit, 1))),
        Bundle.Constant(0, 1),
        Bundle.Constant(1, 1),
    ];

    /// <summary>A bit and the one right of it stand in one stretch of two.</summary>
    private static bool AreOne(int left, int right) =>
        left >= 6 ? right >= 6 : right < 6 && left / 3 == right / 3 && (left == right || left == right + 1);

    /// <summary>Each stretch goes one way: down by one, or the same again.</summary>
    private static int Fewest(int[] bits)
    {
        var fewest = new int[bits.Length + 1];
        for (var to = 1; to <= bits.Length; to++)
        {
            fewest[to] = Enumerable.Range(0, to).Where(from => IsOne(bits[from..to])).Min(from => fewest[from]) + 1;
        }
        return fewest[^1];
    }

    private static bool IsOne(int[] bits) =>
        bits.Zip(bits.Skip(1)).All(p => AreOne(p.First, p.Second))
        && (bits[0] >= 6 || bits.Zip(bits.Skip(1), (a, b) => a - b).Distinct().Count() <= 1);

    [Fact]
    public void The_same_bits_are_the_same_word_however_they_came_together()
    {
        const int Seed = 20;
        var random = new Random(Seed);
        for (var round = 0; round < 4000; round++)
        {
            // Few nets and few places, so that neighbours go on from each other often.
            int[] bits = [.. Enumerable.Range(0, random.Next(1, Longest + 1)).Select(_ => random.Next(Bits.Length))];
            var joined = Bundle.Join(bits.Select(b => Bits[b]));
            var cut = random.Next(bits.Length + 1);
            var halves = Bundle.Join([
                Bundle.Join(bits[..cut].Select(b => Bits[b])),
                Bundle.Join(bits[cut..].Select(b => Bits[b])),
            ]);
            var said = $"seed {Seed}, bits {string.Join(' ', bits)}";
            Assert.True(joined.Equals(halves), said);
            Assert.True(joined.GetHashCode() == halves.GetHashCode(), said);
            Assert.True(Fewest(bits) == joined.Stretches.Count, said);
            Assert.True(Number(bits) == joined.Value(Held), said);
            var low = random.Next(bits.Length);
            var part = joined.Part(low, bits.Length - low);
            Assert.True(part.Equals(Bundle.Join(bits[..^low].Select(b => Bits[b]))), said);
        }
    }

    private static BigInteger Held(Net net) => net.Number == 0 ? 0b101 : 0b011;

    private static BigInteger Number(int[] bits) =>
        bits.Aggregate(
            BigInteger.Zero,
            (high, b) => (high << 1) | (b >= 6 ? b - 6 : (Held(Nets[b / 3]) >> (b % 3)) & 1)
        );

    [Fact]
    public void A_sign_is_copied_beside_its_whole_word()
    {
        var word = Nets[0].Word;
        var extended = Bundle.Join([word.Part(2, 1).Copies(4), word]);
        Assert.Equal(extended, Bundle.Join([word.Part(2, 1).Copies(5), word.Part(0, 2)]));
        Assert.Equal([(2, 2, 4), (2, 0, 1)], extended.Stretches.Select(s => (s.High, s.Low, s.Times)));
    }
}
