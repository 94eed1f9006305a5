using Reckoner.Documents.Lessons.Formulas;
using Reckoner.Drawing;

namespace Reckoner.Documents;

/// <summary>A word, a formula, or a blank between words, at its place in a line.</summary>
internal readonly record struct Piece(string Words, Face Face, double Left)
{
    /// <summary>What is drawn in the place of the words.</summary>
    public FormulaDrawing? Drawing { get; init; }

    /// <summary>The room that it takes at least.</summary>
    public double Least { get; init; }

    public double Width(double size) => Math.Max(Least, Drawing?.Width ?? Typeface.Of(Face).Width(Words, size));
}

/// <summary>A line of text; formulas may need more room above and below it than letters do.</summary>
internal sealed record SetLine(IReadOnlyList<Piece> Pieces, double Over, double Under)
{
    public const double Leading = 1.45;

    public double Height(double size) => size * Leading + Over + Under;
}

/// <summary>Breaks text into lines that fit a width.</summary>
internal static class Setting
{
    /// <summary>So far, in shares of the size, a line's letters may reach above it and below it.</summary>
    private const double Above = 0.95;
    private const double Below = 0.4;

    public static IReadOnlyList<SetLine> Lines(IReadOnlyList<Run> runs, double width, double size)
    {
        var lines = new List<SetLine>();
        var line = new List<Piece>();
        var at = 0.0;
        var blank = 0.0;
        foreach (var word in runs.SelectMany(r => Words(r, size, width)))
        {
            if (word.Formula is null && word.InPlaceOf is null && word.Words.Trim(' ', '\n').Length == 0)
            {
                blank = word.Words == "\n" ? width : blank + Typeface.Of(word.Face).Width(" ", size);
                continue;
            }
            var piece = new Piece(word.Words, word.Face, 0)
            {
                Drawing = word.Formula is { } formula ? FormulaSetting.Of(formula, size, isDisplay: false) : null,
                Least = word.InPlaceOf is { } other ? Typeface.Of(other.Face).Width(other.Words, size) : 0,
            };
            var wide = piece.Width(size);
            // A word that goes on in another face is not torn from its beginning.
            if (line.Count > 0 && at + blank + wide > width)
            {
                lines.Add(Of(line, size));
                line = [];
                at = 0;
                blank = 0;
            }
            at += line.Count == 0 ? 0 : blank;
            line.Add(piece with { Left = at });
            at += wide;
            blank = 0;
        }
        lines.Add(Of(line, size));
        return lines;
    }

    public static double Height(IReadOnlyList<SetLine> lines, double size) => lines.Sum(l => l.Height(size));

    private static SetLine Of(List<Piece> pieces, double size)
    {
        var drawings = pieces.Select(p => p.Drawing).OfType<FormulaDrawing>().ToList();
        return new SetLine(
            pieces,
            drawings.Select(d => d.Up - Above * size).Append(0).Max(),
            drawings.Select(d => d.Down - Below * size).Append(0).Max()
        );
    }

    /// <summary>Words and the blanks between them; a word wider than the line is cut where the line ends.</summary>
    private static IEnumerable<Run> Words(Run run, double size, double width)
    {
        if (run.Formula is not null || run.InPlaceOf is not null)
        {
            yield return run;
            yield break;
        }
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
