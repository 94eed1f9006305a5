using Reckoner.Drawing;

namespace Reckoner.Documents;

/// <summary>A word, or a blank between words, at its place in a line.</summary>
internal readonly record struct Piece(string Words, Face Face, double Left);

/// <summary>Breaks text into lines that fit a width.</summary>
internal static class Setting
{
    public static IReadOnlyList<IReadOnlyList<Piece>> Lines(IReadOnlyList<Run> runs, double width, double size)
    {
        var lines = new List<IReadOnlyList<Piece>>();
        var line = new List<Piece>();
        var at = 0.0;
        var blank = 0.0;
        foreach (var word in runs.SelectMany(r => Words(r, size, width)))
        {
            if (word.Words.Trim().Length == 0)
            {
                blank = word.Words == "\n" ? width : blank + Typeface.Of(word.Face).Width(" ", size);
                continue;
            }
            var wide = Typeface.Of(word.Face).Width(word.Words, size);
            // A word that goes on in another face is not torn from its beginning.
            if (line.Count > 0 && at + blank + wide > width)
            {
                lines.Add(line);
                line = [];
                at = 0;
                blank = 0;
            }
            at += line.Count == 0 ? 0 : blank;
            line.Add(new Piece(word.Words, word.Face, at));
            at += wide;
            blank = 0;
        }
        lines.Add(line);
        return lines;
    }

    /// <summary>Words and the blanks between them; a word wider than the line is cut where the line ends.</summary>
    private static IEnumerable<Run> Words(Run run, double size, double width)
    {
        var start = 0;
        for (var i = 1; i <= run.Words.Length; i++)
        {
            var ends = i == run.Words.Length || IsBlank(run.Words[i]) != IsBlank(run.Words[i - 1]);
            if (ends || Typeface.Of(run.Face).Width(run.Words[start..(i + 1)], size) > width)
            {
                yield return run with
                {
                    Words = run.Words[start..i],
                };
                start = i;
            }
        }
    }

    private static bool IsBlank(char c) => c is ' ' or '\n';
}
