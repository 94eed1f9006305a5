namespace Reckoner.Tests;

/// <summary>The comments of a text, found by looking at its lines only.</summary>
internal static class CommentTexts
{
    /// <summary>In alphabetical order, without blanks at their end.</summary>
    public static IReadOnlyList<string> Of(string text) =>
        [.. text.Split('\n').Select(OfLine).OfType<string>().Order(StringComparer.Ordinal)];

    private static string? OfLine(string line)
    {
        var isQuoted = false;
        for (var i = 0; i < line.Length; i++)
        {
            isQuoted ^= line[i] == '"';
            if (!isQuoted && line.AsSpan(i).StartsWith("--"))
            {
                return line[i..].TrimEnd();
            }
        }
        return null;
    }
}
