using System.Text;

namespace Reckoner.Sheets;

/// <summary>
/// The text of a list that some other program wrote: UTF-8 or UTF-16, with or without a mark of the order of bytes, else Windows-1252,
/// in which every sequence of bytes is a text. Ends of lines become line feeds.
/// </summary>
internal static class ListText
{
    /// <summary>The characters of the bytes 80 to 9F in Windows-1252; five of them mean nothing.</summary>
    private const string Middle = "€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008DŽ\u008F\u0090‘’“”•–—˜™š›œ\u009DžŸ";

    public static string Of(ReadOnlySpan<byte> bytes)
    {
        var text = Decoded(bytes);
        return text.TrimStart('\uFEFF').ReplaceLineEndings("\n");
    }

    private static string Decoded(ReadOnlySpan<byte> bytes)
    {
        if (bytes is [0xFF, 0xFE, ..])
        {
            return Encoding.Unicode.GetString(bytes);
        }
        if (bytes is [0xFE, 0xFF, ..])
        {
            return Encoding.BigEndianUnicode.GetString(bytes);
        }
        // Of the letters of Europe one byte of two is 0; no other encoding has any.
        if (bytes.Length % 2 == 0 && bytes.Contains((byte)0))
        {
            return bytes[0] == 0 ? Encoding.BigEndianUnicode.GetString(bytes) : Encoding.Unicode.GetString(bytes);
        }
        try
        {
            return new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(bytes);
        }
        catch (DecoderFallbackException)
        {
            return string.Create(
                bytes.Length,
                bytes,
                (letters, from) =>
                {
                    for (var i = 0; i < letters.Length; i++)
                    {
                        letters[i] = from[i] is >= 0x80 and <= 0x9F and var byt ? Middle[byt - 0x80] : (char)from[i];
                    }
                }
            );
        }
    }
}
