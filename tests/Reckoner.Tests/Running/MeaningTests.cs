using System.Numerics;
using Reckoner.Binding;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Xunit;

namespace Reckoner.Tests;

/// <summary>Walks against System.Numerics: the results are what the machine is for, and the laws hold.</summary>
public class MeaningTests
{
    private static readonly int[] FarWidths = [7, 8, 9, 10, 11, 12, 16, 31, 32, 33, 64, 127, 128];

    /// <summary>Those of the quick run: each side of where words of processors end.</summary>
    private static readonly int[] SomeFarWidths = [8, 9, 32, 33, 64, 128];

    public static TheoryData<string> FirstSix => [.. Meanings.FirstSix];

    public static TheoryData<string> All => [.. Meanings.Machines];

    [Fact]
    public void Every_machine_of_the_catalogue_has_a_meaning_or_is_wrong_on_purpose() =>
        Assert.Equal(Machines.Catalogue.Order(), Meanings.Machines.Concat(Meanings.WrongOnPurpose).Order());

    [Theory]
    [MemberData(nameof(FirstSix))]
    public void Every_pair_up_to_six_bits_gives_what_it_should(string machine)
    {
        for (var width = 2; width <= 6; width++)
        {
            var datapath = Walks.At(machine, width);
            foreach (var (first, second) in Walks.Pairs(datapath))
            {
                Check(datapath, [first, second]);
            }
        }
    }

    [Theory]
    [MemberData(nameof(FirstSix))]
    public void Corners_and_random_pairs_at_wide_widths_give_what_they_should(string machine) =>
        AtFarWidths(machine, SomeFarWidths, 60);

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(FirstSix))]
    public void Corners_and_a_thousand_random_pairs_at_wide_widths_give_what_they_should(string machine) =>
        AtFarWidths(machine, FarWidths, 1000);

    private static void AtFarWidths(string machine, IEnumerable<int> widths, int pairs)
    {
        var seed = Seeds.Next();
        var random = new Random(seed);
        foreach (var width in widths)
        {
            var datapath = Walks.At(machine, width);
            var corners = OperandCorners.Corners(width);
            foreach (var first in corners)
            {
                foreach (var second in corners)
                {
                    Check(datapath, [first, second]);
                }
            }
            for (var i = 0; i < pairs; i++)
            {
                BigInteger[] operands = [Word(random, width), Word(random, width)];
                Seeds.Told(seed, Spoken(datapath, operands), () => Check(datapath, operands));
            }
        }
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Random_operands_at_random_widths_give_what_they_should(string machine) =>
        AtRandomWidths(machine, 10, 20);

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(All))]
    public void Many_random_operands_at_random_widths_give_what_they_should(string machine) =>
        AtRandomWidths(machine, 100, 100);

    private static void AtRandomWidths(string machine, int widths, int each)
    {
        var seed = Seeds.Next();
        var random = new Random(seed);
        var (low, high) = Machines.Range(Machines.Named(machine));
        for (var i = 0; i < widths; i++)
        {
            var datapath = Walks.At(machine, random.Next(low, high + 1));
            for (var j = 0; j < each; j++)
            {
                var operands = Given(datapath, random);
                Seeds.Told(seed, Spoken(datapath, operands), () => Check(datapath, operands));
            }
        }
    }

    /// <summary>Operands inside "given": random words of random lengths, with their top bits set every other time, since some machines exclude short words.</summary>
    private static BigInteger[] Given(Datapath datapath, Random random)
    {
        for (var tries = 0; tries < 100; tries++)
        {
            var words = datapath.Operands.Select(o => Word(random, o.Width)).ToArray();
            if (tries % 2 > 0)
            {
                words = [.. words.Zip(datapath.Operands, (w, o) => w | (BigInteger.One << (o.Width - 1)))];
            }
            if (datapath.IsGiven(words))
            {
                return [.. words.Zip(datapath.Operands, (w, o) => o.Number(w))];
            }
        }
        throw new InvalidOperationException($"no operands found for {datapath.Machine.Name}");
    }

    private static BigInteger Word(Random random, int width)
    {
        var bytes = new byte[width / 8 + 1];
        random.NextBytes(bytes);
        return Bits.Wrap(new BigInteger(bytes, isUnsigned: true), random.Next(1, width + 1));
    }

    private static string Spoken(Datapath datapath, IReadOnlyList<BigInteger> operands) =>
        $"{datapath.Machine.Name}, {string.Join(", ", datapath.Widths)}: {string.Join(", ", operands)}";

    private static void Check(Datapath datapath, IReadOnlyList<BigInteger> operands)
    {
        var walk = Walks.Of(datapath, operands);
        foreach (var expected in Meanings.Of(datapath, operands))
        {
            var number = walk.Result(expected.Result);
            if (number < expected.Low || number > expected.High)
            {
                Assert.Fail($"{Spoken(datapath, operands)} gives {expected.Result} {number}, not {expected.Low}");
            }
        }
        Assert.True(walk.Claims.Count > 0 && walk.Holds, $"a claim is broken for {Spoken(datapath, operands)}");
    }
}
