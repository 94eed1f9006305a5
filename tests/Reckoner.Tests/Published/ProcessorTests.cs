using System.Globalization;
using System.Numerics;
using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Running;
using Xunit;

namespace Reckoner.Tests;

/// <summary>
/// What processors give. Semantics: the RISC-V unprivileged manual, chapter "M" extension 2.0, table "Semantics for division by
/// zero and division overflow" (riscv/riscv-isa-manual, src/m-st-ext.adoc at 046148cb). Vectors: riscv-software-src/riscv-tests,
/// isa/rv32um and isa/rv64um at 34e6b6d1. A vector's numbers are words of the processor's width, read as the machine reads them.
/// </summary>
public class ProcessorTests
{
    private static readonly string[] PlainDividers =
    [
        "divide-moving-divisor",
        "divide-still-divisor",
        "divide-shared-register",
        "divide-shift-first",
        "divide-shift-first-narrow",
        "divide-shift-first-sign",
        "divide-half-shift-back",
        "divide-adding-back",
        "divide-non-restoring",
    ];

    private static readonly string[] PlainMultipliers =
    [
        "multiply-moving-multiplicand",
        "multiply-still-multiplicand",
        "multiply-shared-register",
        "multiply-in-steps",
        "multiply-early-out",
        "multiply-carry-save",
        "multiply-booth-radix-4-unsigned",
    ];

    private static readonly string[] SignedMultipliers =
    [
        "multiply-signed-shift-add",
        "multiply-booth",
        "multiply-booth-radix-4",
        "multiply-canonical-digits",
    ];

    public static TheoryData<string> Dividers => [.. PlainDividers];

    /// <summary>The manual's rationale: all ones is what a simple unsigned divider gives without a special case.</summary>
    [Theory]
    [MemberData(nameof(Dividers))]
    public void Division_by_zero_gives_all_ones_and_the_dividend(string machine)
    {
        foreach (var width in new[] { 2, 3, 4, 5, 6, 7, 8 })
        {
            var datapath = Walks.At(machine, width);
            for (var dividend = 0; dividend < 1 << width; dividend++)
            {
                ByZero(datapath, dividend);
            }
        }
        foreach (var width in new[] { 16, 32, 64, 128 })
        {
            var datapath = Walks.At(machine, width);
            foreach (var dividend in Binding.OperandCorners.Corners(width))
            {
                ByZero(datapath, dividend);
            }
        }
    }

    private static void ByZero(Datapath datapath, BigInteger dividend)
    {
        var walk = Walks.Of(datapath, dividend, 0);
        Assert.Equal((BigInteger.One << datapath.Operands[0].Width) - 1, walk.Result("quotient"));
        Assert.Equal(dividend, walk.Result("remainder"));
        Assert.False(walk.IsGiven);
        Assert.True(Assert.Single(walk.Claims) is { Applies: true, Holds: true, Claim.Section: ClaimSection.Outside });
    }

    [Theory]
    [InlineData(32, "20", "6", "3", "2")]
    [InlineData(32, "-20", "6", "715827879", "2")]
    [InlineData(32, "20", "-6", "0", "20")]
    [InlineData(32, "-20", "-6", "0", "-20")]
    [InlineData(32, "-2147483648", "1", "2147483648", "0")]
    [InlineData(32, "-2147483648", "-1", "0", "2147483648")]
    [InlineData(32, "-2147483648", "0", "4294967295", "2147483648")]
    [InlineData(32, "1", "0", "4294967295", "1")]
    [InlineData(32, "0", "0", "4294967295", "0")]
    [InlineData(64, "20", "6", "3", "2")]
    [InlineData(64, "-20", "6", "3074457345618258599", "2")]
    [InlineData(64, "20", "-6", "0", "20")]
    [InlineData(64, "-20", "-6", "0", "-20")]
    [InlineData(64, "-9223372036854775808", "1", "9223372036854775808", "0")]
    [InlineData(64, "-9223372036854775808", "-1", "0", "9223372036854775808")]
    [InlineData(64, "-9223372036854775808", "0", "18446744073709551615", "9223372036854775808")]
    [InlineData(64, "1", "0", "18446744073709551615", "1")]
    [InlineData(64, "0", "0", "18446744073709551615", "0")]
    public void DIVU_and_REMU(int width, string dividend, string divisor, string quotient, string remainder)
    {
        foreach (var machine in PlainDividers)
        {
            var walk = Walk(machine, width, dividend, divisor);
            Assert.Equal(Word(quotient, width), Word(walk, "quotient"));
            Assert.Equal(Word(remainder, width), Word(walk, "remainder"));
            Assert.True(walk.Holds);
        }
    }

