using Reckoner.Diagnostics;
using Reckoner.Notation;

namespace Reckoner.Slips;

/// <summary>What goes wrong with a shift: left out, doubled, the other way, another bit enters.</summary>
internal static class ShiftSlips
{
    public static IEnumerable<(Expression Node, string Kind, IReadOnlyList<Fact> Facts)> Of(Call shift)
    {
        var (word, entering) = (shift.Arguments[0], shift.Arguments[1]);
        yield return (word, "shift-left-out", []);
        yield return (
            Shift(shift, shift.Function, Shift(shift, shift.Function, word, entering), entering),
            "shift-doubled",
            []
        );
        yield return (Shift(shift, shift.Function == "shl" ? "shr" : "shl", word, entering), "shift-other-way", []);
        if (entering is BitsLiteral)
        {
            yield break;
        }
        yield return (Shift(shift, shift.Function, word, ValueSlips.Turned(entering)), "other-bit-enters", []);
        if (entering is not NumberLiteral)
        {
            yield return (Shift(shift, shift.Function, word, new NumberLiteral(entering.Span, "0")), "zero-enters", []);
        }
        if (entering is not Call)
        {
            var last = Sliced(word, shift.Function == "shr");
            if (last is not null)
            {
                yield return (Shift(shift, shift.Function, word, last), "leaving-bit-enters", []);
            }
        }
    }

    private static Call Shift(Call like, string function, Expression word, Expression entering) =>
        new(like.Span, like.NameSpan, function, [word, entering]);

    /// <summary>The bit that leaves a right shift stands at place 0; that of a left shift has no short name.</summary>
    private static Sliced? Sliced(Expression word, bool isRight)
    {
        var value = word is Joined ? new Bracketed(word.Span, word) : word;
        return isRight ? new Sliced(word.Span, value, new NumberLiteral(word.Span, "0")) : null;
    }
}
