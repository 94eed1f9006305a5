using System.Globalization;
using System.Text.RegularExpressions;
using Reckoner.Diagnostics;

namespace Reckoner.Styles;

/// <summary>
/// Reads a small file that says one thing in each line, the first word saying what; text in double quotes; comments behind two
/// hyphens. One line that is wrong hides no other. Never throws.
/// </summary>
/// <param name="word">Said of a line whose first word is none.</param>
/// <param name="value">Said of a word that is none of those that may stand there.</param>
/// <param name="form">Said of a line that has not its form.</param>
internal abstract partial class LineReader(Source source, Id word, Id value, Id form)
{
    private readonly Dictionary<string, int> first = [];
    private List<LineToken> tokens = [];
    private int at;
    private Span line;
    private LineForm? known;

    /// <summary>A first word of a line, with the form of the line and what reads the rest of it.</summary>
    protected sealed record LineForm(string Word, string Form, Action Read, bool MayRepeat = false);

    protected readonly record struct LineToken(string Text, Span Span, bool IsText);

    /// <summary>What is wrong with a line; the rest of it is not read.</summary>
    protected sealed class LineException : Exception;

    protected Report Report { get; } = new(source);

    protected abstract IReadOnlyList<LineForm> Lines { get; }

    protected void Read()
    {
        if (Report.AddHidden(source.Text, new Span(0, source.Text.Length)))
        {
            return;
        }
        for (var number = 1; number <= source.LineOf(source.Text.Length); number++)
        {
            line = source.LineSpan(number);
            try
            {
                tokens = [.. Tokens()];
                at = 0;
                if (tokens.Count > 0)
                {
                    ReadLine(number);
                }
            }
            catch (LineException)
            {
                // It has been said.
            }
        }
    }

    private IEnumerable<LineToken> Tokens()
    {
        foreach (Match match in Token().Matches(source[line]))
        {
            var span = new Span(line.Start + match.Index, line.Start + match.Index + match.Length);
            if (match.Value.StartsWith("--", StringComparison.Ordinal))
            {
                yield break;
            }
            if (match.Value.StartsWith('"') && (match.Length == 1 || !match.Value.EndsWith('"')))
            {
                throw Wrong(Id.UnclosedQuote, span);
            }
            yield return match.Value.StartsWith('"')
                ? new LineToken(match.Value[1..^1], span, IsText: true)
                : new LineToken(match.Value, span, IsText: false);
        }
    }

    private void ReadLine(int number)
    {
        var begins = Next();
        known = Lines.FirstOrDefault(l => l.Word == begins.Text && !begins.IsText);
        if (known is null)
        {
            throw Wrong(
                word,
                begins.Span,
                ("word", begins.Text),
                ("known", (IReadOnlyList<string>)[.. Lines.Select(l => l.Word)]),
                ("near", NearNames.Of(begins.Text, Lines.Select(l => l.Word)))
            );
        }
        if (!known.MayRepeat && !first.TryAdd(begins.Text, number))
        {
            throw Wrong(Id.SaidTwice, begins.Span, ("word", begins.Text), ("line", first[begins.Text]));
        }
        known.Read();
        if (at < tokens.Count)
        {
            throw Form(tokens[at].Span);
        }
    }

    protected LineException Wrong(Id id, Span span, params ReadOnlySpan<Fact> facts)
    {
        Report.Add(id, span, facts);
        return new LineException();
    }

    protected LineException Form(Span span) =>
        Wrong(
            form,
            span,
            ("found", span.Start >= line.End ? new Term("line-end") : source[span]),
            ("form", known?.Form ?? "")
        );

    /// <summary>The place of the token that comes, or of the end of the line.</summary>
    protected Span Ahead => at < tokens.Count ? tokens[at].Span : new(line.End, line.End);

    /// <summary>The place of the token that was read last.</summary>
    protected Span Before => tokens[at - 1].Span;

    /// <summary>Whether text in quotes comes.</summary>
    protected bool IsText => at < tokens.Count && tokens[at].IsText;

    protected int LineNumber => source.LineOf(line.Start);

    protected Span LineSpan(int number) => source.LineSpan(number);

    protected LineToken Next() => at < tokens.Count ? tokens[at++] : throw Form(Ahead);

    protected bool Takes(string wanted)
    {
        var here = at < tokens.Count && !tokens[at].IsText && tokens[at].Text == wanted;
        at += here ? 1 : 0;
        return here;
    }

    protected void Word(string wanted)
    {
        if (!Takes(wanted))
        {
            throw Form(Ahead);
        }
    }

    protected string Text()
    {
        var token = Next();
        return token.IsText ? token.Text : throw Form(token.Span);
    }

    protected string OneOf(IReadOnlyList<string> names)
    {
        var token = Next();
        return !token.IsText && names.Contains(token.Text)
            ? token.Text
            : throw Wrong(
                value,
                token.Span,
                ("word", tokens[0].Text),
                ("value", token.Text),
                ("known", names),
                ("near", NearNames.Of(token.Text, names))
            );
    }

    protected int Count(int low, int high)
    {
        var token = Next();
        return
            int.TryParse(token.Text, NumberStyles.None, CultureInfo.InvariantCulture, out var count)
            && count >= low
            && count <= high
            ? count
            : throw Form(token.Span);
    }

    [GeneratedRegex("""--.*|"[^"]*"?|[^\s"]+""")]
    private static partial Regex Token();
}
