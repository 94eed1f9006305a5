using Reckoner.Diagnostics;
using Reckoner.Notation;

namespace Reckoner.Slips;

/// <summary>What goes wrong with a shift: left out, doubled, a place less, the other way, another bit enters.</summary>
internal static class ShiftSlips
{
    public static IEnumerable<(Expression Node, string Kind, IReadOnlyList<Fact> Facts)> Of(Call shift, Scope scope)
    {
        var (word, entering) = (shift.Arguments[0], shift.Arguments[1]);
        yield return (word, "shift-left-out", []);
        yield return (
            Shift(shift, shift.Function, Shift(shift, shift.Function, word, entering), entering),
            "shift-doubled",
            []
        );
        yield return (Shift(shift, shift.Function == "shl" ? "shr" : "shl", word, entering), "shift-other-way", []);
        if (Fewer(entering) is { } fewer)
        {
            yield return (Shift(shift, shift.Function, word, fewer), "shift-short", []);
        }
        if (entering is BitsLiteral)
        {
            yield break;
        }
        yield return (Shift(shift, shift.Function, word, ValueSlips.Turned(entering)), "other-bit-enters", []);
        if (entering is not NumberLiteral)
        {
            yield return (Shift(shift, shift.Function, word, Like(entering, Number(entering, "0"))), "zero-enters", []);
        }
        var isRight = shift.Function == "shr";
        var top = scope.TopOf(word);
        if (isRight && top is not null)
        {
            yield return (Shift(shift, shift.Function, word, Like(entering, top)), "sign-enters", []);
        }
        if ((isRight ? Lowest(word) : top) is { } leaving && entering is not Call)
        {
            yield return (Shift(shift, shift.Function, word, leaving), "leaving-bit-enters", []);
        }
    }

    private static Call Shift(Call like, string function, Expression word, Expression entering) =>
        new(like.Span, like.NameSpan, function, [word, entering]);

    private static NumberLiteral Number(Expression at, string digits) => new(at.Span, digits);

    /// <summary>As many copies of a bit as enter now.</summary>
    private static Expression Like(Expression entering, Expression bit) =>
        entering is Call { Function: "copies" } c
            ? new Call(c.Span, c.NameSpan, c.Function, [bit, c.Arguments[1]])
            : bit;

    /// <summary>One bit less enters, so that the shift goes one place less far; null where one bit enters.</summary>
    private static Expression? Fewer(Expression entering) =>
        entering switch
        {
            BitsLiteral { Digits.Length: > 1 } v => new BitsLiteral(v.Span, "0b" + v.Digits[1..]),
            Call { Function: "copies" } v => new Call(
                v.Span,
                v.NameSpan,
                v.Function,
                [v.Arguments[0], new Binary(v.Span, BinaryOperator.Subtract, v.Arguments[1], Number(v, "1"))]
            ),
            _ => null,
        };

    /// <summary>The bit that leaves a right shift.</summary>
    private static Sliced Lowest(Expression word) =>
        new(word.Span, word is Joined ? new Bracketed(word.Span, word) : word, Number(word, "0"));
}
