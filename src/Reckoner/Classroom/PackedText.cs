using System.Buffers.Text;
using System.IO.Compression;
using System.Text;
using Reckoner.Notation;

namespace Reckoner.Classroom;

/// <summary>A text as a stretch of a link: raw deflate, in base64 for links.</summary>
internal static class PackedText
{
    public static string Of(string text)
    {
        using var packed = new MemoryStream();
        using (var deflate = new DeflateStream(packed, CompressionLevel.SmallestSize))
        {
            deflate.Write(Encoding.UTF8.GetBytes(text));
        }
        return Base64Url.EncodeToString(packed.ToArray());
    }

    /// <summary>
    /// Null where it is none. Stops where a text would be longer than any that is read: a small link may unpack to gigabytes.
    /// </summary>
    public static string? Read(string packed)
    {
        if (!Base64Url.IsValid(packed))
        {
            return null;
        }
        try
        {
            using var deflate = new DeflateStream(
                new MemoryStream(Base64Url.DecodeFromChars(packed)),
                CompressionMode.Decompress
            );
            var bytes = new byte[Parser.LongestText * sizeof(int) + 1];
            var length = deflate.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
            var text = length < bytes.Length ? TextBytes.Decoded(bytes.AsSpan(0, length)) : null;
            // What is cut off right at its beginning unpacks to nothing, as an emptied text does.
            return text is { Length: <= Parser.LongestText } && (text.Length > 0 || packed == Of(text)) ? text : null;
        }
        catch (InvalidDataException)
        {
            return null;
        }
    }
}
