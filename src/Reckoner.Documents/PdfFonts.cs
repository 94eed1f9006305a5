using PdfSharp.Fonts;
using Reckoner.Drawing;

namespace Reckoner.Documents;

/// <summary>Hands the bundled fonts to the PDF library; no other is ever asked of the system.</summary>
internal sealed class PdfFonts : IFontResolver
{
    private static readonly Lock Gate = new();

    /// <summary>The library has one place for fonts in a process.</summary>
    public static void Install()
    {
        lock (Gate)
        {
            if (GlobalFontSettings.FontResolver is not PdfFonts)
            {
                GlobalFontSettings.FontResolver = new PdfFonts();
            }
        }
    }

    /// <summary>The name under which a face is asked for.</summary>
    public static string Name(Face face) => face.ToString();

    public FontResolverInfo? ResolveTypeface(string familyName, bool isBold, bool isItalic) =>
        Enum.TryParse<Face>(familyName, out _) ? new FontResolverInfo(familyName) : null;

    public byte[]? GetFont(string faceName) =>
        Enum.TryParse<Face>(faceName, out var face) ? Typeface.Of(face).Bytes.ToArray() : null;
}
