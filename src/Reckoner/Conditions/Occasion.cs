using Reckoner.Diagnostics;
using Reckoner.Notation;

namespace Reckoner.Conditions;

/// <summary>An outcome of something that is decided: a condition of the description, an arm of a choice, a named value.</summary>
/// <param name="Text">What is decided, without "not" in front, as the description or the condition writes it.</param>
/// <param name="IsTurned">Whether it is not so, where it is decided.</param>
public sealed record Occasion(string Text, bool IsTurned)
{
    public Occasion Opposite => this with { IsTurned = !IsTurned };

    /// <summary>The outcome that a text of a description, such as "not borrow", names.</summary>
    public static Occasion Of(string text) => Of(Tokens(text), text);

    internal static Occasion Of(IReadOnlyList<Token> tokens, string text)
    {
        if (tokens is [{ Kind: TokenKind.Quote } quoted])
        {
            return Of(quoted.Text);
        }
        var (from, to, isTurned) = (0, tokens.Count, false);
        while (to - from > 1)
        {
            if (tokens[from].Is("not") && !HasJoint(tokens, from + 1, to))
            {
                (from, isTurned) = (from + 1, !isTurned);
            }
            else if (tokens[from].Is("(") && Closing(tokens, from) == to - 1)
            {
                (from, to) = (from + 1, to - 1);
            }
            else
            {
                break;
            }
        }
        return new Occasion(from < to ? text[tokens[from].Span.Start..tokens[to - 1].Span.End] : "", isTurned);
    }

    internal static List<Token> Tokens(string text) =>
        [
            .. Lexer
                .Read(new Source("", text), new Report(null))
                .Tokens.Where(t => t.Kind is not (TokenKind.LineEnd or TokenKind.End)),
        ];

    /// <summary>The place of the bracket that closes one; the last place if nothing does.</summary>
    internal static int Closing(IReadOnlyList<Token> tokens, int open)
    {
        var depth = 0;
        for (var i = open; i < tokens.Count; i++)
        {
            depth +=
                tokens[i].Is("(") ? 1
                : tokens[i].Is(")") ? -1
                : 0;
            if (depth == 0)
            {
                return i;
            }
        }
        return tokens.Count - 1;
    }

    private static bool HasJoint(IReadOnlyList<Token> tokens, int from, int to)
    {
        for (var i = from; i < to; i++)
        {
            if (tokens[i].Is("("))
            {
                i = Closing(tokens, i);
            }
            else if (tokens[i] is { Kind: TokenKind.Keyword, Text: "and" or "or" or "xor" or "when" })
            {
                return true;
            }
        }
        return false;
    }

    internal bool IsOneWord => !Text.Contains(' ', StringComparison.Ordinal);

    /// <summary>As it is named: borrow, not borrow, A &lt; 0, not (A &lt; 0).</summary>
    public override string ToString() =>
        !IsTurned ? Text
        : IsOneWord ? $"not {Text}"
        : $"not ({Text})";
}
