using System.Globalization;
using System.Numerics;
using System.Text;
using Reckoner.Datapaths;
using Reckoner.Numbers;

namespace Reckoner.Hdl;

/// <summary>
/// Words in Verilog (IEEE 1364-2005). Every operator stands between words of one width, so that the rules by which that language widens
/// what it computes never come into play.
/// </summary>
internal static class VerilogWords
{
    public static string Of(HdlWord w) =>
        w.Kind switch
        {
            HdlWordKind.Literal => Literal(w.Width, w.Bits),
            HdlWordKind.Part => Part(w),
            HdlWordKind.Joined => "{" + string.Join(", ", w.Inputs.Select(Of)) + "}",
            HdlWordKind.Repeated => $"{{{w.Width}{{{Of(w.Inputs[0])}}}}}",
            HdlWordKind.Sum => Between("+", w),
            HdlWordKind.Difference => Between("-", w),
            HdlWordKind.Product => Between("*", w),
            HdlWordKind.Negation => "-" + Inner(w.Inputs[0]),
            HdlWordKind.And => Between("&", w),
            HdlWordKind.Or => Between("|", w),
            HdlWordKind.Xor => Between("^", w),
            HdlWordKind.Not => "~" + Inner(w.Inputs[0]),
            HdlWordKind.Equal => Compared("==", w),
            HdlWordKind.Unequal => Compared("!=", w),
            HdlWordKind.Less => Compared("<", w),
            HdlWordKind.LessOrEqual => Compared("<=", w),
            HdlWordKind.Greater => Compared(">", w),
            HdlWordKind.GreaterOrEqual => Compared(">=", w),
            HdlWordKind.Chosen => $"{Inner(w.Inputs[0])} ? {Inner(w.Inputs[1])} : {Inner(w.Inputs[2])}",
            HdlWordKind.Matched => string.Join(" || ", w.Patterns.Select(p => Matched(w.Inputs[0], p))),
            HdlWordKind.Cell => $"{w.Name}({Of(w.Inputs[0])})",
        };

    /// <summary>The label of a way of a casez.</summary>
    public static string Label(int width, Pattern pattern)
    {
        var digits = new StringBuilder();
        for (var place = width - 1; place >= 0; place--)
        {
            digits.Append(
                !Bit(pattern.Mask, place) ? '?'
                : Bit(pattern.Bits, place) ? '1'
                : '0'
            );
        }
        return $"{width}'b{digits}";
    }

    /// <summary>What is declared in front of a name: its places, if it has more than one.</summary>
    public static string Range(int width) => width == 1 ? "" : $"[{width - 1}:0] ";

    public static string Literal(int width, BigInteger bits) =>
        width <= 8
            ? $"{width}'b{Bits.Text(bits, width)}"
            : $"{width}'h{bits.ToString("x", CultureInfo.InvariantCulture).TrimStart('0').PadLeft(1, '0')}";

    private static bool Bit(BigInteger word, int place) => !((word >> place) & 1).IsZero;

    private static string Part(HdlWord w) =>
        w.IsWhole ? w.Name
        : w.Width == 1 ? $"{w.Name}[{w.Low}]"
        : $"{w.Name}[{w.High}:{w.Low}]";

    private static string Between(string sign, HdlWord w) => $"{Inner(w.Inputs[0])} {sign} {Inner(w.Inputs[1])}";

    private static string Compared(string sign, HdlWord w) =>
        w.IsSigned ? $"$signed({Of(w.Inputs[0])}) {sign} $signed({Of(w.Inputs[1])})" : Between(sign, w);

    private static string Matched(HdlWord word, Pattern pattern) =>
        pattern.Mask == Bits.Mask(word.Width)
            ? $"({Inner(word)} == {Literal(word.Width, pattern.Bits)})"
            : $"(({Inner(word)} & {Literal(word.Width, pattern.Mask)}) == {Literal(word.Width, pattern.Bits)})";

    /// <summary>In brackets where it stands inside something.</summary>
    private static string Inner(HdlWord w) =>
        w.Kind
            is HdlWordKind.Literal
                or HdlWordKind.Part
                or HdlWordKind.Joined
                or HdlWordKind.Repeated
                or HdlWordKind.Cell
            ? Of(w)
            : $"({Of(w)})";
}
