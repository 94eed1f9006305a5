using Reckoner.Diagnostics;

namespace Reckoner.Notation;

/// <summary>Cuts a text into tokens; comments are kept apart, line ends that do not end a sentence are dropped.</summary>
internal sealed partial class Lexer
{
    /// <summary>The longest number or row of digits that is read; nothing in the field needs more.</summary>
    public const int LongestLiteral = 4096;

    private static readonly string[] Symbols =
    [
        "<-",
        "..",
        "<=",
        ">=",
        "<>",
        "=",
        "<",
        ">",
        "+",
        "-",
        "*",
        "/",
        "^",
        "(",
        ")",
        "[",
        "]",
        ",",
        ":",
    ];

    private readonly string text;
    private readonly Source source;
    private readonly Report report;
    private readonly List<Token> tokens = [];
    private readonly List<Comment> comments = [];
    private readonly List<Token> open = [];
    private int at;
    private int unmatchedLine;
    private bool spaced = true;

    private Lexer(Source source, Report report)
    {
        this.source = source;
        this.report = report;
        text = source.Text;
    }

    public static (List<Token> Tokens, List<Comment> Comments) Read(Source source, Report report)
    {
        var lexer = new Lexer(source, report);
        lexer.Run();
        return (lexer.tokens, lexer.comments);
    }

    private bool AtLineStart => tokens.Count == 0 || tokens[^1].Kind == TokenKind.LineEnd;

    private void Run()
    {
        if (text.StartsWith('\uFEFF'))
        {
            at = 1;
        }
        while (at < text.Length)
        {
            Next();
        }
        CloseBrackets();
        if (!AtLineStart)
        {
            Add(TokenKind.LineEnd, text.Length, text.Length);
        }
        Add(TokenKind.End, text.Length, text.Length);
    }

    private void Next()
    {
        var c = text[at];
        if (c is ' ' or '\t')
        {
            at++;
            spaced = true;
        }
        else if (c == '\n')
        {
            LineEnd();
        }
        else if (c == '-' && Peek(1) == '-')
        {
            ReadComment();
        }
        else if (c == '"')
        {
            ReadQuote();
        }
        else if (c == '0' && Peek(1) is 'b' or 'B' && Peek(2) is '0' or '1' or 'x' or 'X' or '_')
        {
            ReadBits();
        }
        else if (char.IsAsciiDigit(c))
        {
            ReadNumber();
        }
        else if (char.IsLetter(c))
        {
            ReadWord();
        }
        else if (IsOfPath(c) && tokens.Count > 0 && NamesMachine(tokens[^1]))
        {
            ReadPath(at);
        }
        else
        {
            ReadSymbol();
        }
    }

    private char Peek(int ahead) => at + ahead < text.Length ? text[at + ahead] : '\0';

    private void Add(TokenKind kind, int start, int end)
    {
        tokens.Add(new Token(kind, text[start..end], new Span(start, end), spaced));
        spaced = false;
    }

    /// <summary>A line ends its sentence unless a bracket is open or its last word leaves it unfinished.</summary>
    private void LineEnd()
    {
        var isUnfinished = open.Count > 0 || (!AtLineStart && IsUnfinished(tokens[^1]));
        if (!isUnfinished || NextLineBeginsAfresh())
        {
            CloseBrackets();
            if (!AtLineStart)
            {
                Add(TokenKind.LineEnd, at, at);
            }
        }
        at++;
        spaced = true;
    }

    private static bool IsUnfinished(Token last) =>
        last.Kind is TokenKind.Symbol or TokenKind.Keyword && Keywords.Unfinished.Contains(last.Text);

    private void ReadComment()
    {
        var start = at;
        while (at < text.Length && text[at] != '\n')
        {
            at++;
        }
        report.AddHidden(text, new Span(start, at));
        var line = source.LineOf(start);
        var ownLine = string.IsNullOrWhiteSpace(text[source.LineSpan(line).Start..start].TrimStart('\uFEFF'));
        comments.Add(new Comment(text[start..at].TrimEnd(), line, ownLine));
        spaced = true;
    }

    private void ReadQuote()
    {
        var start = at++;
        while (at < text.Length && text[at] is not ('"' or '\n'))
        {
            at++;
        }
        report.AddHidden(text, new Span(start, at));
        if (Peek(0) != '"')
        {
            report.Add(Id.UnclosedQuote, new Span(start, at));
            tokens.Add(new Token(TokenKind.Quote, text[(start + 1)..at].TrimEnd(), new Span(start, at), spaced));
        }
        else
        {
            at++;
            tokens.Add(new Token(TokenKind.Quote, text[(start + 1)..(at - 1)], new Span(start, at), spaced));
        }
        spaced = false;
    }

    private void ReadBits()
    {
        var start = at;
        at += 2;
        while (Peek(0) is '0' or '1' or 'x' or 'X' or '_')
        {
            at++;
        }
        AddLiteral(TokenKind.Bits, start);
    }

    private void ReadNumber()
    {
        var start = at;
        while (char.IsAsciiDigit(Peek(0)) || Peek(0) == '_')
        {
            at++;
        }
        AddLiteral(TokenKind.Number, start);
    }

    private void AddLiteral(TokenKind kind, int start)
    {
        if (at - start > LongestLiteral)
        {
            report.Add(Id.LiteralTooLong, new Span(start, at), ("digits", at - start), ("limit", LongestLiteral));
            tokens.Add(new Token(kind, kind == TokenKind.Bits ? "0b0" : "0", new Span(start, at), spaced));
            spaced = false;
        }
        else
        {
            CheckUnderscores(kind, start);
            Add(kind, start, at);
        }
    }

