using System.Text;

namespace Reckoner.Documents.Lessons.Formulas;

/// <summary>
/// Reads what stands between dollar signs: a small part of how TeX writes formulas. Letters beside each other are one name and
/// digits beside each other one number, so that an index or exponent of several needs no braces.
/// </summary>
internal sealed class FormulaReader
{
    private const int MostNesting = 30;

    /// <summary>What begins with a backslash, by examples.</summary>
    public const string Forms = @"\frac{a}{b}, \sqrt{a}, \sum, \le, \ge, \ne, \lfloor, \alpha, \text{if}";

    private readonly string text;
    private int at;
    private int depth;
    private int? stuck;

    private FormulaReader(string text) => this.text = text;

    /// <summary>The formula, or null and where what cannot be read begins: the text's length where something is missing at its end.</summary>
    public static (Formula? Formula, int Stuck) Read(string text)
    {
        var reader = new FormulaReader(text);
        var row = reader.Row();
        if (reader.stuck is null && reader.at < text.Length)
        {
            reader.stuck = reader.at;
        }
        return reader.stuck is { } stuck ? (null, stuck) : (row, 0);
    }

    /// <summary>formula = { part [ "_" one ] [ "^" one ] } ; in either order. Ends before a brace that closes.</summary>
    private Row Row()
    {
        var parts = new List<Formula>();
        for (Blanks(); stuck is null && at < text.Length && text[at] != '}'; Blanks())
        {
            if (One() is not { } part)
            {
                break;
            }
            parts.Add(Scripted(part));
        }
        return new Row(parts);
    }

    private Formula Scripted(Formula part)
    {
        Formula? below = null;
        Formula? above = null;
        for (Blanks(); at < text.Length && text[at] is '_' or '^'; Blanks())
        {
            var isBelow = text[at] == '_';
            if ((isBelow ? below : above) is not null)
            {
                stuck ??= at;
                return part;
            }
            at++;
            Blanks();
            var script = One();
            (below, above) = isBelow ? (script, above) : (below, script);
            if (script is null)
            {
                return part;
            }
        }
        return below is null && above is null ? part : new Scripts(part, below, above);
    }

    /// <summary>one = NAME | NUMBER | SIGN | "\" WORD | "{" formula "}" ; null and stuck where there is none.</summary>
    private Formula? One()
    {
        if (at == text.Length || ++depth > MostNesting)
        {
            return Stuck();
        }
        var start = at;
        var one = text[at] switch
        {
            '{' => Braced(),
            '\\' => Command(),
            var c when char.IsLetter(c) => Run(char.IsLetter, SymbolRole.Name),
            var c when char.IsAsciiDigit(c) => Number(),
            var c when FormulaSigns.Of(c) is { } sign => Taken(sign),
            _ => Stuck(),
        };
        depth--;
        if (one is null)
        {
            stuck ??= start;
        }
        return one;
    }

    private Formula? Stuck()
    {
        stuck ??= at;
        return null;
    }

    private Symbol Taken(Symbol sign)
    {
        at++;
        return sign;
    }

    private Symbol Run(Func<char, bool> goesOn, SymbolRole role)
    {
        var start = at;
        while (at < text.Length && goesOn(text[at]))
        {
            at++;
        }
        return new Symbol(text[start..at], role);
    }

    /// <summary>Digits, with a point or comma between two of them.</summary>
    private Symbol Number()
    {
        var start = at;
        while (
            at < text.Length
            && (
                char.IsAsciiDigit(text[at])
                || (text[at] is '.' or ',' && at + 1 < text.Length && char.IsAsciiDigit(text[at + 1]))
            )
        )
        {
            at++;
        }
        return new Symbol(text[start..at], SymbolRole.Number);
    }

    private Formula? Braced()
    {
        at++;
        var row = Row();
        if (stuck is null && at == text.Length)
        {
            stuck = at;
        }
        at++;
        return stuck is not null ? null
            : row.Parts is [var one] ? one
            : row;
    }

    private Formula? Command()
    {
        var start = at++;
        var word =
            at < text.Length && !char.IsAsciiLetter(text[at])
                ? text[at++].ToString()
                : Run(char.IsAsciiLetter, SymbolRole.Name).Text;
        var isBlank = word is "," or ";" or ":" or " " or "quad";
        Formula? read = word switch
        {
            "frac" => Two(),
            "sqrt" => Argument() is { } inner ? new Root(inner) : null,
            "text" or "mathrm" => Words(word == "text" ? SymbolRole.Words : SymbolRole.Name),
            _ when isBlank => new Symbol("\u2002", SymbolRole.Words),
            _ => FormulaSigns.Of(word),
        };
        if (read is null)
        {
            stuck ??= start;
        }
        return read;
    }

    private Fraction? Two() => Argument() is { } above && Argument() is { } below ? new Fraction(above, below) : null;

    private Formula? Argument()
    {
        Blanks();
        return One();
    }

    /// <summary>Words in braces, as they stand.</summary>
    private Symbol? Words(SymbolRole role)
    {
        var end = at < text.Length && text[at] == '{' ? text.IndexOf('}', at) : -1;
        if (end < 0 || text.IndexOf('{', at + 1, end - at - 1) >= 0)
        {
            return null;
        }
        var words = text[(at + 1)..end];
        at = end + 1;
        return new Symbol(words, role);
    }

    private void Blanks()
    {
        while (at < text.Length && (char.IsWhiteSpace(text[at]) || text[at] == '~'))
        {
            at++;
        }
    }

    /// <summary>What stands at a place, to be named in a message: a word behind a backslash whole, else one sign; empty at the end.</summary>
    public static string Found(string text, int at)
    {
        if (at >= text.Length)
        {
            return "";
        }
        if (char.IsHighSurrogate(text[at]) && at + 1 < text.Length)
        {
            return text.Substring(at, 2);
        }
        var found = new StringBuilder().Append(text[at]);
        for (var i = at + 1; text[at] == '\\' && i < text.Length && char.IsAsciiLetter(text[i]); i++)
        {
            found.Append(text[i]);
        }
        return text[at] == '\\' && found.Length == 1 && at + 1 < text.Length ? text.Substring(at, 2) : found.ToString();
    }
}
