using System.Globalization;
using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Documents.Lessons;
using Reckoner.Numbers;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Documents.Quizzes;

/// <summary>An answer with every way to write it, the plainest first. Equal keys are equal answers.</summary>
internal sealed record Spelled(string Key, IReadOnlyList<string> Texts)
{
    /// <summary>A number: in decimal, as all its bits, with a prefix, and as bits without the zeros in front.</summary>
    /// <summary>Learning platforms print a minus sign where one typed a hyphen.</summary>
    private const string Minus = "\u2212";

    /// <param name="bits">0 or more.</param>
    /// <param name="width">Of its bits; 0 for a number that is no hardware.</param>
    public static Spelled Number(BigInteger number, BigInteger bits, int width)
    {
        var texts = new List<string> { Bits.Text(number) };
        if (number.Sign < 0)
        {
            texts.Add(Minus + Bits.Text(-number));
        }
        if (width > 0)
        {
            texts.AddRange(OfBits(Bits.Text(bits, width)));
            var hexadecimal = bits.ToString("x", CultureInfo.InvariantCulture).TrimStart('0');
            texts.Add("0x" + hexadecimal.PadLeft(1, '0'));
            texts.Add("0x" + hexadecimal.PadLeft((width + 3) / 4, '0'));
        }
        return Of(Bits.Text(number), texts);
    }

    /// <summary>The digits of a register: without blanks, with those that a table shows, and without the zeros in front.</summary>
    public static Spelled Digits(Register register, BigInteger bits) =>
        Digits(bits, register.Width, Reporting.Columns.Text(register, bits));

    /// <param name="shown">As the bits are cut for reading.</param>
    private static Spelled Digits(BigInteger bits, int width, string shown) =>
        Of(Bits.Text(bits, width), [.. OfBits(Bits.Text(bits, width)), shown]);

    /// <summary>A number of a walk, or what a register holds.</summary>
    public static Spelled Of(LessonValue value) =>
        value.Width > 0 && Bare(value.Spelled) == Bits.Text(value.Bits, value.Width)
            ? Digits(value.Bits, value.Width, value.Spelled)
            : Number(value.Number, value.Bits, value.Width);

    /// <summary>What stands in a cell of a table, digits in whatever base they are.</summary>
    public static Spelled Of(Cell cell) =>
        cell.Lines is [{ Runs: [{ Kind: RunKind.Digits } digits, ..] }]
            ? Of($"{cell}", [$"{cell}", .. OfDigits(Bare(digits.Text), Prefix(digits.Base))])
            : Of(
                $"{cell}",
                [$"{cell}", Bare($"{cell}"), .. Bare($"{cell}") is ['-', .. var rest] ? (string[])[Minus + rest] : []]
            );

    /// <summary>Any of several, such as any register that is wrong; one at least.</summary>
    public static Spelled Any(IReadOnlyList<string> texts) => Of(texts[0], texts);

    private static IEnumerable<string> OfBits(string bits) => OfDigits(bits, Prefix(2));

    /// <summary>Zeros in front may be missing, as long as a digit is left.</summary>
    private static string[] OfDigits(string digits, string prefix) =>
        digits.TrimStart('0') is { Length: > 0 } some
            ? [digits, prefix + digits, some, prefix + some]
            : [digits, prefix + digits];

    private static string Prefix(int radix) =>
        radix switch
        {
            2 => "0b",
            8 => "0o",
            16 => "0x",
            _ => "",
        };

    private static string Bare(string text) => string.Concat(text.Where(c => !char.IsWhiteSpace(c)));

    private static Spelled Of(string key, IEnumerable<string> texts) => new(key, [.. texts.Distinct()]);
}
