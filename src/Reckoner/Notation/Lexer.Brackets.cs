using Reckoner.Diagnostics;

namespace Reckoner.Notation;

internal sealed partial class Lexer
{
    private int nextStart;
    private bool nextIsAfresh;

    /// <summary>
    /// What is unfinished swallows line ends, but never a line that can only be a new sentence: one slip must not eat the file. The
    /// answer holds for every line end up to the next word.
    /// </summary>
    private bool NextLineBeginsAfresh()
    {
        if (nextStart <= at)
        {
            nextStart = NextWord(at + 1);
            nextIsAfresh = IsAfresh(nextStart);
        }
        return nextIsAfresh;
    }

    private int NextWord(int start)
    {
        while (start < text.Length && (text[start] is ' ' or '\t' or '\n' || IsComment(start)))
        {
            start = IsComment(start) ? source.LineSpan(source.LineOf(start)).End : start + 1;
        }
        return start;
    }

    private bool IsComment(int start) => string.CompareOrdinal(text, start, "--", 0, 2) == 0;

    private bool IsAfresh(int start)
    {
        var end = start;
        while (end < text.Length && (char.IsLetter(text[end]) || char.IsAsciiDigit(text[end]) || text[end] == '_'))
        {
            end++;
        }
        var word = text[start..end];
        if (word == "case" && tokens[^1].Is("="))
        {
            return false;
        }
        if (start >= text.Length || Keywords.Declarations.Contains(word) || Keywords.Statements.Contains(word))
        {
            return true;
        }
        // Labels go on behind a comma, and the transfer of their arm stands behind them.
        var isLabel = tokens[^1].Is(",") && !char.IsLetter(text[start]);
        return !isLabel && HasArrow(source[source.LineSpan(source.LineOf(start))]);
    }

    private static bool HasArrow(string line)
    {
        var arrow = line.IndexOf("<-", StringComparison.Ordinal);
        var comment = line.IndexOf("--", StringComparison.Ordinal);
        return arrow >= 0 && (comment < 0 || arrow < comment);
    }

    /// <summary>One that closes nothing is passed over; one that leaves an inner bracket open closes that too.</summary>
    private void CloseBracket(string bracket, int start)
    {
        var opener = open.FindLastIndex(o => Closer(o) == bracket);
        if (opener < 0)
        {
            ReportUnmatched(bracket, new Span(start, at));
        }
        else if (opener < open.Count - 1)
        {
            report.Add(Id.UnclosedBracket, open[^1].Span, ("bracket", open[^1].Text));
        }
        // A bracket of the wrong kind was meant for the one that is open.
        var last = opener < 0 ? open.Count - 1 : opener;
        for (var i = open.Count - 1; i >= Math.Max(0, last); i--)
        {
            tokens.Add(new Token(TokenKind.Symbol, Closer(open[i]), new Span(start, at), spaced));
            spaced = false;
            open.RemoveAt(i);
        }
    }

    /// <summary>Said once a line: the first confuses what is read as the partner of the next.</summary>
    private void ReportUnmatched(string bracket, Span span)
    {
        var line = source.LineOf(span.Start);
        if (line != unmatchedLine)
        {
            report.Add(Id.BracketUnmatched, span, ("bracket", bracket));
            unmatchedLine = line;
        }
    }

    private static string Closer(Token opener) => opener.Text == "(" ? ")" : "]";

    private void CloseBrackets()
    {
        if (open.Count > 0)
        {
            report.Add(Id.UnclosedBracket, open[^1].Span, ("bracket", open[^1].Text));
            open.Clear();
        }
    }
}
