using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Measuring;
using Xunit;

namespace Reckoner.Tests;

/// <summary>
/// Facts of the trade (common practice, no source), each turned so that it can fail. The counts of wrong pairs are from models
/// of ours made before this program, all pairs at 4 bits with a divisor above zero: 240.
/// </summary>
public class CommonPracticeTests
{
    private const int Width = 4;

    private static int Broken(Datapath datapath) =>
        Walks.Pairs(datapath).Count(p => p.Second > 0 && !Walks.Of(datapath, p.First, p.Second).Holds);

    [Theory]
    [InlineData("divide-moving-divisor", 1)]
    [InlineData("divide-still-divisor", 1)]
    [InlineData("divide-shared-register", 1)]
    [InlineData("divide-shift-first", 0)]
    public void Subtracting_before_shifting_takes_one_cycle_more_than_shifting_first(string machine, int more)
    {
        foreach (var width in new[] { 2, 3, 5, 8, 16, 32, 33, 64 })
        {
            var walk = Walks.Of(Walks.At(machine, width), (BigInteger.One << width) - 1, 3);
            Assert.Equal(width + more, walk.Cycles);
            Assert.Equal(((BigInteger.One << width) - 1) / 3, walk.Result("quotient"));
        }
    }

    /// <summary>One cycle too few halves the quotient: wrong where it is not zero. One too many doubles it.</summary>
    [Theory]
    [InlineData("repeat n + 1", 0)]
    [InlineData("repeat n", 120)]
    [InlineData("repeat n + 2", 183)]
    public void Neither_a_cycle_less_nor_a_cycle_more_will_do(string repeat, int broken) =>
        Assert.Equal(broken, Broken(Walks.Edited("divide-moving-divisor", "repeat n + 1", repeat, Width)));

    [Fact]
    public void A_last_cycle_that_shifts_doubles_the_remainder_and_leaves_the_quotient_right()
    {
        var datapath = Walks.At("running/divide-remainder-doubled", Width);
        foreach (var (dividend, divisor) in Walks.Pairs(datapath).Where(p => p.Second > 0))
        {
            var walk = Walks.Of(datapath, dividend, divisor);
            Assert.Equal(dividend / divisor, walk.Result("quotient"));
            Assert.Equal(2 * (dividend % divisor) % 16, walk.Result("remainder"));
        }
        Assert.Equal(180, Broken(datapath));
        Assert.Equal(2, Walks.Of(datapath, 7, 2).Result("remainder"));
    }

    [Theory]
    [InlineData("divide-moving-divisor", 2)]
    [InlineData("divide-still-divisor", 1)]
    [InlineData("divide-shared-register", 1)]
    public void Divisor_register_and_adder_need_n_bits_once_the_remainder_moves(string machine, int words)
    {
        foreach (var width in new[] { 4, 5, 32, 64 })
        {
            var hardware = Hardware.Of(Walks.At(machine, width));
            Assert.Equal(words * width, hardware.Datapath.Registers.Single(r => r.Name == "D").Width);
            Assert.Equal(words * width, Assert.Single(hardware.Units).Size.Count);
        }
        Assert.Equal(0, Broken(Walks.At(machine, Width)));
    }

    [Fact]
    public void Beside_a_separate_quotient_the_low_half_of_the_remainder_register_ends_all_zero()
    {
        bool IsLowHalfZero(string machine, BigInteger dividend, BigInteger divisor, int width)
        {
            var walk = Walks.Of(Walks.At(machine, width), dividend, divisor);
            var register = walk.Datapath.Registers.Single(r => r.Name == "R");
            return Numbers.Bits.Wrap(walk.Rows[^1].Registers[register.Index], width).IsZero;
        }
        foreach (var (dividend, divisor) in Walks.Pairs(Walks.At("divide-still-divisor", Width)))
        {
            Assert.True(IsLowHalfZero("divide-still-divisor", dividend, divisor, Width), $"{dividend}/{divisor}");
            // Where the quotient lies there, it is zero for a zero quotient only.
            Assert.Equal(divisor > dividend, IsLowHalfZero("divide-shared-register", dividend, divisor, Width));
        }
        Assert.True(IsLowHalfZero("divide-still-divisor", ulong.MaxValue, 7, 64));
    }

    /// <summary>Deciding by the sign bit is right for divisors up to half the range, and for none above it for every dividend.</summary>
    [Theory]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    public void The_sign_bit_decides_rightly_only_for_divisors_up_to_half_the_range(int width)
    {
        var datapath = Walks.At("published/divide-restoring-by-sign", width);
        bool IsRight(BigInteger dividend, BigInteger divisor)
        {
            var walk = Walks.Of(datapath, dividend, divisor);
            return walk.Result("quotient") == dividend / divisor && walk.Result("remainder") == dividend % divisor;
        }
        foreach (var byDivisor in Walks.Pairs(datapath).Where(p => p.Second > 0).GroupBy(p => p.Second))
        {
            Assert.Equal(byDivisor.Key <= 1 << (width - 1), byDivisor.All(p => IsRight(p.First, p.Second)));
        }
    }
}
