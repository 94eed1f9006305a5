using System.Globalization;
using System.Net;
using System.Text;

namespace Reckoner.Documents.Lessons.Formulas;

/// <summary>A formula as text: in a line of plain signs, for LaTeX, and as MathML for a page.</summary>
internal static class FormulaText
{
    /// <summary>"q = (a − r)/d, 2^n": for titles, and for those who hear a paper read.</summary>
    public static string Plain(Formula formula) =>
        formula.Match(
            symbol: s => s.Text,
            row: r => Joined(r.Parts),
            scripts: s => Plain(s.Of) + Script("_", s.Below) + Script("^", s.Above),
            fraction: f => $"{Grouped(f.Above)}/{Grouped(f.Below)}",
            root: r => $"\u221A{Grouped(r.Of)}"
        );

    private static string Script(string sign, Formula? script) => script is null ? "" : sign + Grouped(script);

    private static string Grouped(Formula formula)
    {
        var plain = Plain(formula);
        return plain.All(char.IsLetterOrDigit) ? plain : $"({plain})";
    }

    private static string Joined(IReadOnlyList<Formula> parts)
    {
        var text = new StringBuilder();
        for (var i = 0; i < parts.Count; i++)
        {
            text.Append(FormulaSpacing.Before(parts, i) >= FormulaSpacing.Thin ? " " : "").Append(Plain(parts[i]));
        }
        return text.ToString();
    }

    /// <param name="isDisplay">Whether it stands on a line of its own.</param>
    public static string MathMl(Formula formula, bool isDisplay) =>
        $"<math{(isDisplay ? " display=\"block\"" : "")}>{Marked(formula)}</math>";

    private static string Marked(Formula formula) =>
        formula.Match(
            symbol: Marked,
            row: r => $"<mrow>{string.Concat(r.Parts.Select((p, i) => Marked(r.Parts, i)))}</mrow>",
            scripts: Marked,
            fraction: f => $"<mfrac>{Marked(f.Above)}{Marked(f.Below)}</mfrac>",
            root: r => $"<msqrt>{Marked(r.Of)}</msqrt>"
        );

    /// <summary>What its sides say about the room around an operator a browser does not see, so it is said.</summary>
    private static string Marked(IReadOnlyList<Formula> parts, int index)
    {
        var gap = parts[index] is Symbol { Role: SymbolRole.Name or SymbolRole.Number or SymbolRole.Words }
            ? FormulaSpacing.Before(parts, index)
            : 0;
        var blank =
            gap > 0 && index > 0 && parts[index - 1] is Symbol { Role: SymbolRole.Name or SymbolRole.Number }
                ? string.Create(CultureInfo.InvariantCulture, $"<mspace width=\"{gap:0.##}em\"/>")
                : "";
        return blank + Marked(parts[index]);
    }

    private static string Marked(Symbol symbol)
    {
        var text = WebUtility.HtmlEncode(symbol.Text);
        return symbol.Role switch
        {
            SymbolRole.Name => $"<mi mathvariant=\"normal\">{text}</mi>",
            SymbolRole.Number => $"<mn>{text}</mn>",
            SymbolRole.Words => $"<mtext>{text}</mtext>",
            SymbolRole.Operator
            or SymbolRole.Relation
            or SymbolRole.Opening
            or SymbolRole.Closing
            or SymbolRole.Comma
            or SymbolRole.Large => $"<mo>{text}</mo>",
        };
    }

    private static string Marked(Scripts scripts)
    {
        var of = Marked(scripts.Of);
        var isLarge = scripts.Of is Symbol { Role: SymbolRole.Large };
        var (below, above, both) = isLarge ? ("munder", "mover", "munderover") : ("msub", "msup", "msubsup");
        return (scripts.Below, scripts.Above) switch
        {
            ({ } b, { } a) => $"<{both}>{of}{Marked(b)}{Marked(a)}</{both}>",
            ({ } b, null) => $"<{below}>{of}{Marked(b)}</{below}>",
            (null, { } a) => $"<{above}>{of}{Marked(a)}</{above}>",
            (null, null) => of,
        };
    }
}
