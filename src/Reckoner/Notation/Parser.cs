using Reckoner.Diagnostics;

namespace Reckoner.Notation;

/// <summary>
/// Reads a description by recursive descent. After a slip the rest of its line is passed over and reading goes on with the
/// next, so that one pass finds every slip; a misspelt first word is read as the word it is nearest to.
/// </summary>
internal sealed partial class Parser
{
    /// <summary>How deep brackets, blocks and chains of operators may nest.</summary>
    public const int DeepestNesting = 200;

    /// <summary>How deep blocks alone may nest, so that there is room for values inside them.</summary>
    public const int DeepestBlocks = 100;

    /// <summary>The longest text that is read, in characters.</summary>
    public const int LongestText = 200_000;

    private readonly Source source;
    private readonly Report report;
    private readonly List<Token> tokens;
    private readonly List<Comment> comments;
    private readonly HashSet<int> spoiltLines;
    private readonly HashSet<string> torn = [];
    private int at;
    private int nextComment;
    private int depth;
    private int extraEndsForgiven;
    private bool endsUncounted;
    private bool lost;
    private bool inFormula;

    private Parser(Source source, Report report)
    {
        this.source = source;
        this.report = report;
        (tokens, comments) = Lexer.Read(source, report);
        spoiltLines = [.. report.InOrder().Select(d => d.Line)];
    }

    /// <summary>The description and what is wrong with its sentences; never throws on any text.</summary>
    public static (Description Description, IReadOnlyList<Diagnostic> Diagnostics) Read(Source source)
    {
        var report = new Report(source);
        if (source.Text.Length > LongestText)
        {
            report.Add(Id.DescriptionTooLong, new Span(0, 0), ("length", source.Text.Length), ("limit", LongestText));
            return (new Description(source, [], [], new HashSet<string>()), report.InOrder());
        }
        var parser = new Parser(source, report);
        var declarations = parser.Declarations();
        var tail = parser.Above();
        return (new Description(source, declarations, tail, parser.torn), report.InOrder());
    }

    /// <summary>A formula that is a text of its own, such as a condition in a request; null, and reported, where it is none.</summary>
    internal static Expression? FormulaAlone(Source source, Report report)
    {
        var parser = new Parser(source, report);
        var formula = parser.Formula();
        if (parser.Now.Kind is not (TokenKind.LineEnd or TokenKind.End))
        {
            parser.FailToEnd();
        }
        return report.HasErrors || parser.lost ? null : formula;
    }

    // ---- the place in the text

    /// <summary>The token here; on a line that is given up, its end.</summary>
    private Token Now => lost ? new Token(TokenKind.LineEnd, "", new Span(Before, Before), false) : tokens[at];

    private int Before => at > 0 ? tokens[at - 1].Span.End : 0;

    private bool AtEnd => tokens[at].Kind == TokenKind.End;

    private Span From(int start) => new(start, Math.Max(start, Before));

    private bool Eat(string text)
    {
        if (!Now.Is(text))
        {
            return false;
        }
        at++;
        return true;
    }

    /// <param name="form">The sentence it is a word of; the words show it under "form.".</param>
    private void Need(string text, string form)
    {
        if (Eat(text))
        {
            return;
        }
        if (IsValueStart(Now) && LineHas(text))
        {
            // It is there; something else is missing before it.
            FailToEnd();
            return;
        }
        Fail(Id.WordExpected, Now.Span, ("expected", text), ("found", Found()), ("form", new Term("form." + form)));
    }

    // ---- lines and their comments

    /// <summary>The comment lines above the line that begins here.</summary>
    private List<string> Above()
    {
        var line = source.LineOf(tokens[at].Span.Start);
        var above = new List<string>();
        while (nextComment < comments.Count && (comments[nextComment].Line < line || AtEnd))
        {
            above.Add(comments[nextComment++].Text);
        }
        return above;
    }