    [Theory]
    [InlineData(32, "20", "6", "3", "2")]
    [InlineData(32, "-20", "6", "-3", "-2")]
    [InlineData(32, "20", "-6", "-3", "2")]
    [InlineData(32, "-20", "-6", "3", "-2")]
    [InlineData(32, "-2147483648", "1", "-2147483648", "0")]
    [InlineData(32, "-2147483648", "-1", "-2147483648", "0")]
    [InlineData(32, "-2147483648", "0", "-1", "-2147483648")]
    [InlineData(32, "1", "0", "-1", "1")]
    [InlineData(32, "0", "0", "-1", "0")]
    [InlineData(64, "20", "6", "3", "2")]
    [InlineData(64, "-20", "6", "-3", "-2")]
    [InlineData(64, "20", "-6", "-3", "2")]
    [InlineData(64, "-20", "-6", "3", "-2")]
    [InlineData(64, "-9223372036854775808", "1", "-9223372036854775808", "0")]
    [InlineData(64, "-9223372036854775808", "0", "-1", "-9223372036854775808")]
    [InlineData(64, "1", "0", "-1", "1")]
    [InlineData(64, "0", "0", "-1", "0")]
    [InlineData(64, "-2147483648", "0", "-1", "-2147483648")]
    [InlineData(64, "-9223372036854775808", "2", "-4611686018427387904", "0")]
    [InlineData(64, "-9223372036854775808", "-1", "-9223372036854775808", "0")]
    public void DIV_and_REM(int width, string dividend, string divisor, string quotient, string remainder)
    {
        var walk = Walk("divide-signed-riscv", width, dividend, divisor);
        Assert.Equal(Word(quotient, width), Word(walk, "quotient"));
        Assert.Equal(Word(remainder, width), Word(walk, "remainder"));
        Assert.True(walk.Holds);
    }

    /// <summary>Words of 32 bits in registers of 64: DIVW, REMW; the results are extended with their sign.</summary>
    [Theory]
    [InlineData("-2147483648", "2", "-1073741824", "0")]
    [InlineData("-2147483648", "-1", "-2147483648", "0")]
    [InlineData("-1897", "0", "-1", "-1897")]
    [InlineData("-20", "6", "-3", "-2")]
    public void DIVW_and_REMW(string dividend, string divisor, string quotient, string remainder) =>
        Words("divide-signed-riscv-word", dividend, divisor, quotient, remainder);

    /// <summary>DIVUW, REMUW: the results are extended with their top bit, though the words have no sign.</summary>
    [Theory]
    [InlineData("4294967276", "6", "715827879", "2")]
    [InlineData("-20", "6", "715827879", "2")]
    [InlineData("20", "6", "3", "2")]
    [InlineData("20", "-6", "0", "20")]
    [InlineData("-20", "-6", "0", "-20")]
    [InlineData("-2147483648", "1", "-2147483648", "0")]
    [InlineData("1", "0", "-1", "1")]
    [InlineData("-2147483648", "0", "-1", "-2147483648")]
    public void DIVUW_and_REMUW(string dividend, string divisor, string quotient, string remainder) =>
        Words("divide-unsigned-riscv-word", dividend, divisor, quotient, remainder);

    private static void Words(string machine, string dividend, string divisor, string quotient, string remainder)
    {
        var walk = Walk(machine, 32, dividend, divisor);
        Assert.Equal(64, walk.Datapath.Operands[0].Width);
        Assert.Equal(Word(quotient, 64), Word(walk, "quotient"));
        Assert.Equal(Word(remainder, 64), Word(walk, "remainder"));
        Assert.True(walk.Holds);
    }

    /// <summary>
    /// Arm: UDIV and SDIV (A64 instruction text, release 2024-12, as mirrored at finkmartin.com/aarch64; A32 at hehezhou.cn/A32-2024). A zero
    /// divisor gives 0; 0x80000000 by 0xFFFFFFFF gives 0x80000000 without a sign of it; rounded toward zero.
    /// </summary>
    [Theory]
    [InlineData("divide-unsigned-arm", 32, "20", "0", "0")]
    [InlineData("divide-unsigned-arm", 64, "18446744073709551615", "0", "0")]
    [InlineData("divide-unsigned-arm", 32, "4294967276", "6", "715827879")]
    [InlineData("divide-signed-arm", 32, "-20", "0", "0")]
    [InlineData("divide-signed-arm", 64, "0", "0", "0")]
    [InlineData("divide-signed-arm", 32, "-20", "6", "-3")]
    [InlineData("divide-signed-arm", 32, "20", "-6", "-3")]
    [InlineData("divide-signed-arm", 32, "-2147483648", "-1", "-2147483648")]
    [InlineData("divide-signed-arm", 64, "-9223372036854775808", "-1", "-9223372036854775808")]
    public void UDIV_and_SDIV(string machine, int width, string dividend, string divisor, string quotient)
    {
        var walk = Walk(machine, width, dividend, divisor);
        Assert.Equal(Word(quotient, width), Word(walk, "quotient"));
        // There is no instruction for the remainder; multiplying and subtracting (MSUB, from memory) gives it.
        var (x, y) = (BigInteger.Parse(dividend), BigInteger.Parse(divisor));
        Assert.Equal(Numbers.Bits.Wrap(x - walk.Result("quotient") * y, width), Word(walk, "remainder"));
        Assert.True(walk.Holds);
    }

