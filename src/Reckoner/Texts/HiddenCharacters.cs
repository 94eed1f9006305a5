using System.Buffers;
using System.Text;

namespace Reckoner.Texts;

/// <summary>
/// Characters that are no text: they would do something where they are shown, or no document may hold them. Controls other than
/// tabs and line feeds; what turns the direction of reading (Unicode Standard Annex 9: embeddings, overrides, isolates); line
/// separators; what XML 1.0 excludes.
/// </summary>
internal static class HiddenCharacters
{
    /// <summary>What nearly all text is made of: looked past many at a time, since every description is looked through at the start.</summary>
    private static readonly SearchValues<char> Plain = SearchValues.Create(
        "\t\n" + string.Concat(Enumerable.Range(' ', '~' - ' ' + 1).Select(c => (char)c))
    );

    /// <summary>Whether a place of a text holds one; half of a pair of surrogates alone counts too.</summary>
    public static bool IsHidden(string text, int at)
    {
        var c = text[at];
        return c switch
        {
            '\t' or '\n' => false,
            >= '\u202A' and <= '\u202E' or >= '\u2066' and <= '\u2069' => true,
            '\u2028' or '\u2029' or '\uFFFE' or '\uFFFF' => true,
            _ when char.IsHighSurrogate(c) => at + 1 == text.Length || !char.IsLowSurrogate(text[at + 1]),
            _ when char.IsLowSurrogate(c) => at == 0 || !char.IsHighSurrogate(text[at - 1]),
            _ => char.IsControl(c),
        };
    }

    /// <summary>Where the first run of them in a stretch of a text stands.</summary>
    public static Span? First(string text, Span within)
    {
        for (var start = Odd(within.Start); start < within.End; start = Odd(start + 1))
        {
            if (IsHidden(text, start))
            {
                var end = start + 1;
                while (end < within.End && IsHidden(text, end))
                {
                    end++;
                }
                return new Span(start, end);
            }
        }
        return null;

        int Odd(int from)
        {
            var ahead = text.AsSpan(from..within.End).IndexOfAnyExcept(Plain);
            return ahead < 0 ? within.End : from + ahead;
        }
    }

    /// <summary>A run of odd characters as it can be told: those without a look of their own by their numbers.</summary>
    public static string Named(string odd)
    {
        var told = new StringBuilder();
        var shown = Excerpt.Of(odd, 13);
        for (var at = 0; at < shown.Length; )
        {
            // Half a pair alone is no character, and its own number is all there is to say of it.
            var isWhole = Rune.TryGetRuneAt(shown, at, out var rune);
            var hasLook = isWhole && rune.IsBmp && !IsHidden(shown, at);
            told.Append(hasLook ? rune.ToString() : $"U+{(isWhole ? rune.Value : shown[at]):X4}");
            at += isWhole ? rune.Utf16SequenceLength : 1;
        }
        return told.ToString();
    }

    /// <summary>A text in which a dot stands for each of them, so that every other character keeps its place.</summary>
    public static string Dotted(string text) =>
        First(text, new Span(0, text.Length)) is null
            ? text
            : string.Concat(text.Select((c, i) => IsHidden(text, i) ? '·' : c));
}
