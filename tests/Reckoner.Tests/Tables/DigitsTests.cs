using System.Numerics;
using CsCheck;
using Reckoner.Numbers;
using Reckoner.Tables;
using Xunit;

namespace Reckoner.Tests;

/// <summary>How bits are written, against the ways of .NET to write numbers in a base.</summary>
public class DigitsTests
{
    [Theory]
    [InlineData(2, null, "0001 1010")]
    [InlineData(2, 0, "00011010")]
    [InlineData(2, 3, "00 011 010")]
    [InlineData(2, 8, "00011010")]
    [InlineData(16, null, "1 A")]
    [InlineData(16, 0, "1A")]
    [InlineData(8, null, "032")]
    [InlineData(8, 2, "0 32")]
    [InlineData(10, 4, "26")]
    public void Bits_are_written_in_their_base_and_groups(int numberBase, int? group, string written) =>
        Assert.Equal(written, new Digits(numberBase, group).Of(26, 8, false, [4, 0]).Text);

    [Fact]
    public void A_signed_register_in_decimal_has_its_sign()
    {
        Assert.Equal("-6", new Digits(10).Of(26, 5, isSigned: true).Text);
        Assert.Equal("26", new Digits(10).Of(26, 5).Text);
    }

    /// <summary>.NET writes no big number in octal, so digits are read back instead.</summary>
    [Fact]
    public void Digits_read_back_give_the_same_bits_at_every_width() =>
        Gen.Select(
                Gen.Int[1, 130],
                Gen.ULong,
                Gen.ULong,
                Gen.Int[0, 2].Select(i => new[] { 2, 8, 16 }[i]),
                Gen.Int[0, 9]
            )
            .Sample(
                (width, high, low, numberBase, group) =>
                {
                    var bits = Bits.Wrap(((BigInteger)high << 64) + low, width);
                    var text = new Digits(numberBase, group).Of(bits, width).Text;
                    var size = BitOperations.Log2((uint)numberBase);
                    var plain = text.Replace(" ", "");
                    Assert.Equal((width + size - 1) / size, plain.Length);
                    Assert.Equal(
                        bits,
                        plain.Aggregate(BigInteger.Zero, (n, d) => (n * numberBase) + Convert.ToInt32($"{d}", 16))
                    );
                    Assert.All(text.Split(' ').Skip(1), g => Assert.Equal(group, g.Length));
                }
            );
}
