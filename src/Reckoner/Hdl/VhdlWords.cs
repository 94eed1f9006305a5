using System.Numerics;
using System.Text;
using Reckoner.Datapaths;
using Reckoner.Numbers;

namespace Reckoner.Hdl;

/// <summary>Words in VHDL (IEEE 1076-2008, most of it as in 1993): every word is an unsigned of numeric_std, also one of one bit.</summary>
internal static class VhdlWords
{
    /// <summary>Functions that its words use.</summary>
    public static IReadOnlyList<string> Functions { get; } =
    [
        "function picked(so : boolean; one_way, other_way : unsigned) return unsigned is",
        "begin",
        "  if so then return one_way; else return other_way; end if;",
        "end function;",
        "function bit_of(so : boolean) return unsigned is",
        "begin",
        "  if so then return \"1\"; else return \"0\"; end if;",
        "end function;",
        "function repeated(of_one : unsigned; how_many : positive) return unsigned is",
        "  variable all_of_them : unsigned(how_many - 1 downto 0) := (others => of_one(of_one'low));",
        "begin",
        "  return all_of_them;",
        "end function;",
    ];

    public static string Of(HdlWord w) =>
        w.Kind switch
        {
            HdlWordKind.Literal => Literal(w.Width, w.Bits),
            HdlWordKind.Part => w.IsWhole ? w.Name : $"{w.Name}({w.High} downto {w.Low})",
            HdlWordKind.Joined => string.Join(" & ", w.Inputs.Select(Inner)),
            HdlWordKind.Repeated => $"repeated({Of(w.Inputs[0])}, {w.Width})",
            HdlWordKind.Sum => Between("+", w),
            HdlWordKind.Difference => Between("-", w),
            HdlWordKind.Product => $"resize({Between("*", w)}, {w.Width})",
            HdlWordKind.Negation => $"unsigned(-signed({Of(w.Inputs[0])}))",
            HdlWordKind.And => Between("and", w),
            HdlWordKind.Or => Between("or", w),
            HdlWordKind.Xor => Between("xor", w),
            HdlWordKind.Not => "not " + Inner(w.Inputs[0]),
            HdlWordKind.Equal
            or HdlWordKind.Unequal
            or HdlWordKind.Less
            or HdlWordKind.LessOrEqual
            or HdlWordKind.Greater
            or HdlWordKind.GreaterOrEqual
            or HdlWordKind.Matched => $"bit_of({Condition(w)})",
            HdlWordKind.Chosen => $"picked({Condition(w.Inputs[0])}, {Of(w.Inputs[1])}, {Of(w.Inputs[2])})",
            HdlWordKind.Cell => $"{w.Name}(to_integer({Of(w.Inputs[0])}))",
        };

    /// <summary>A word of one bit as something that is so or not.</summary>
    public static string Condition(HdlWord w) =>
        w.Kind switch
        {
            HdlWordKind.Equal => Compared("=", w),
            HdlWordKind.Unequal => Compared("/=", w),
            HdlWordKind.Less => Compared("<", w),
            HdlWordKind.LessOrEqual => Compared("<=", w),
            HdlWordKind.Greater => Compared(">", w),
            HdlWordKind.GreaterOrEqual => Compared(">=", w),
            HdlWordKind.Not => $"not ({Condition(w.Inputs[0])})",
            HdlWordKind.And => $"({Condition(w.Inputs[0])}) and ({Condition(w.Inputs[1])})",
            HdlWordKind.Or => $"({Condition(w.Inputs[0])}) or ({Condition(w.Inputs[1])})",
            HdlWordKind.Matched => string.Join(" or ", w.Patterns.Select(p => Matched(w.Inputs[0], p))),
            HdlWordKind.Part => $"{w.Name}({w.Low}) = '1'",
            HdlWordKind.Literal => w.Bits.IsZero ? "false" : "true",
            HdlWordKind.Joined
            or HdlWordKind.Repeated
            or HdlWordKind.Sum
            or HdlWordKind.Difference
            or HdlWordKind.Product
            or HdlWordKind.Negation
            or HdlWordKind.Xor
            or HdlWordKind.Chosen
            or HdlWordKind.Cell => $"({Of(w)}) = {Literal(1, 1)}",
        };

    public static string Matched(HdlWord word, Pattern pattern) =>
        $"std_match({Of(word)}, {Qualified(Digits(word.Width, pattern))})";

    public static string Literal(int width, BigInteger bits) => Qualified(Bits.Text(bits, width));

    public static string Type(int width) => $"unsigned({width - 1} downto 0)";

    private static string Qualified(string digits) => $"unsigned'(\"{digits}\")";

    private static string Digits(int width, Pattern pattern)
    {
        var digits = new StringBuilder(Bits.Text(pattern.Bits, width));
        for (var place = 0; place < width; place++)
        {
            if (((pattern.Mask >> place) & 1).IsZero)
            {
                digits[width - 1 - place] = '-';
            }
        }
        return digits.ToString();
    }

    private static string Between(string sign, HdlWord w) => $"{Inner(w.Inputs[0])} {sign} {Inner(w.Inputs[1])}";

    private static string Compared(string sign, HdlWord w) =>
        w.IsSigned ? $"signed({Of(w.Inputs[0])}) {sign} signed({Of(w.Inputs[1])})" : Between(sign, w);

    private static string Inner(HdlWord w) =>
        w.Kind
            is HdlWordKind.Sum
                or HdlWordKind.Difference
                or HdlWordKind.And
                or HdlWordKind.Or
                or HdlWordKind.Xor
                or HdlWordKind.Not
                or HdlWordKind.Joined
            ? $"({Of(w)})"
            : Of(w);
}
