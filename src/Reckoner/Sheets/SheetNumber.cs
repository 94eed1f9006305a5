using Reckoner.Numbers;

namespace Reckoner.Sheets;

/// <summary>
/// By what a sheet is known when it comes back: 25 bits as five letters, and a sixth that checks them. Any one letter that is read
/// or typed wrongly, and any two that changed places, are noticed.
/// </summary>
/// <param name="Value">From 0 to 2^25 - 1.</param>
internal readonly record struct SheetNumber(int Value)
{
    private const int Letters = 5;

    public const int Bits = Letters * TypedLetters.BitsOfOne;

    /// <summary>More pages a sheet cannot count in its cells; those behind show the last.</summary>
    public const int MostPages = 31;

    /// <summary>"5K2-QF7".</summary>
    public override string ToString()
    {
        var letters = string.Concat(Digits.Select(TypedLetters.Of));
        return $"{letters[..3]}-{letters[3..]}";
    }

    /// <summary>As it stands in the name of a file.</summary>
    public string Plain => string.Concat(Digits.Select(TypedLetters.Of));

    /// <summary>Null for what is no number, or not as it was printed.</summary>
    public static SheetNumber? Read(string typed)
    {
        var digits = typed.Where(char.IsAsciiLetterOrDigit).Select(TypedLetters.Value).ToList();
        if (digits.Count != Letters + 1 || digits.Contains(-1))
        {
            return null;
        }
        var number = new SheetNumber(digits.Take(Letters).Aggregate(0, (value, d) => (value << 5) | d));
        return number.Digits[Letters] == digits[Letters] ? number : null;
    }

    /// <summary>
    /// What is drawn at the foot of a page, a part of five cells for each letter and one for the page, each from its highest bit on.
    /// </summary>
    /// <param name="page">From 1.</param>
    public IReadOnlyList<IReadOnlyList<bool>> Cells(int page) =>
        [
            .. Digits
                .Append(Math.Min(page, MostPages))
                .Select(d => (IReadOnlyList<bool>)[.. Enumerable.Range(0, 5).Select(i => ((d >> (4 - i)) & 1) == 1)]),
        ];

    private List<int> Digits
    {
        get
        {
            var value = Value;
            List<int> digits =
            [
                .. Enumerable
                    .Range(0, Letters)
                    .Select(i => (value >> ((Letters - 1 - i) * TypedLetters.BitsOfOne)) & 31),
            ];
            // A sum over the field of 32 elements in which each place has a weight of its own, none of them 0 or another's.
            digits.Add(digits.Aggregate(0, (sum, d) => Doubled(sum ^ d)));
            return digits;
        }
    }

    /// <summary>Times x, modulo x^5 + x^2 + 1.</summary>
    private static int Doubled(int element) => ((element << 1) ^ (element >= 16 ? 0b100101 : 0)) & 31;
}
