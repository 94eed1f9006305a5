using Reckoner.Running;

namespace Reckoner.Documents.Lessons;

/// <summary>Writes new numbers into the text of a lesson and leaves every other character as it was, line ends too.</summary>
internal static class Refreshing
{
    /// <param name="original">The file's text as it is, before line ends were made alike.</param>
    public static string Of(string original, Source source, IEnumerable<(RequestWord Place, string Text)> changes)
    {
        var text = source.Text;
        foreach (var (place, now) in changes.OrderByDescending(c => c.Place.Span.Start))
        {
            text = text[..place.Span.Start] + now + text[place.Span.End..];
        }
        return WithLineEnds(text, original);
    }

    /// <summary>No change adds or takes away a line, so each keeps the end it had.</summary>
    private static string WithLineEnds(string text, string original)
    {
        var lines = text.Split('\n');
        var at = 0;
        for (var i = 0; i < lines.Length - 1; i++)
        {
            var end = original.IndexOfAny(['\r', '\n'], at);
            var length = original[end] == '\r' && end + 1 < original.Length && original[end + 1] == '\n' ? 2 : 1;
            lines[i] += original.Substring(end, length);
            at = end + length;
        }
        return string.Concat(lines);
    }
}
