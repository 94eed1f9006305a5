using System.Numerics;
using Reckoner.Catalogue;
using Reckoner.Datapaths;
using Xunit;

namespace Reckoner.Tests;

/// <summary>A result and the numbers it may be, both ends included.</summary>
internal sealed record Expected(string Result, BigInteger Low, BigInteger High)
{
    public Expected(string result, BigInteger number)
        : this(result, number, number) { }
}

/// <summary>
/// What the machines of the catalogue are for, in whole numbers: computed from the operands by System.Numerics alone, without
/// the descriptions' laws. For operands inside "given"; the plain machines also state what they give outside.
/// </summary>
internal static class Meanings
{
    private delegate IReadOnlyList<Expected> Meaning(IReadOnlyList<BigInteger> operands, Datapath at);

    /// <summary>The first six: all three multipliers and all three dividers without performing the negative subtraction.</summary>
    public static IReadOnlyList<string> FirstSix { get; } =
    [
        "multiply-moving-multiplicand",
        "multiply-still-multiplicand",
        "multiply-shared-register",
        "divide-moving-divisor",
        "divide-still-divisor",
        "divide-shared-register",
    ];

    private const string WrongFamily = "wrong-on-purpose";

    /// <summary>Machines that are not meant to compute rightly.</summary>
    public static IReadOnlyList<string> WrongOnPurpose { get; } =
    [.. MachineCatalogue.Entries.Where(e => e.Family == WrongFamily).Select(e => e.Name)];

    private static readonly Dictionary<string, Meaning> All = new()
    {
        ["multiply-moving-multiplicand"] = Product,
        ["multiply-still-multiplicand"] = Product,
        ["multiply-shared-register"] = Product,
        ["multiply-in-steps"] = Product,
        ["multiply-moving-multiplicand-in-steps"] = Product,
        ["multiply-still-multiplicand-in-steps"] = Product,
        ["multiply-early-out"] = Product,
        ["multiply-carry-save"] = Product,
        ["multiply-signed-shift-add"] = Product,
        ["multiply-booth"] = Product,
        ["multiply-booth-radix-4"] = Product,
        ["multiply-booth-radix-4-unsigned"] = Product,
        ["multiply-signed-magnitude"] = Product,
        ["multiply-canonical-digits"] = Product,
        ["multiply-two-widths"] = Product,
        ["multiply-high-signed-unsigned"] = HighAndLow,
        ["multiply-high-signed"] = HighAndLow,
        ["multiply-high-unsigned"] = HighAndLow,
        ["multiply-high-any-signs"] = HighAndLowBySigns,
        ["divide-moving-divisor"] = UnsignedQuotient,
        ["divide-still-divisor"] = UnsignedQuotient,
        ["divide-shared-register"] = UnsignedQuotient,
        ["divide-shift-first"] = UnsignedQuotient,
        ["divide-shift-first-narrow"] = UnsignedQuotient,
        ["divide-shift-first-sign"] = UnsignedQuotient,
        ["divide-half-shift-back"] = UnsignedQuotient,
        ["divide-moving-divisor-in-steps"] = UnsignedQuotient,
        ["divide-shared-register-in-steps"] = UnsignedQuotient,
        ["divide-repeated-subtraction"] = UnsignedQuotient,
        ["divide-long-dividend"] = UnsignedQuotient,
        ["divide-long-dividend-sign"] = UnsignedQuotient,
        ["divide-two-widths"] = UnsignedQuotient,
        ["divide-two-widths-short"] = UnsignedQuotient,
        ["divide-unsigned-arm"] = (x, at) => Arm(x[0], x[1], at.Operands[0].Width),
        ["divide-signed-arm"] = (x, at) => Arm(x[0], x[1], at.Operands[0].Width),
        ["divide-adding-back"] = UnsignedQuotient,
        ["divide-non-restoring"] = UnsignedQuotient,
        ["divide-early-out"] = UnsignedQuotient,
        ["divide-goldschmidt"] = (x, at) => [.. UnsignedQuotient(x, at), .. CloseToOne("denominator", at)],
        ["divide-newton-raphson"] = (x, at) => [.. UnsignedQuotient(x, at), .. Reciprocal(x[1], at)],
        ["divide-shift-subtract-restore"] = UnsignedQuotient,
        ["divide-srt-radix-2"] = UnsignedQuotient,
        ["divide-srt-radix-2-carry-save"] = (x, at) => Truncated(x[0] << (Digits(at) - 1), x[1]),
        ["divide-srt-radix-4"] = (x, at) => Truncated(x[0] << (2 * (Digits(at) - 1)), x[1]),
        ["divide-srt-radix-4-wide"] = (x, at) => Truncated(x[0] << (2 * (Digits(at) - 1) + Low(at)), x[1] << Low(at)),
        ["divide-srt-radix-4-one-word"] = UnsignedQuotient,
        ["divide-double-length"] = OrOverflow,
        ["divide-double-length-extra-bit"] = OrOverflow,
        ["divide-double-length-signed"] = OrSignedOverflow,
        ["divide-signed-restoring"] = (x, _) => Truncated(x[0], x[1]),
        ["divide-signed-non-restoring"] = (x, _) => Truncated(x[0], x[1]),
        ["divide-signed-truncating"] = (x, _) => Truncated(x[0], x[1]),
        ["divide-signed-riscv"] = (x, at) => RiscV(x[0], x[1], at.Operands[0].Width),
        ["divide-signed-riscv-word"] = (x, at) => RiscVWord(x[0], x[1], at.Operands[0].Width / 2),
        ["divide-unsigned-riscv-word"] = (x, at) => RiscVUnsignedWord(x[0], x[1], at.Operands[0].Width / 2),
        ["divide-signed-floored"] = (x, _) => Floored(x[0], x[1]),
        ["divide-signed-euclidean"] = (x, _) => Euclidean(x[0], x[1]),
        ["root-restoring"] = Root,
        ["root-non-restoring"] = Root,
        ["root-rounded"] = (x, _) => [new("root", Nearest(x[0]))],
        ["root-fixed-point"] = (x, at) => RootAndRest(x[0] << (int)at.Numbers["k"].Numerator),
        ["multiply-floating"] = Rounded,
        ["add-floating"] = Rounded,
        ["divide-floating"] = Rounded,
        ["root-floating"] = Rounded,
    };

