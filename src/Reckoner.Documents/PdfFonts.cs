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

    private const string Signs = "Signs";

    private static readonly Dictionary<string, Typeface> Typefaces = Enum.GetValues<Face>()
        .ToDictionary(f => f.ToString(), Typeface.Of)
        .Append(new(Signs, Typeface.Signs))
        .ToDictionary();

    /// <summary>The name under which a typeface is asked for.</summary>
    public static string Name(Typeface typeface) => Typefaces.First(t => t.Value == typeface).Key;

    public FontResolverInfo? ResolveTypeface(string familyName, bool isBold, bool isItalic) =>
        Typefaces.ContainsKey(familyName) ? new FontResolverInfo(familyName) : null;

    public byte[]? GetFont(string faceName) => Typefaces.GetValueOrDefault(faceName)?.Bytes.ToArray();
}
