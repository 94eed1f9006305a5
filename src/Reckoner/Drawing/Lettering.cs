namespace Reckoner.Drawing;

/// <summary>A line of text as the outlines of its letters.</summary>
internal static class Lettering
{
    public static IEnumerable<PathStep> Of(Text text)
    {
        var typeface = Typeface.Of(text.Face);
        var x = text.Box.Left;
        foreach (var c in text.Words)
        {
            var font = typeface.For(c).Font;
            var glyph = font.Glyph(c);
            foreach (var step in font.Outline(glyph, new Point(x, text.At.Y), text.Size))
            {
                yield return step;
            }
            x += font.Advance(glyph) * text.Size;
        }
    }
}
