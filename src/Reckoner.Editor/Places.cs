namespace Reckoner.Editor;

/// <summary>Places of the protocol, a line and a character of it, as positions in a text and back. What lies outside is taken to the nearest.</summary>
internal static class Places
{
    public static Position Of(Source source, int position)
    {
        var line = source.LineOf(Math.Clamp(position, 0, source.Text.Length));
        return new Position(line - 1, Math.Clamp(position, 0, source.Text.Length) - source.LineSpan(line).Start);
    }

    public static TextRange Of(Source source, Span span) =>
        new(Of(source, span.Start), Of(source, Math.Max(span.Start, span.End)));

    public static int At(Source source, Position place)
    {
        var last = source.LineOf(source.Text.Length);
        if (place.Line < 0 || place.Line >= last)
        {
            return place.Line < 0 ? 0 : source.Text.Length;
        }
        var line = source.LineSpan(place.Line + 1);
        // Editors write the end of a line as the largest number there is.
        return line.Start + Math.Clamp(place.Character, 0, line.End - line.Start);
    }

    public static TextRange Whole(Source source) => Of(source, new Span(0, source.Text.Length));
}
