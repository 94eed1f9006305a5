using System.Net;
using System.Text.RegularExpressions;
using Xunit;

namespace Reckoner.Tests;

/// <summary>A piece of a production.</summary>
internal abstract record Piece;

/// <summary>A word or sign that stands in the text as it is.</summary>
internal sealed record Literal(string Text) : Piece;

/// <summary>A class of words, such as NAME.</summary>
internal sealed record WordClass(string Name) : Piece;

internal sealed record Reference(string Name) : Piece;

internal sealed record Sequence(IReadOnlyList<Piece> Pieces) : Piece;

internal sealed record Alternatives(IReadOnlyList<Piece> Pieces) : Piece;

/// <summary>Once or not at all; with <paramref name="Again"/> any number of times.</summary>
internal sealed record Optional(Piece Inner, bool Again) : Piece;

/// <summary>Something that stands only in values, or only in formulas.</summary>
internal sealed record Only(Piece Inner, bool InFormulas) : Piece;

/// <summary>
/// A grammar in EBNF. A comment "(* in values *)" or "(* in formulas *)" at the end of an alternative limits it to those; other
/// comments count as blanks.
/// </summary>
internal sealed partial class Grammar
{
    private readonly List<string> tokens;
    private int at;

    private Grammar(string text) => tokens = [.. Token().Matches(text).Select(m => m.Value).Where(IsMeant)];

    /// <summary>The productions by name.</summary>
    public Dictionary<string, Piece> Rules { get; } = [];

    /// <summary>Each production as one line with single blanks.</summary>
    public Dictionary<string, string> Written { get; } = [];

    public static Grammar Read(string text)
    {
        var grammar = new Grammar(text);
        while (grammar.at < grammar.tokens.Count)
        {
            grammar.Rule();
        }
        return grammar;
    }

    /// <summary>The productions in the comments of the parser: those that a comment begins with, before its prose.</summary>
    public static Grammar OfComments(IEnumerable<string> sources)
    {
        var productions = new List<string>();
        foreach (Match summary in sources.SelectMany(source => Summary().Matches(source)))
        {
            var comment = WebUtility.HtmlDecode(LineStart().Replace(summary.Groups["text"].Value, " ")).Trim();
            while (Production().Match(comment) is { Success: true } production)
            {
                productions.Add(production.Value);
                comment = comment[production.Length..].TrimStart();
            }
        }
        return Read(string.Join('\n', productions));
    }

    /// <summary>The words that stand in the text as they are.</summary>
    public IEnumerable<string> Words => Terminals.Where(word => char.IsLetter(word[0])).Order(StringComparer.Ordinal);

    /// <summary>Words and signs that stand in the text as they are.</summary>
    public IEnumerable<string> Terminals => Rules.Values.SelectMany(Literals).Distinct();

    public IEnumerable<string> References => Rules.Values.SelectMany(Named).Distinct();

    private static IEnumerable<string> Literals(Piece piece) =>
        piece is Literal literal ? [literal.Text] : Inside(piece).SelectMany(Literals);

    private static IEnumerable<string> Named(Piece piece) =>
        piece is Reference reference ? [reference.Name] : Inside(piece).SelectMany(Named);

    private static IReadOnlyList<Piece> Inside(Piece piece) =>
        piece switch
        {
            Sequence s => s.Pieces,
            Alternatives a => a.Pieces,
            Optional o => [o.Inner],
            Only o => [o.Inner],
            _ => [],
        };

    private void Rule()
    {
        var first = at;
        var name = Next();
        Need("=");
        var body = Body();
        Need(";");
        Assert.True(Rules.TryAdd(name, body), $"{name} has two productions.");
        Written.Add(name, string.Join(' ', tokens[first..at]));
    }

    private Piece Body()
    {
        var alternatives = new List<Piece> { Alternative() };
        while (Eat("|"))
        {
            alternatives.Add(Alternative());
        }
        return alternatives.Count == 1 ? alternatives[0] : new Alternatives(alternatives);
    }

    private Piece Alternative()
    {
        var pieces = new List<Piece>();
        while (tokens[at] is not ("|" or ";" or ")" or "]" or "}") && !IsLimit(tokens[at]))
        {
            pieces.Add(Factor());
        }
        Piece all = pieces.Count == 1 ? pieces[0] : new Sequence(pieces);
        return IsLimit(tokens[at]) ? new Only(all, Next().Contains("formulas", StringComparison.Ordinal)) : all;
    }

    private Piece Factor()
    {
        var token = Next();
        switch (token)
        {
            case "(":
                return Closed(")", Body());
            case "[":
                return Closed("]", new Optional(Body(), Again: false));
            case "{":
                return Closed("}", new Optional(Body(), Again: true));
        }
        return token[0] == '"' ? new Literal(token[1..^1])
            : char.IsUpper(token[0]) ? new WordClass(token)
            : new Reference(token);
    }

    private Piece Closed(string bracket, Piece piece)
    {
        Need(bracket);
        return piece;
    }

    private string Next() => tokens[at++];

    private bool Eat(string token)
    {
        var eats = tokens[at] == token;
        at += eats ? 1 : 0;
        return eats;
    }

    private void Need(string token) =>
        Assert.True(Eat(token), $"{token} is missing before {string.Join(' ', tokens[at..].Take(9))}");

    private static bool IsLimit(string token) => token is "(* in values *)" or "(* in formulas *)";

    private static bool IsMeant(string token) => !token.StartsWith("(*", StringComparison.Ordinal) || IsLimit(token);

    [GeneratedRegex(@"\(\*.*?\*\)|""[^""]+""|[A-Za-z][A-Za-z-]*|[=|;()\[\]{}]", RegexOptions.Singleline)]
    private static partial Regex Token();

    [GeneratedRegex(@"^[a-z]+ = (?:""[^""]*""|[^"";])*;", RegexOptions.Singleline)]
    private static partial Regex Production();

    [GeneratedRegex(@"<summary>(?<text>.*?)</summary>", RegexOptions.Singleline)]
    private static partial Regex Summary();

    [GeneratedRegex(@"\s*\n\s*///\s*")]
    private static partial Regex LineStart();
}
