namespace Reckoner.Notation;

internal enum TokenKind
{
    Name,
    Keyword,
    Number,
    Bits,
    Quote,
    Symbol,
    LineEnd,
    End,
}

/// <summary>One word of the text. <see cref="Spaced"/>: white space stands before it, which tells 2n from 2 n and A[0] from A [0].</summary>
internal readonly record struct Token(TokenKind Kind, string Text, Span Span, bool Spaced)
{
    public bool Is(string text) => Kind is TokenKind.Keyword or TokenKind.Symbol && Text == text;
}

/// <summary>A comment with the line it stands on and whether anything stands before it there.</summary>
internal readonly record struct Comment(string Text, int Line, bool OwnLine);
