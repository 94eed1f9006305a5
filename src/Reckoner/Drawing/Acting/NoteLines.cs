namespace Reckoner.Drawing;

/// <summary>
/// Statements at the left of the registers, in lines that leave the room to the figure. A statement that is longer is cut behind
/// an arrow, a comma or a colon, and goes on farther in.
/// </summary>
internal static class NoteLines
{
    private const double Wide = 190;
    private const string Farther = "   ";

    public static IReadOnlyList<string> Of(IEnumerable<string> notes) => [.. notes.SelectMany(Of)];

    private static IEnumerable<string> Of(string note)
    {
        var line = "";
        foreach (var piece in Pieces(note))
        {
            if (line.Trim().Length > 0 && Width(line + piece.TrimEnd()) > Wide)
            {
                yield return line.TrimEnd();
                line = Farther;
            }
            line += piece;
        }
        yield return line.TrimEnd();
    }

    /// <summary>What is never cut, with the mark behind which it ends.</summary>
    private static IEnumerable<string> Pieces(string note)
    {
        var from = 0;
        for (var at = 0; at < note.Length; at++)
        {
            if (note[at] == ':' || (note[at] == ' ' && at > 0 && note[at - 1] is '-' or ','))
            {
                yield return note[from..(at + 1)];
                from = at + 1;
            }
        }
        yield return note[from..];
    }

    public static double Width(string line) => Typeface.Of(Face.Plain).Width(line, PathPage.TextSize);
}
