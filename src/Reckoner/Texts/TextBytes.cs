using System.Text;

namespace Reckoner.Texts;

/// <summary>Bytes as a text, if they are one.</summary>
internal static class TextBytes
{
    private static readonly UTF8Encoding Strict = new(
        encoderShouldEmitUTF8Identifier: false,
        throwOnInvalidBytes: true
    );

    /// <summary>Null where the bytes are no UTF-8, or hold a NUL, which no text has.</summary>
    public static string? Decoded(ReadOnlySpan<byte> bytes)
    {
        try
        {
            var text = Strict.GetString(bytes);
            return text.Contains('\0', StringComparison.Ordinal)
                ? null
                : text.TrimStart('\uFEFF').ReplaceLineEndings("\n");
        }
        catch (DecoderFallbackException)
        {
            return null;
        }
    }
}
