using System.Text.RegularExpressions;

namespace Reckoner.Invariants;

/// <summary>A word or a sign of an invariant; the last one is empty.</summary>
internal sealed partial record InvariantToken(string Text, Span Span)
{
    public bool IsNumber => Text.Length > 0 && char.IsAsciiDigit(Text[0]);

    public bool IsName => Text.Length > 0 && char.IsLetter(Text[0]);

    /// <summary>The tokens of a text; characters that belong to none are tokens of their own, which nothing expects.</summary>
    public static IReadOnlyList<InvariantToken> Of(string text) =>
        [
            .. Words().Matches(text).Select(m => new InvariantToken(m.Value, new Span(m.Index, m.Index + m.Length))),
            new("", new Span(text.Length, text.Length)),
        ];

    [GeneratedRegex(@"[0-9]+|\p{L}[\p{L}0-9_]*|\.\.|<=|>=|\S")]
    private static partial Regex Words();
}
