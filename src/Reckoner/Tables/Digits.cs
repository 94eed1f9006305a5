using System.Numerics;
using Reckoner.Numbers;
using Reckoner.Words;

namespace Reckoner.Tables;

/// <summary>How bits are written: in base 2, 8, 10 or 16, and in groups.</summary>
/// <param name="Group">
/// Digits in a group, counted from the right; 0 for none; null for groups at the ends of a register's parts.
/// </param>
public sealed record Digits(int Base = 2, int? Group = null)
{
    public static readonly Digits Plain = new();

    public static IReadOnlyList<int> Bases { get; } = [2, 8, 10, 16];

    private const string Signs = "0123456789ABCDEF";

    private int BitsOfADigit =>
        Base switch
        {
            2 => 1,
            8 => 3,
            16 => 4,
            _ => throw new InvalidOperationException($"base {Base} has no digits of whole bits"),
        };

    /// <summary>
    /// Bits of a stated width, leading zeros kept; in decimal the number they stand for. Bits of a width that is no multiple of
    /// a digit's fill the leftmost digit with zeros.
    /// </summary>
    /// <param name="cuts">The lowest places of the parts that stand apart, from the top down, the last being 0.</param>
    public Run Of(BigInteger bits, int width, bool isSigned = false, IReadOnlyList<int>? cuts = null)
    {
        if (Base == 10)
        {
            return Run.Number(isSigned ? Bits.AsSigned(bits, width) : bits);
        }
        var size = BitsOfADigit;
        var count = (width + size - 1) / size;
        var text = Base == 2 ? Bits.Text(bits, width) : Text(bits, count, size);
        return new Run(RunKind.Digits, Grouped(text, Ends(count, size, cuts ?? [0])), Base);
    }

    private static string Text(BigInteger bits, int count, int size) =>
        string.Create(
            count,
            bits,
            (digits, value) =>
            {
                for (var i = digits.Length - 1; i >= 0; i--)
                {
                    digits[i] = Signs[(int)(value & Bits.Mask(size))];
                    value >>= size;
                }
            }
        );

    /// <summary>How many digits stand right of each group's end, from the left; parts that end inside a digit do not count.</summary>
    private IEnumerable<int> Ends(int count, int size, IReadOnlyList<int> cuts) =>
        Group switch
        {
            0 => [0],
            { } group => Enumerable.Range(0, (count + group - 1) / group).Select(i => i * group).Reverse(),
            null when cuts.All(c => c % size == 0) => cuts.Select(c => c / size),
            null => [0],
        };

    private static string Grouped(string digits, IEnumerable<int> ends)
    {
        var groups = new List<string>();
        var at = 0;
        foreach (var end in ends)
        {
            groups.Add(digits[at..(digits.Length - end)]);
            at = digits.Length - end;
        }
        return string.Join(' ', groups);
    }
}
