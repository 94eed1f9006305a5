using System.Buffers;
using System.Text.RegularExpressions;
using Reckoner.Diagnostics;
using Reckoner.Sheets;

namespace Reckoner.Documents.HandedIn;

/// <summary>Values between separators, or text with two blanks or more between columns.</summary>
internal static partial class SeparatedText
{
    private const int MostLetters = 2_000_000;

    /// <summary>What cells of bits are written with.</summary>
    private static readonly SearchValues<char> Bits = SearchValues.Create("01OolI _b?.");

    private static readonly char[] Separators = ['\t', ';', ','];

    public static HandedReading Of(string text)
    {
        if (text.Length > MostLetters)
        {
            return new Term("handed.too-large");
        }
        if (string.IsNullOrWhiteSpace(text))
        {
            return new Term("handed.nothing");
        }
        var lines = text.Split('\n').Select(l => l.Trim()).ToList();
        List<IReadOnlyList<string>> blanks =
        [
            .. lines.Select(l => l.Length == 0 ? [] : (IReadOnlyList<string>)Blanks().Split(l)),
        ];
        var best = Separators.MaxBy(s =>
            (Digits(lines.Select(l => (IReadOnlyList<string>)l.Split(s))), text.Count(c => c == s))
        );
        var count = Digits(lines.Select(l => (IReadOnlyList<string>)l.Split(best)));
        if (count < Digits(blanks) || (count == 0 && !text.Contains(best, StringComparison.Ordinal)))
        {
            return Page(blanks);
        }
        var rows = ListRows.Of(text, best, out var open);
        return open is { } line ? new Term("handed.open-quote", ("line", line)) : Page(rows.Select(r => r.Cells));
    }

    private static HandedText Page(IEnumerable<IReadOnlyList<string>> rows) => new([new HandedPage("", [.. rows])]);

    /// <summary>Cells with nothing but digits in lines that have two of them or more: what parts a table has most.</summary>
    private static int Digits(IEnumerable<IReadOnlyList<string>> lines) =>
        lines.Select(l => l.Count(IsDigits)).Where(c => c > 1).Sum();

    private static bool IsDigits(string cell)
    {
        var text = cell.AsSpan().Trim(" \"'");
        return text.Length > 1 && text.IndexOfAnyExcept(Bits) < 0;
    }

    [GeneratedRegex("  +")]
    private static partial Regex Blanks();
}
