using System.Numerics;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Xunit;

namespace Reckoner.Tests;

/// <summary>Multipliers written with signed digits: the digits that were published, and how many of them are not zero on average.</summary>
public class RecodingTests
{
    /// <summary>
    /// MacSorley 1961, Koren (chapter 6): what three neighbouring bits stand for. Read off the machine: the multiplicand 1, so that
    /// the first addition is the digit itself.
    /// </summary>
    [Theory]
    [InlineData(0b000, 0)]
    [InlineData(0b001, 1)]
    [InlineData(0b010, 1)]
    [InlineData(0b011, 2)]
    [InlineData(0b100, -2)]
    [InlineData(0b101, -1)]
    [InlineData(0b110, -1)]
    [InlineData(0b111, 0)]
    public void Three_bits_give_the_digit_of_the_table(int triple, int digit)
    {
        // The triple stands at places 3..1; place 1 is the upper bit of the pair before.
        var multiplier = (triple << 1) - (triple >= 4 ? 16 : 0);
        Assert.Equal(digit, Added(Walks.At("multiply-booth-radix-4", 4), 1, multiplier)[1]);
    }

    /// <summary>
    /// Operands from Hamacher, Computer Organization, problem 9.9; digits and partial products recomputed. Six bits have three
    /// digits, and so have five.
    /// </summary>
    [Theory]
    [InlineData(6, 23, -10, new[] { -2, 2, -1 }, new[] { -46, 184, -368 }, -230)]
    [InlineData(6, -13, -20, new[] { 0, -1, -1 }, new[] { 0, 52, 208 }, 260)]
    [InlineData(6, 15, 15, new[] { -1, 0, 1 }, new[] { -15, 0, 240 }, 225)]
    [InlineData(5, 13, -6, new[] { -2, -1, 0 }, new[] { -26, -52, 0 }, -78)]
    public void Two_bits_a_cycle_give_digits_partial_products_and_product_as_worked(
        int width,
        int multiplicand,
        int multiplier,
        int[] digits,
        int[] partialProducts,
        int product
    )
    {
        var datapath = Walks.At("multiply-booth-radix-4", width);
        var added = Added(datapath, multiplicand, multiplier);
        Assert.Equal(digits, added.Select(a => (int)(a / multiplicand)));
        Assert.Equal(partialProducts, added.Select((a, i) => (int)a << (2 * i)));
        Assert.Equal(product, Walks.Of(datapath, multiplicand, multiplier).Result("product"));
    }

    /// <summary>n/2 digits with a sign for an even n, floor(n/2) + 1 without one: as many cycles.</summary>
    [Theory]
    [InlineData("multiply-booth-radix-4", 8, 4)]
    [InlineData("multiply-booth-radix-4", 64, 32)]
    [InlineData("multiply-booth-radix-4-unsigned", 8, 5)]
    [InlineData("multiply-booth-radix-4-unsigned", 7, 4)]
    [InlineData("multiply-booth-radix-4-unsigned", 64, 33)]
    public void As_many_partial_products_as_the_rule_says(string machine, int width, int count) =>
        Assert.Equal(count, Walks.Of(Walks.At(machine, width), 3, 5).Cycles);

    /// <summary>0011110011 is 0 +1 0 0 0 -1 0 +1 0 -1 (a lecture on multipliers, where the signs are left out: 0100010101).</summary>
    [Fact]
    public void A_string_of_ones_is_a_difference_of_two_powers()
    {
        var added = Added(Walks.At("multiply-booth", 10), 1, 0b0011110011);
        Assert.Equal([-1, 0, 1, 0, -1, 0, 0, 0, 1, 0], added.Select(a => (int)a));
    }

    /// <summary>What each cycle adds to the accumulator before it shifts.</summary>
    private static List<BigInteger> Added(Datapath datapath, BigInteger multiplicand, BigInteger multiplier)
    {
        var register = datapath.Registers.Single(r => r.Name == "A");
        return
        [
            .. Walks
                .Of(datapath, multiplicand, multiplier)
                .Rows.Skip(1)
                .Select(r =>
                    Bits.AsSigned(r.Moments[0].Registers[register.Index], register.Width)
                    - Bits.AsSigned(r.Before[register.Index], register.Width)
                ),
        ];
    }

    private static Rational DigitsThatAreNotZero(string machine, int width)
    {
        var outcomes = Averages.Of(Walks.At(machine, width), InterpretedEngine.Widest)!.Outcomes;
        return outcomes
            .Where(o => !o.Text.EndsWith("else", StringComparison.Ordinal))
            .Select(o => o.Average)
            .Aggregate((a, b) => a + b);
    }

    /// <summary>Booth's digits (from memory): every second one on average, at every width.</summary>
    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(8)]
    public void Booth_digits_are_not_zero_in_half_of_the_places(int width) =>
        Assert.Equal(Rational.Ratio(width, 2), DigitsThatAreNotZero("multiply-booth", width));

    /// <summary>
    /// Canonical digits (n/3 + 1/9 from memory, the figure for large n): over all numbers of n bits with a sign exactly
    /// n/3 + 1/9 - (-1/2)^n / 9. The digits of a number x that are not zero are counted by the bits in which 3x and x differ.
    /// </summary>
    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(8)]
    public void Canonical_digits_are_not_zero_in_a_third_of_the_places_and_a_ninth(int width)
    {
        var average = DigitsThatAreNotZero("multiply-canonical-digits", width);
        var limit = Rational.Ratio(width, 3) + Rational.Ratio(1, 9);
        Assert.Equal(limit - Rational.Power(Rational.Ratio(-1, 2), width) / 9, average);
        var numbers = Enumerable.Range(-(1 << (width - 1)), 1 << width).Select(Math.Abs).ToList();
        var counted = numbers.Sum(x => BitOperations.PopCount((uint)((3 * x) ^ x)));
        Assert.Equal(Rational.Ratio(counted, numbers.Count), average);
    }
}