    /// <summary>Passes over the line's end. A comment inside a sentence of several lines moves above it.</summary>
    private Comments EndLine(List<string> above)
    {
        if (Now.Kind == TokenKind.Keyword && (Keywords.Statements.Contains(Now.Text) || Now.Text == "step"))
        {
            // Only the line end is missing.
            FailToEnd();
            lost = false;
            return Comments.None;
        }
        if (Now.Kind is not (TokenKind.LineEnd or TokenKind.End))
        {
            FailToEnd();
        }
        PassLine();
        var line = source.LineOf(tokens[at].Span.Start);
        lost = false;
        if (!AtEnd)
        {
            at++;
        }
        string? beside = null;
        while (nextComment < comments.Count && comments[nextComment].Line <= line)
        {
            var comment = comments[nextComment++];
            if (comment.Line == line && !comment.OwnLine)
            {
                beside = comment.Text;
            }
            else
            {
                above.Add(comment.Text);
            }
        }
        return above.Count == 0 && beside is null ? Comments.None : new Comments(above, beside);
    }

    private void PassLine()
    {
        while (tokens[at].Kind is not (TokenKind.LineEnd or TokenKind.End))
        {
            at++;
        }
    }

    private bool TooDeep(int more, int limit = DeepestNesting)
    {
        if (depth + more <= limit)
        {
            return false;
        }
        Fail(Id.NestingTooDeep, Now.Span, ("limit", limit));
        return true;
    }

    /// <summary>Passes over blocks that nest too deep, to the next declaration; their ends are counted no longer.</summary>
    private void PassOverBlocks()
    {
        lost = false;
        endsUncounted = true;
        while (!AtEnd && !(tokens[at - 1].Kind == TokenKind.LineEnd && BeginsDeclaration(tokens[at])))
        {
            at++;
        }
    }

    private static bool BeginsDeclaration(Token token) =>
        token.Kind == TokenKind.Keyword && token.Text != "note" && Keywords.Declarations.Contains(token.Text);

    // ---- small things

    private Declared Name()
    {
        var token = Now;
        if (token.Kind == TokenKind.Name)
        {
            at++;
            return new Declared(token.Span, token.Text);
        }
        if (token.Kind == TokenKind.Keyword)
        {
            Fail(Id.ReservedWord, token.Span, ("word", token.Text));
        }
        else
        {
            Fail(Id.NameExpected, token.Span, ("found", Found()));
            torn.Add("");
        }
        return new Declared(token.Span, "");
    }

    /// <summary>phrase = STRING { NAME STRING } ; the names are language tags.</summary>
    private Phrase NeedPhrase()
    {
        if (Now.Kind == TokenKind.Quote)
        {
            return OptionalPhrase()!;
        }
        Fail(Id.QuoteExpected, Now.Span, ("found", Found()));
        return new Phrase(Now.Span, "", []);
    }

    private Phrase? OptionalPhrase()
    {
        if (Now.Kind != TokenKind.Quote)
        {
            return null;
        }
        var first = Now;
        at++;
        var others = InOtherLanguages();
        return new Phrase(From(first.Span.Start), first.Text, others);
    }

    /// <summary>named = NAME { NAME STRING } ; the names behind the first are language tags.</summary>
    private Declared Named()
    {
        var name = Name();
        return Now.Kind == TokenKind.Name ? name with { Others = InOtherLanguages() } : name;
    }

    private List<(string Language, string Text)> InOtherLanguages()
    {
        var others = new List<(string, string)>();
        while (Now.Kind == TokenKind.Name && tokens[at + 1].Kind == TokenKind.Quote)
        {
            others.Add((Now.Text, tokens[at + 1].Text));
            at += 2;
        }
        return others;
    }

    /// <summary>type = [ "signed" ] number ;</summary>
    private TypeSyntax Type()
    {
        var start = Now.Span.Start;
        var signed = Eat("signed");
        var width = FormulaSum();
        return new TypeSyntax(From(start), signed, width);
    }
}
