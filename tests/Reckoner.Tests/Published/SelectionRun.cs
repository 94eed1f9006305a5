using System.Globalization;
using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Running;

namespace Reckoner.Tests;

/// <summary>
/// A number and the power of two that it is to be multiplied by: mantissas are shifted up until the top bit is set, as the machines
/// that divide fractions want them.
/// </summary>
internal sealed record Mantissa(BigInteger Number, int Exponent)
{
    public static Mantissa Of(BigInteger number) => new(number, 0);

    /// <summary>Hexadecimal digits behind each other, the first bit worth one.</summary>
    public static Mantissa Hex(string digits)
    {
        var number = BigInteger.Parse("0" + digits, NumberStyles.HexNumber, CultureInfo.InvariantCulture);
        return new(number, 1 - (int)number.GetBitLength());
    }

    public static Mantissa OfBinary64(double number)
    {
        var bits = BitConverter.DoubleToInt64Bits(number);
        var exponent = (int)((bits >> 52) & 0x7FF);
        return new((bits & ((1L << 52) - 1)) | (1L << 52), exponent - 1075);
    }

    /// <summary>Shifted up to so many bits.</summary>
    public BigInteger In(int bits) => Number << (bits - (int)Number.GetBitLength());

    /// <summary>The weight of the top bit, as a power of two.</summary>
    public int Weight => Exponent + (int)Number.GetBitLength() - 1;

    public Rational Value => Rational.Power(2, Exponent) * Number;
}

/// <summary>A division by a selection table, walked; and what it looked up.</summary>
internal sealed class SelectionRun
{
    public const string Sound = "divide-srt-radix-4";
    public const string Faulty = "divide-srt-radix-4-1994";

    /// <summary>Enough digits for a quotient in 64 bits and more.</summary>
    private const int Digits = 40;

    private const int Width = 64;

    private static readonly Dictionary<(string, int, int), Datapath> Known = [];

    private readonly int weight;
    private readonly int digits;

    private SelectionRun(Walk walk, int weight, int digits)
    {
        Walk = walk;
        this.weight = weight;
        this.digits = digits;
    }

    public static SelectionRun Of(
        string machine,
        Mantissa dividend,
        Mantissa divisor,
        int digits = Digits,
        int width = Width
    )
    {
        var walk = Walks.Of(At(machine, width, digits), dividend.In(width), divisor.In(width));
        return new SelectionRun(walk, dividend.Weight - divisor.Weight, digits);
    }

    private static Datapath At(string machine, int width, int digits)
    {
        lock (Known)
        {
            if (!Known.TryGetValue((machine, width, digits), out var datapath))
            {
                datapath = Machines.Bound(Machines.Named(machine), ("n", width), ("digits", digits));
                Known[(machine, width, digits)] = datapath;
            }
            return datapath;
        }
    }

    public Walk Walk { get; }

    /// <summary>What the table was asked for each digit, and what it gave.</summary>
    public IEnumerable<(int Row, int Column, int Digit)> Selections =>
        Walk
            .Rows.Where(r => r.Repeat == 1)
            .Select(r =>
                (
                    Number(r, "estimate"),
                    (int)(Walk.Operands[1] >> (Walk.Datapath.Operands[1].Width - 5)) & 15,
                    Number(r, "q")
                )
            );

    private static int Number(Row row, string wire)
    {
        var value = row.Moments.SelectMany(m => m.Values).First(v => v.Wire.Name == wire);
        return (int)value.Wire.Value.Number(value.Bits);
    }

    /// <summary>The digits, counted from 0, for which one of the five cells was read.</summary>
    public IEnumerable<int> EmptyReads =>
        Selections
            .Select((s, i) => (Cell: (s.Row, s.Column), Index: i))
            .Where(s => s.Cell is (23, 1) or (27, 4) or (31, 7) or (35, 10) or (39, 13))
            .Select(s => s.Index);

    /// <summary>What the last place of the quotient is worth.</summary>
    public Rational LastPlace => Rational.Power(2, weight - 2 * (digits - 1));

    /// <summary>The quotient as far as the digits go.</summary>
    public Rational Quotient => LastPlace * Walk.Result("quotient");

    /// <summary>The quotient with so many bits, rounded to nearest, ties to even; what is left over breaks a tie.</summary>
    public Rational Rounded(int bits)
    {
        var quotient = 2 * Walk.Result("quotient") + (Walk.Result("remainder").IsZero ? 0 : 1);
        var surplus = (int)quotient.GetBitLength() - bits;
        var (half, unit) = (BigInteger.One << (surplus - 1), BigInteger.One << surplus);
        var rest = quotient & (unit - 1);
        var floor = quotient >> surplus;
        var up = rest > half || (rest == half && !floor.IsEven);
        return LastPlace * Rational.Power(2, surplus - 1) * (floor + (up ? 1 : 0));
    }

    /// <summary>Rounded to the 53 bits of binary64.</summary>
    public double Double()
    {
        var rounded = Rounded(53);
        return (double)rounded.Numerator / (double)rounded.Denominator;
    }
}
