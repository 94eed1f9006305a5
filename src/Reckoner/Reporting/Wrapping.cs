using System.Globalization;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>Fills lines of a page of fixed width.</summary>
internal static class Wrapping
{
    /// <summary>Empty brackets behind a function's name, kept together.</summary>
    private static readonly string Brackets = $"({NoBreak})";

    private const char NoBreak = '\u00A0';

    /// <summary>"name = value", which no line parts.</summary>
    public static string Equation(string name, object value) => $"{name}{NoBreak}={NoBreak}{value}";

    /// <summary>Words in lines of at most <paramref name="width"/> columns; a longer word stands alone and is cut nowhere.</summary>
    public static IEnumerable<string> Lines(string text, int width)
    {
        var line = "";
        foreach (var part in text.Replace("( )", Brackets).Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            var word = part.Replace(NoBreak, ' ');
            if (line.Length > 0 && Columns(line) + 1 + Columns(word) > width)
            {
                yield return line;
                line = word;
            }
            else
            {
                line = line.Length == 0 ? word : line + " " + word;
            }
        }
        if (line.Length > 0)
        {
            yield return line;
        }
    }

    /// <summary>The same; digits and formulas go on in the next line where one has no room for them, words are cut nowhere.</summary>
    public static IEnumerable<string> Lines(Content content, int width) =>
        content.Runs.Any(r => r.Kind is RunKind.Digits or RunKind.Number or RunKind.Formula)
            ? Folded(content.ToString(), width)
            : Lines(content.ToString(), width);

    /// <summary>The same, with a longer word folded from the right, so that places stand under places.</summary>
    public static IEnumerable<string> Folded(string text, int width) =>
        Lines(text, width).SelectMany(line => Folds(line, Math.Max(8, width)));

    /// <summary>A text cut into stretches of one width, the first being what is left over.</summary>
    public static IEnumerable<string> Folds(string text, int width)
    {
        var first = text.Length % width == 0 ? width : text.Length % width;
        for (var at = 0; at < text.Length; at += at == 0 ? first : width)
        {
            yield return text.Substring(at, at == 0 ? first : width);
        }
    }

    /// <summary>Columns a text takes on a terminal: combining marks none, all else one.</summary>
    public static int Columns(string text)
    {
        var columns = 0;
        foreach (var rune in text.EnumerateRunes())
        {
            columns += System.Text.Rune.GetUnicodeCategory(rune)
                is UnicodeCategory.NonSpacingMark
                    or UnicodeCategory.EnclosingMark
                    or UnicodeCategory.Format
                ? 0
                : 1;
        }
        return columns;
    }

    public static string Padded(string text, int columns) =>
        text + new string(' ', Math.Max(0, columns - Columns(text)));
}