    /// <summary>As in an operand: a single underscore between two digits. Elsewhere one may stand for a digit forgotten.</summary>
    private void CheckUnderscores(TokenKind kind, int start)
    {
        var literal = text[start..at];
        var prefix = kind == TokenKind.Bits ? literal[..2] : "";
        var groups = literal[prefix.Length..].Split('_');
        if (groups.Contains(""))
        {
            var mended = prefix + string.Join('_', groups.Where(g => g.Length > 0));
            report.Add(
                Id.UnderscorePlace,
                new Span(start, at),
                ("literal", literal),
                ("mended", mended == prefix ? prefix + "0" : mended)
            );
        }
    }

    private void ReadWord()
    {
        var hyphens = tokens.Count > 0 && NamesMachine(tokens[^1]);
        var start = at;
        while (char.IsLetter(Peek(0)) || char.IsAsciiDigit(Peek(0)) || Peek(0) == '_' || (hyphens && IsInnerHyphen()))
        {
            at++;
        }
        if (hyphens && IsOfPath(Peek(0)))
        {
            ReadPath(start);
            return;
        }
        var isKeyword = !hyphens && Keywords.All.Contains(text[start..at]);
        Add(isKeyword ? TokenKind.Keyword : TokenKind.Name, start, at);
    }

    /// <summary>Only after these words, misspelt or not, at the start of a line, does a hyphen belong to the name.</summary>
    private bool NamesMachine(Token last)
    {
        if (tokens.Count > 1 && tokens[^2].Kind != TokenKind.LineEnd)
        {
            return false;
        }
        return last.Kind switch
        {
            TokenKind.Keyword => last.Text is "machine" or "follows" or "core",
            TokenKind.Name => NearNames.Of(last.Text, Keywords.Declarations) is ["machine" or "follows" or "core", ..],
            _ => false,
        };
    }

    /// <summary>What stands in the names of files and not in those of machines.</summary>
    private static bool IsOfPath(char c) => c is '.' or '/' or '\\' or '~';

    /// <summary>The name of a file in the place of a machine's: read as that of the machine in it, so that nothing else is said.</summary>
    private void ReadPath(int start)
    {
        while (at < text.Length && !char.IsWhiteSpace(text[at]) && text[at] != '"')
        {
            at++;
        }
        var path = new Span(start, at);
        var name = text[start..at].Split('/', '\\')[^1].Split('.')[0];
        var isName =
            name.Length > 0 && char.IsLetter(name[0]) && name.All(c => char.IsLetterOrDigit(c) || c is '-' or '_');
        report.Add(
            Id.NameNotFile,
            path,
            ("path", Excerpt.Of(text[start..at])),
            ("name", isName ? Excerpt.Of(name) : "divide-by-hand")
        );
        tokens.Add(new Token(TokenKind.Name, isName ? name : "", path, spaced));
        spaced = false;
    }

    private bool IsInnerHyphen() => Peek(0) == '-' && (char.IsLetter(Peek(1)) || char.IsAsciiDigit(Peek(1)));

    private void ReadSymbol()
    {
        if (text[at] == ':' && Peek(1) == '=')
        {
            ReadAssignment();
            return;
        }
        foreach (var symbol in Symbols)
        {
            if (string.CompareOrdinal(text, at, symbol, 0, symbol.Length) == 0)
            {
                at += symbol.Length;
                var start = at - symbol.Length;
                if (symbol is ")" or "]")
                {
                    CloseBracket(symbol, start);
                    return;
                }
                Add(TokenKind.Symbol, start, at);
                if (symbol is "(" or "[")
                {
                    open.Add(tokens[^1]);
                }
                return;
            }
        }
        ReadOddCharacters();
    }

    /// <summary>Read as what was meant, so that what else is wrong on the line is said with it.</summary>
    private void ReadAssignment()
    {
        var place = new Span(at, at + 2);
        at += 2;
        var first = tokens.FindLastIndex(t => t.Kind == TokenKind.LineEnd) + 1;
        var isNamed = first < tokens.Count && tokens[first].Kind == TokenKind.Keyword;
        var meant = isNamed ? "=" : "<-";
        report.Add(Id.AssignmentSign, place, ("literal", ":="), ("mended", meant));
        tokens.Add(new Token(TokenKind.Symbol, meant, place, spaced));
        spaced = false;
    }

    /// <summary>A run of meaningless characters is one slip and gets one message.</summary>
    private void ReadOddCharacters()
    {
        if (report.AddHidden(text, new Span(at, at + 1)))
        {
            while (at < text.Length && HiddenCharacters.IsHidden(text, at))
            {
                at++;
            }
            return;
        }
        var start = at;
        do
        {
            at++;
        } while (at < text.Length && IsOdd(text[at]) && !HiddenCharacters.IsHidden(text, at));
        var odd = text[start..at];
        if (odd == "%")
        {
            report.Add(Id.NoRemainder, new Span(start, at), ("word", odd));
            return;
        }
        report.Add(Id.OddCharacter, new Span(start, at), ("character", HiddenCharacters.Named(odd)));
    }

    private static bool IsOdd(char c) =>
        c is not (' ' or '\t' or '\n' or '"')
        && !char.IsLetter(c)
        && !char.IsAsciiDigit(c)
        && !Symbols.Any(symbol => symbol[0] == c);
}
