using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Documents.Lessons;
using Reckoner.Explaining;
using Reckoner.Numbers;
using Reckoner.Running;

namespace Reckoner.Documents.Marking;

/// <summary>Judges what stands in single places: numbers, digits of registers, rows, letters. Every right answer counts.</summary>
internal static class FieldJudge
{
    /// <summary>
    /// Bits of a number in decimal, with or without a sign, behind 0b or 0x, or digits 0 and 1 as many as there are bits; null for
    /// what is none.
    /// </summary>
    public static BigInteger? BitsOf(string typed, int width)
    {
        var text = Plain(typed);
        if (text.Length == width && width > 1 && text.All(c => c is '0' or '1'))
        {
            return HandCell.Of(text, width, [])?.Bits;
        }
        return OperandReader.Number(text) is not { } number ? null
            : Bits.Fits(number, width, isSigned: false) || Bits.Fits(number, width, isSigned: true)
                ? Bits.Wrap(number, width)
            // A number that no bits of the result stand for is no other number.
            : number;
    }

    /// <summary>
    /// What a text may stand for: its <see cref="BitsOf"/>, and where it is fewer digits 0 and 1 than there are bits, those too. None
    /// where it cannot be read.
    /// </summary>
    public static IReadOnlyList<BigInteger> Readings(string typed, int width)
    {
        List<BigInteger?> readings = [BitsOf(typed, width), ShortBits(typed, width)];
        return [.. readings.OfType<BigInteger>().Distinct()];
    }

    /// <summary>Digits 0 and 1 as bits, zeros in front left out; null where it is no such text.</summary>
    private static BigInteger? ShortBits(string typed, int width)
    {
        var text = Plain(typed);
        return text.Length > 1 && text.Length < width && text.All(c => c is '0' or '1')
            ? HandCell.Of(text, width, [])?.Bits
            : null;
    }

    /// <summary>One of each, in every way.</summary>
    public static IEnumerable<IReadOnlyList<T>> Combinations<T>(IEnumerable<IReadOnlyList<T>> each) =>
        each.Aggregate(
            (IEnumerable<IReadOnlyList<T>>)
                [
                    [],
                ],
            (all, one) => all.SelectMany(a => one.Select(o => (IReadOnlyList<T>)[.. a, o]))
        );

    /// <summary>Without blanks, and with one kind of minus sign.</summary>
    public static string Plain(string typed) =>
        string.Concat(typed.Where(c => !char.IsWhiteSpace(c) && c != '\''))
            .Replace('\u2212', '-')
            .Replace('\u2013', '-');

    /// <summary>A number of a walk, or what a register holds, by the name under which it was asked for.</summary>
    public static MarkedPlace Said(AnsweredField field, string typed, Walk walk)
    {
        var standing = typed.Length == 0 ? PlaceStanding.Empty : Standing(field, typed, walk);
        return new MarkedPlace(field, typed, standing, field.Expected);
    }

    private static PlaceStanding Standing(AnsweredField field, string typed, Walk walk)
    {
        var target = new RequestWord(field.Name, default);
        if (LessonValue.Of(target, walk, new Diagnostics.Report(null)) is not { } value)
        {
            return Same(typed, field.Expected) == PlaceStanding.Right ? PlaceStanding.Right : PlaceStanding.Unread;
        }
        var text = Plain(typed);
        if (value.IsSaidBy(text) || IsSaidInBits(value, text))
        {
            return PlaceStanding.Right;
        }
        var isBits = value.Width > 0 && Plain(value.Spelled) == Bits.Text(value.Bits, value.Width) && value.Width > 1;
        if (isBits && HandCell.Of(text, value.Width, []) is { } word && word.Written == Bits.Mask(value.Width))
        {
            return word.Bits == value.Bits ? PlaceStanding.Right : PlaceStanding.Wrong;
        }
        return OperandReader.Number(text) is not null ? PlaceStanding.Wrong
            : text.All(c => c is '0' or '1' or '?' or '.') ? PlaceStanding.Wrong
            : PlaceStanding.Unread;
    }

    /// <summary>Behind 0b and 0x, and as digits 0 and 1 without the zeros in front, a number below 0 is said by its bits.</summary>
    private static bool IsSaidInBits(LessonValue value, string text) =>
        value.Width > 0
        && (
            ShortBits(text, value.Width) == value.Bits
            || text is ['0', 'b' or 'B' or 'x' or 'X', _, ..] && OperandReader.Number(text) == value.Bits
        );

    /// <summary>Texts that are compared as they are, but for blanks, case and what is put around a letter.</summary>
    public static PlaceStanding Same(string typed, string expected) =>
        typed.Length == 0 ? PlaceStanding.Empty
        : string.Equals(Bare(typed), Bare(expected), StringComparison.OrdinalIgnoreCase) ? PlaceStanding.Right
        : PlaceStanding.Wrong;

    private static string Bare(string text) => Plain(text).Trim('(', ')', '.', '"', ':');

    /// <summary>
    /// The first wrong row of a walk with a slip, and what should stand there: any register that is wrong in that row is right to
    /// name, with or without its name before the digits.
    /// </summary>
    public static IEnumerable<MarkedPlace> Found(
        IReadOnlyList<AnsweredField> fields,
        Func<AnsweredField, string> typed,
        Walk right,
        Walk wrong
    )
    {
        var registers = right.Datapath.Registers;
        var first = Enumerable
            .Range(0, Math.Min(right.Rows.Count, wrong.Rows.Count))
            .FirstOrDefault(
                i => registers.Any(r => Held(wrong, i, r.Name) is { } its && its != right.Rows[i].Registers[r.Index]),
                -1
            );
        foreach (var field in fields)
        {
            var text = typed(field);
            var standing = Same(text, field.Expected);
            if (standing == PlaceStanding.Wrong && field.Name == "row")
            {
                // "cycle 4" is 4.
                standing = Same(string.Concat(text.SkipWhile(c => !char.IsAsciiDigit(c))), field.Expected);
            }
            else if (standing == PlaceStanding.Wrong && first >= 0)
            {
                standing = registers.Any(r =>
                    Held(wrong, first, r.Name) is { } its
                    && its != right.Rows[first].Registers[r.Index]
                    && IsHeld(text, r, right.Rows[first].Registers[r.Index])
                )
                    ? PlaceStanding.Right
                    : PlaceStanding.Wrong;
            }
            yield return new MarkedPlace(field, text, standing, field.Expected);
        }
    }

    private static BigInteger? Held(Walk walk, int row, string register) =>
        walk.Datapath.Registers.FirstOrDefault(r => r.Name == register) is { } its
            ? walk.Rows[row].Registers[its.Index]
            : null;

    /// <summary>"R: 00101", "R = 101" or "00101".</summary>
    private static bool IsHeld(string typed, Register register, BigInteger bits)
    {
        var text = Plain(typed);
        if (text.StartsWith(register.Name, StringComparison.OrdinalIgnoreCase))
        {
            text = text[register.Name.Length..].TrimStart(':', '=');
        }
        return HandCell.Of(text, register.Width, []) == Classroom.HandWord.Whole(bits, register.Width);
    }
}
