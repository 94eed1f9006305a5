namespace Reckoner.Drawing;

/// <summary>
/// Statements at the left of the registers, in lines that leave the room to the figure. A statement that is longer is cut behind
/// an arrow, a comma or a colon where that is enough, and goes on farther in.
/// </summary>
internal static class NoteLines
{
    private const string Farther = "   ";

    /// <param name="wide">How wide a line may be, if it can be cut.</param>
    public static IReadOnlyList<string> Of(IEnumerable<string> notes, double wide) =>
        [.. notes.SelectMany(n => Of(n, wide))];

    private static IEnumerable<string> Of(string note, double wide)
    {
        var line = "";
        foreach (var piece in Pieces(note, wide))
        {
            if (line.Trim().Length > 0 && Width(line + piece.TrimEnd()) > wide)
            {
                yield return line.TrimEnd();
                line = Farther;
            }
            line += piece;
        }
        yield return line.TrimEnd();
    }

    /// <summary>What is not cut, with the mark behind which it ends; a piece that is longer than a line ends at blanks.</summary>
    private static IEnumerable<string> Pieces(string note, double wide) =>
        Cut(note, at => note[at] == ':' || (note[at] == ' ' && at > 0 && note[at - 1] is '-' or ','))
            .SelectMany(p => Width(p) <= wide ? [p] : Cut(p, at => p[at] == ' '));

    private static IEnumerable<string> Cut(string text, Func<int, bool> isEnd)
    {
        var from = 0;
        for (var at = 0; at < text.Length; at++)
        {
            if (isEnd(at))
            {
                yield return text[from..(at + 1)];
                from = at + 1;
            }
        }
        yield return text[from..];
    }

    public static double Width(string line) => Typeface.Of(Face.Plain).Width(line, PathPage.TextSize);
}