    /// <summary>
    /// x86: DIV (Intel's instruction text as mirrored at felixcloutier.com/x86/div and c9x.me/x86): 2n bits by n, the largest quotient
    /// 2^n - 1; a zero divisor or a quotient that does not fit raises the divide error, here the overflow flag.
    /// </summary>
    [Theory]
    [InlineData(8)]
    [InlineData(16)]
    [InlineData(32)]
    [InlineData(64)]
    public void DIV_of_a_double_word(int width)
    {
        var all = (BigInteger.One << width) - 1;
        foreach (var machine in new[] { "divide-double-length", "divide-double-length-extra-bit" })
        {
            var datapath = Walks.At(machine, width);
            foreach (var divisor in new[] { 1, 3, all / 2, all / 2 + 1, all })
            {
                var largest = Walks.Of(datapath, all * divisor + divisor - 1, divisor);
                Assert.Equal((all, divisor - 1), (largest.Result("quotient"), largest.Result("remainder")));
                Assert.Equal(0, largest.Result("overflow"));
                Assert.Equal(1, Walks.Of(datapath, (all + 1) * divisor, divisor).Result("overflow"));
            }
            Assert.Equal(1, Walks.Of(datapath, 0, 0).Result("overflow"));
            Assert.Equal(1, Walks.Of(datapath, all, 0).Result("overflow"));
        }
    }

    /// <summary>
    /// IDIV (Intel's instruction text; the range -2^(n-1) to 2^(n-1) - 1 from memory): rounded toward zero, the remainder with the
    /// sign of the dividend. The smallest number by -1 raises the error (GNU autoconf manual, "Signed Integer Division").
    /// </summary>
    [Theory]
    [InlineData(8)]
    [InlineData(16)]
    [InlineData(32)]
    [InlineData(64)]
    public void IDIV_of_a_double_word(int width)
    {
        var datapath = Walks.At("divide-double-length-signed", width);
        var half = BigInteger.One << (width - 1);
        Walk Divided(BigInteger dividend, BigInteger divisor) => Walks.Of(datapath, dividend, divisor);
        foreach (
            var (dividend, divisor) in new (BigInteger, BigInteger)[] { (7, 2), (-7, 2), (7, -2), (-7, -2), (-half, 1) }
        )
        {
            var walk = Divided(dividend, divisor);
            var quotient = BigInteger.DivRem(dividend, divisor, out var remainder);
            Assert.Equal((quotient, remainder), (walk.Result("quotient"), walk.Result("remainder")));
            Assert.Equal(0, walk.Result("overflow"));
        }
        Assert.Equal(1, Divided(-half, -1).Result("overflow"));
        Assert.Equal(1, Divided(half, 1).Result("overflow"));
        Assert.Equal(0, Divided(3 * half - 3, 3).Result("overflow"));
        Assert.Equal(1, Divided(3 * half, 3).Result("overflow"));
        Assert.Equal(0, Divided(3 * half + 2, -3).Result("overflow"));
        Assert.Equal(1, Divided(3 * half + 3, -3).Result("overflow"));
        Assert.Equal(1, Divided(7, 0).Result("overflow"));
    }

