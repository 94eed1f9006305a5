using System.Numerics;
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

    /// <summary>Machines that are not meant to compute rightly.</summary>
    public static IReadOnlyList<string> WrongOnPurpose { get; } = ["divide-srt-radix-4-1994"];

    private static readonly Dictionary<string, Meaning> All = new()
    {
        ["multiply-moving-multiplicand"] = Product,
        ["multiply-still-multiplicand"] = Product,
        ["multiply-shared-register"] = Product,
        ["multiply-in-steps"] = Product,
        ["multiply-early-out"] = Product,
        ["multiply-carry-save"] = Product,
        ["multiply-signed-shift-add"] = Product,
        ["multiply-booth"] = Product,
        ["multiply-booth-radix-4"] = Product,
        ["multiply-booth-radix-4-unsigned"] = Product,
        ["multiply-high-signed-unsigned"] = HighAndLow,
        ["divide-moving-divisor"] = UnsignedQuotient,
        ["divide-still-divisor"] = UnsignedQuotient,
        ["divide-shared-register"] = UnsignedQuotient,
        ["divide-shift-first"] = UnsignedQuotient,
        ["divide-adding-back"] = UnsignedQuotient,
        ["divide-non-restoring"] = UnsignedQuotient,
        ["divide-early-out"] = UnsignedQuotient,
        ["divide-goldschmidt"] = UnsignedQuotient,
        ["divide-newton-raphson"] = (x, at) => [.. UnsignedQuotient(x, at), .. Reciprocal(x[1], at)],
        ["divide-shift-subtract-restore"] = UnsignedQuotient,
        ["divide-srt-radix-2"] = UnsignedQuotient,
        ["divide-srt-radix-4"] = (x, at) => Truncated(x[0] << (2 * ((int)at.Numbers["digits"].Numerator - 1)), x[1]),
        ["divide-double-length"] = OrOverflow,
        ["divide-signed-truncating"] = (x, _) => Truncated(x[0], x[1]),
        ["divide-signed-riscv"] = (x, at) => RiscV(x[0], x[1], at.Operands[0].Width),
        ["divide-signed-floored"] = (x, _) => Floored(x[0], x[1]),
        ["divide-signed-euclidean"] = (x, _) => Euclidean(x[0], x[1]),
        ["root-restoring"] = Root,
        ["root-non-restoring"] = Root,
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

    private static List<Expected> HighAndLow(IReadOnlyList<BigInteger> x, Datapath at)
    {
        var width = at.Operands[0].Width;
        var product = x[0] * x[1];
        return [new("high", product >> width), new("low", product & ((BigInteger.One << width) - 1))];
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

    private static List<Expected> OrOverflow(IReadOnlyList<BigInteger> x, Datapath at) =>
        x[0] >= x[1] << at.Operands[1].Width ? [new("overflow", 1)] : [new("overflow", 0), .. Truncated(x[0], x[1])];

    /// <summary>2^(n+g) / divisor for a normalised divisor, to within 2^(n+2) / divisor.</summary>
    private static List<Expected> Reciprocal(BigInteger divisor, Datapath at)
    {
        var width = at.Operands[1].Width;
        var one = BigInteger.One << (width + (int)at.Numbers["g"].Numerator);
        var error = BigInteger.One << (width + 2);
        return (divisor >> (width - 1)).IsZero
            ? []
            : [new("reciprocal", (one - error + divisor - 1) / divisor, (one + error) / divisor)];
    }

    private static List<Expected> Root(IReadOnlyList<BigInteger> x, Datapath at)
    {
        // Newton's iteration from above ends at the whole root; zero, at which it would divide, is put in by hand.
        var root = x[0].IsZero ? BigInteger.Zero : BigInteger.One << (int)(x[0].GetBitLength() / 2 + 1);
        while (root * root > x[0])
        {
            root = (root + x[0] / root) / 2;
        }
        return [new("root", root), new("remainder", x[0] - root * root)];
    }

    private static List<Expected> Both(BigInteger quotient, BigInteger remainder) =>
        [new("quotient", quotient), new("remainder", remainder)];
}