    public static IEnumerable<string> Machines => All.Keys;

    /// <summary>What the results of a machine must be for operands given as numbers.</summary>
    public static IReadOnlyList<Expected> Of(Datapath at, IReadOnlyList<BigInteger> operands)
    {
        var expected = All[at.Machine.Name](operands, at);
        Assert.All(expected, e => Assert.Contains(at.Results, r => r.Name == e.Result));
        return expected;
    }

    private static List<Expected> Product(IReadOnlyList<BigInteger> x, Datapath at) => [new("product", x[0] * x[1])];

    private static List<Expected> Rounded(IReadOnlyList<BigInteger> x, Datapath at)
    {
        int Number(string name) => at.Numbers.TryGetValue(name, out var number) ? (int)number.Numerator : 0;
        var format = new Floating(Number("e"), Number("m"), IsTinyBefore: Number("tiny_before") == 1);
        var (code, flags) = format.Of(at.Machine.Name, [.. x]);
        List<Expected> named =
        [
            new(at.Results[0].Name, code),
            new("invalid", flags.Invalid ? 1 : 0),
            new("by_zero", flags.Infinite ? 1 : 0),
            new("overflow", flags.Overflow ? 1 : 0),
            new("underflow", flags.Underflow ? 1 : 0),
            new("inexact", flags.Inexact ? 1 : 0),
        ];
        return named.FindAll(e => at.Results.Any(r => r.Name == e.Result));
    }

    private static List<Expected> HighAndLow(IReadOnlyList<BigInteger> x, Datapath at)
    {
        var width = at.Operands[0].Width;
        var product = x[0] * x[1];
        return [new("high", product >> width), new("low", product & ((BigInteger.One << width) - 1))];
    }

    /// <summary>Words read with or without sign as two more operands say; the low half is a word without sign in any case.</summary>
    private static List<Expected> HighAndLowBySigns(IReadOnlyList<BigInteger> x, Datapath at)
    {
        var size = BigInteger.One << at.Operands[0].Width;
        BigInteger Read(BigInteger word, BigInteger isSigned) =>
            !isSigned.IsZero && 2 * word >= size ? word - size : word;
        return HighAndLow([Read(x[0], x[2]), Read(x[1], x[3])], at);
    }

    /// <summary>A zero divisor gives all ones and the dividend, where the machine states what it gives then.</summary>
    private static List<Expected> UnsignedQuotient(IReadOnlyList<BigInteger> x, Datapath at) =>
        x[1].IsZero ? Both((BigInteger.One << at.Operands[0].Width) - 1, x[0]) : Truncated(x[0], x[1]);

    private static List<Expected> Truncated(BigInteger dividend, BigInteger divisor) =>
        Both(BigInteger.DivRem(dividend, divisor, out var remainder), remainder);

    private static List<Expected> Floored(BigInteger dividend, BigInteger divisor)
    {
        var quotient = BigInteger.DivRem(dividend, divisor, out var remainder);
        return remainder.Sign * divisor.Sign < 0 ? Both(quotient - 1, remainder + divisor) : Both(quotient, remainder);
    }

