using Reckoner.Notation;

namespace Reckoner.Page.State;

/// <summary>A stretch of a description's text: whole lines, in the order of the text.</summary>
/// <param name="Start">Where it begins in the text, and <paramref name="End"/> where it ends, without its last line end.</param>
/// <param name="FirstLine">Counted from 1.</param>
public sealed record Piece(int Start, int End, int FirstLine)
{
    public string In(string text) => text[Start..End];
}

/// <summary>
/// A description cut where its time is cut: what stands above the schedule is of the load, each core, step or repeat of its
/// cycles, what stands below of the results. Blank lines between pieces belong to none.
/// </summary>
public sealed class Cut
{
    private Cut(IReadOnlyList<Piece> pieces, IReadOnlyList<Declaration> scheduled)
    {
        Pieces = pieces;
        Scheduled = scheduled;
    }

    /// <summary>The load first, the results last; a text without schedule is all of the load.</summary>
    public IReadOnlyList<Piece> Pieces { get; }

    /// <summary>What stands in the pieces between the first and the last, in order.</summary>
    public IReadOnlyList<Declaration> Scheduled { get; }

    public static Cut Of(Description description)
    {
        var source = description.Source;
        var declarations = description.Declarations;
        var scheduled = declarations.Where(d => d is CoreBlock or RepeatBlock or StepBlock).ToList();
        var text = source.Text;
        if (scheduled.Count == 0)
        {
            return new Cut([Trimmed(source, 0, text.Length)], []);
        }
        var starts = scheduled.Select(d => WithComments(source, d)).ToList();
        var after = declarations.SkipWhile(d => d != scheduled[^1]).Skip(1).FirstOrDefault();
        starts.Insert(0, 0);
        starts.Add(after is null ? text.Length : WithComments(source, after));
        var ends = starts.Skip(1).Append(text.Length);
        return new Cut([.. starts.Zip(ends, (start, end) => Trimmed(source, start, Math.Max(start, end)))], scheduled);
    }

    /// <summary>The start of the first comment line right above a declaration, or of its own line.</summary>
    private static int WithComments(Source source, Declaration declaration)
    {
        var line = source.LineOf(declaration.Span.Start);
        while (line > 1 && source[source.LineSpan(line - 1)].TrimStart().StartsWith("--", StringComparison.Ordinal))
        {
            line--;
        }
        return source.LineSpan(line).Start;
    }

    private static Piece Trimmed(Source source, int start, int end)
    {
        var text = source.Text;
        while (end > start && text[end - 1] is '\n' or ' ')
        {
            end--;
        }
        while (start < end && text[start] == '\n')
        {
            start++;
        }
        return new Piece(start, end, source.LineOf(start));
    }
}