    /// <summary>The high words of unsigned, signed, and signed by unsigned multiplication; "-" where the vectors have none.</summary>
    [Theory]
    [InlineData(32, "00000000", "00000000", "00000000", "00000000", "00000000", "00000000")]
    [InlineData(32, "00000001", "00000001", "00000001", "00000000", "00000000", "00000000")]
    [InlineData(32, "00000003", "00000007", "00000015", "00000000", "00000000", "00000000")]
    [InlineData(32, "00000000", "ffff8000", "00000000", "00000000", "00000000", "00000000")]
    [InlineData(32, "80000000", "00000000", "00000000", "00000000", "00000000", "00000000")]
    [InlineData(32, "80000000", "ffff8000", "00000000", "7fffc000", "00004000", "80004000")]
    [InlineData(32, "aaaaaaab", "0002fe7d", "0000ff7f", "0001fefe", "ffff0081", "ffff0081")]
    [InlineData(32, "0002fe7d", "aaaaaaab", "0000ff7f", "0001fefe", "ffff0081", "0001fefe")]
    [InlineData(32, "ff000000", "ff000000", "00000000", "fe010000", "00010000", "ff010000")]
    [InlineData(32, "ffffffff", "ffffffff", "00000001", "fffffffe", "00000000", "ffffffff")]
    [InlineData(32, "ffffffff", "00000001", "ffffffff", "00000000", "ffffffff", "ffffffff")]
    [InlineData(32, "00000001", "ffffffff", "ffffffff", "00000000", "ffffffff", "00000000")]
    [InlineData(32, "00007e00", "b6db6db7", "00001200", "-", "-", "-")]
    [InlineData(32, "00007fc0", "b6db6db7", "00001240", "-", "-", "-")]
    [InlineData(32, "00d00000", "00b00000", "-", "00008f00", "00008f00", "00008f00")]
    [InlineData(32, "00e00000", "00b00000", "-", "00009a00", "00009a00", "00009a00")]
    [InlineData(32, "00f00000", "00b00000", "-", "0000a500", "0000a500", "0000a500")]
    [InlineData(32, "00d00000", "00d00000", "-", "0000a900", "0000a900", "0000a900")]
    [InlineData(32, "0000000d", "0000000b", "0000008f", "-", "-", "-")]
    [InlineData(32, "0000000e", "0000000b", "0000009a", "-", "-", "-")]
    [InlineData(32, "0000000f", "0000000b", "000000a5", "-", "-", "-")]
    [InlineData(32, "0000000d", "0000000d", "000000a9", "-", "-", "-")]
    [InlineData(64, "7e00", "6db6db6db6db6db7", "1200", "-", "-", "-")]
    [InlineData(64, "7fc0", "6db6db6db6db6db7", "1240", "-", "-", "-")]
    [InlineData(
        64,
        "ffffffff80000000",
        "ffffffffffff8000",
        "0000400000000000",
        "ffffffff7fff8000",
        "0",
        "ffffffff80000000"
    )]
    [InlineData(64, "0", "0", "0", "0", "0", "0")]
    [InlineData(64, "1", "1", "1", "0", "0", "0")]
    [InlineData(64, "3", "7", "15", "0", "0", "0")]
    [InlineData(64, "0", "ffffffffffff8000", "0", "0", "0", "0")]
    [InlineData(64, "ffffffff80000000", "0", "0", "0", "0", "0")]
    [InlineData(64, "aaaaaaaaaaaaaaab", "2fe7d", "ff7f", "1fefe", "-", "-")]
    [InlineData(64, "d00000000", "b00000000", "-", "8f", "8f", "8f")]
    public void MUL_MULHU_MULH_and_MULHSU(
        int width,
        string a,
        string b,
        string low,
        string unsigned,
        string signed,
        string signedUnsigned
    )
    {
        foreach (var machine in PlainMultipliers)
        {
            var product = Word(Walk(machine, width, Hex(a), Hex(b)), "product");
            Same(low, product & ((BigInteger.One << width) - 1));
            Same(unsigned, product >> width);
        }
        foreach (var machine in SignedMultipliers)
        {
            var bySign = Word(Walk(machine, width, Hex(a), Hex(b)), "product");
            Same(low, bySign & ((BigInteger.One << width) - 1));
            Same(signed, bySign >> width);
        }
        foreach (
            var (machine, high) in new[]
            {
                ("multiply-high-unsigned", unsigned),
                ("multiply-high-signed", signed),
                ("multiply-high-signed-unsigned", signedUnsigned),
            }
        )
        {
            var walk = Walk(machine, width, Hex(a), Hex(b));
            Same(high, Word(walk, "high"));
            Same(low, Word(walk, "low"));
        }
        foreach (var (first, second, high) in new[] { (0, 0, unsigned), (1, 1, signed), (1, 0, signedUnsigned) })
        {
            var words = new[] { BigInteger.Parse(Hex(a)), BigInteger.Parse(Hex(b)), first, second };
            var walk = Walks.Of(Walks.At("multiply-high-any-signs", width), words);
            Same(high, Word(walk.Result("high").ToString(), width));
        }
    }

    private static void Same(string vector, BigInteger word)
    {
        if (vector != "-")
        {
            Assert.Equal(BigInteger.Parse(Hex(vector)), word);
        }
    }

    private static string Hex(string digits) =>
        BigInteger.Parse("0" + digits, NumberStyles.HexNumber, CultureInfo.InvariantCulture).ToString();

    private static Walk Walk(string machine, int width, string first, string second) =>
        Walks.Of(Walks.At(machine, width), BigInteger.Parse(first), BigInteger.Parse(second));

    private static BigInteger Word(string number, int width) => Numbers.Bits.Wrap(BigInteger.Parse(number), width);

    private static BigInteger Word(Walk walk, string result)
    {
        var index = walk.Datapath.Results.ToList().FindIndex(r => r.Name == result);
        return walk.Results[index];
    }
}