    private static List<Expected> Euclidean(BigInteger dividend, BigInteger divisor)
    {
        var quotient = BigInteger.DivRem(dividend, divisor, out var remainder);
        return remainder.Sign < 0
            ? Both(quotient - divisor.Sign, remainder + BigInteger.Abs(divisor))
            : Both(quotient, remainder);
    }

    private static List<Expected> RiscV(BigInteger dividend, BigInteger divisor, int width) =>
        divisor.IsZero ? Both(-1, dividend)
        : divisor == -1 && dividend == -(BigInteger.One << (width - 1)) ? Both(dividend, 0)
        : Truncated(dividend, divisor);

    /// <summary>The low halves, read with their sign.</summary>
    private static List<Expected> RiscVWord(BigInteger dividend, BigInteger divisor, int width) =>
        RiscV(SignedWord(dividend, width), SignedWord(divisor, width), width);

    /// <summary>The low halves, read without sign; the results are words again, and those are extended with their sign.</summary>
    private static List<Expected> RiscVUnsignedWord(BigInteger dividend, BigInteger divisor, int width)
    {
        var mask = (BigInteger.One << width) - 1;
        var (low, by) = (dividend & mask, divisor & mask);
        var results = by.IsZero ? Both(mask, low) : Truncated(low, by);
        return [.. results.Select(r => new Expected(r.Result, SignedWord(r.Low, width)))];
    }

    private static BigInteger SignedWord(BigInteger number, int width)
    {
        var word = number & ((BigInteger.One << width) - 1);
        return word >> (width - 1) == 1 ? word - (BigInteger.One << width) : word;
    }

    /// <summary>Arm's UDIV and SDIV (A64, A32): a zero divisor gives 0, a quotient that does not fit its low bits.</summary>
    private static List<Expected> Arm(BigInteger dividend, BigInteger divisor, int width) =>
        divisor.IsZero ? Both(0, dividend)
        : divisor == -1 && dividend == -(BigInteger.One << (width - 1)) ? Both(dividend, 0)
        : Truncated(dividend, divisor);

    private static int Digits(Datapath at) => (int)at.Numbers["digits"].Numerator;

    private static int Low(Datapath at) => (int)at.Numbers["low"].Numerator;

    private static List<Expected> OrSignedOverflow(IReadOnlyList<BigInteger> x, Datapath at)
    {
        var limit = BigInteger.One << (at.Operands[1].Width - 1);
        var fits = !x[1].IsZero && BigInteger.Divide(x[0], x[1]) is var q && q >= -limit && q < limit;
        return fits ? [new("overflow", 0), .. Truncated(x[0], x[1])] : [new("overflow", 1)];
    }

    /// <summary>A fraction of g bits behind the point, to within 2^-n of 1.</summary>
    private static List<Expected> CloseToOne(string result, Datapath at)
    {
        var one = BigInteger.One << (int)at.Numbers["g"].Numerator;
        var error = one >> at.Operands[1].Width;
        return [new(result, one - error, one + error)];
    }

    private static List<Expected> OrOverflow(IReadOnlyList<BigInteger> x, Datapath at) =>
        x[0] >= x[1] << at.Operands[1].Width ? [new("overflow", 1)] : [new("overflow", 0), .. Truncated(x[0], x[1])];

    /// <summary>2^(n+g) / divisor for a normalised divisor, to within 5 * 2^n / divisor.</summary>
    private static List<Expected> Reciprocal(BigInteger divisor, Datapath at)
    {
        var width = at.Operands[1].Width;
        var one = BigInteger.One << (width + (int)at.Numbers["g"].Numerator);
        var error = 5 * (BigInteger.One << width);
        return (divisor >> (width - 1)).IsZero
            ? []
            : [new("reciprocal", (one - error + divisor - 1) / divisor, (one + error) / divisor)];
    }

    private static List<Expected> Root(IReadOnlyList<BigInteger> x, Datapath at) => RootAndRest(x[0]);

    private static List<Expected> RootAndRest(BigInteger radicand)
    {
        var root = Floor(radicand);
        return [new("root", root), new("remainder", radicand - root * root)];
    }

    /// <summary>The root of four times as much has one more bit, which says on which side of the middle it lies.</summary>
    private static BigInteger Nearest(BigInteger radicand) => (Floor(4 * radicand) + 1) / 2;

    /// <summary>Newton's iteration from above ends at the whole root; zero, at which it would divide, is put in by hand.</summary>
    private static BigInteger Floor(BigInteger radicand)
    {
        var root = radicand.IsZero ? BigInteger.Zero : BigInteger.One << (int)(radicand.GetBitLength() / 2 + 1);
        while (root * root > radicand)
        {
            root = (root + radicand / root) / 2;
        }
        return root;
    }

    private static List<Expected> Both(BigInteger quotient, BigInteger remainder) =>
        [new("quotient", quotient), new("remainder", remainder)];
}
