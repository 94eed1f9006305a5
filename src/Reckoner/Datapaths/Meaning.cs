using System.Globalization;
using System.Numerics;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Datapaths;

/// <summary>
/// What bits of registers stand for: a fraction, the sum of a carry-save pair, a number of signed digits. It is shown in a walk
/// beside the registers; it is no hardware, and nothing computes with it.
/// </summary>
/// <param name="Text">The value as it is written, without its point.</param>
/// <param name="Less">For signed digits the word of the places worth -1, while <paramref name="Value"/> has those worth +1.</param>
/// <param name="Until">From the step of this number on it does not stand for it any more.</param>
/// <param name="Point">So many bits stand behind the point; null for a whole number.</param>
public sealed record Meaning(string Name, Phrase? Phrase, string Text, Value Value, Value? Less, int? Point, int? Until)
{
    /// <summary>So many places behind the point are written out; what does not end there is cut, and "…" says so.</summary>
    private const int MostPlaces = 6;

    /// <summary>Whether registers stand for it behind a step; null is the load.</summary>
    public bool IsSoAfter(Step? step) => Until is null || step is null || step.Number < Until;

    /// <param name="bits">Reads the registers' values.</param>
    public Rational Number(Func<Value, BigInteger> bits)
    {
        var number = Value.Number(bits(Value));
        var less = Less is null ? 0 : Less.Number(bits(Less));
        return Rational.Ratio(number - less, BigInteger.One << (Point ?? 0));
    }

    /// <summary>The number in decimal, or signed digits by their places, the most significant first.</summary>
    /// <param name="bits">Reads the registers' values.</param>
    public string Say(Func<Value, BigInteger> bits) =>
        Less is null ? Decimal(Number(bits)) : Digits(bits(Value), bits(Less));

    private string Digits(BigInteger ones, BigInteger lessOnes)
    {
        var places = Enumerable.Range(0, Value.Width).Reverse();
        return string.Join(
            ' ',
            places.SelectMany(place => place + 1 == Point ? [".", Digit(place)] : new[] { Digit(place) })
        );

        string Digit(int place) =>
            ((int)((ones >> place) & 1) - (int)((lessOnes >> place) & 1)) switch
            {
                1 => "+1",
                -1 => "-1",
                _ => " 0",
            };
    }

    private static string Decimal(Rational number)
    {
        if (number.IsWhole)
        {
            return Bits.Text(number.Numerator);
        }
        var size = Rational.Abs(number);
        var scaled = size * BigInteger.Pow(10, MostPlaces);
        var digits = Rational.Floor(scaled).ToString(CultureInfo.InvariantCulture).PadLeft(MostPlaces + 1, '0');
        var text = digits.Insert(digits.Length - MostPlaces, ".");
        return (number.Sign < 0 ? "-" : "") + (scaled.IsWhole ? text.TrimEnd('0') : text + "…");
    }
}
