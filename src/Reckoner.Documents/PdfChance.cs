using System.Text;
using System.Text.RegularExpressions;

namespace Reckoner.Documents;

/// <summary>
/// The PDF library throws dice for three things that only have to differ within a document or to be there: the tags before the
/// names of embedded fonts, the identifiers of its metadata and of the file. They are numbered instead, at the same length, so
/// that the same content gives the same bytes and no place in the file moves.
/// </summary>
internal static partial class PdfChance
{
    public static void Remove(byte[] pdf)
    {
        // In Latin-1 a character is a byte, whatever it is.
        var text = Encoding.Latin1.GetString(pdf);
        var numbers = new Dictionary<string, int>();
        foreach (
            var match in FontTag().Matches(text).Concat(Identifier().Matches(text)).Concat(FileIds().Matches(text))
        )
        {
            var chance = match.Groups[1];
            if (!numbers.TryGetValue(chance.Value, out var number))
            {
                numbers.Add(chance.Value, number = numbers.Count);
            }
            Write(pdf, chance, number);
        }
    }

    /// <summary>Letters stand for digits, so that it stays what it was: letters in a tag, hexadecimal elsewhere.</summary>
    private static void Write(byte[] pdf, Group chance, int number)
    {
        for (var i = chance.Index + chance.Length - 1; i >= chance.Index; i--)
        {
            if (pdf[i] != '-')
            {
                pdf[i] = (byte)('A' + number % 6);
                number /= 6;
            }
        }
    }

    [GeneratedRegex(@"/(?:FontName|BaseFont)/([A-Z]{6})\+")]
    private static partial Regex FontTag();

    [GeneratedRegex("uuid:([0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12})")]
    private static partial Regex Identifier();

    [GeneratedRegex("(?<=/ID ?\\[(?:<[0-9A-F]{32}>)?<)([0-9A-F]{32})>")]
    private static partial Regex FileIds();
}
