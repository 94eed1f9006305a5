using System.Text;

namespace Reckoner.Tests;

/// <summary>C# cut into its string literals and the rest, comments left out; code in the holes of a literal belongs to the rest.</summary>
internal sealed class SharpText
{
    private readonly string text;
    private readonly List<string> literals = [];
    private readonly StringBuilder code = new();
    private int at;

    private SharpText(string text)
    {
        this.text = text;
        Code(untilBrace: false);
    }

    /// <summary>The stretches of text between quotes and holes, as they are written.</summary>
    public IReadOnlyList<string> Literals => literals;

    public string Rest => code.ToString();

    public static SharpText Of(string text) => new(text);

    private bool Has(string word) => string.CompareOrdinal(text, at, word, 0, word.Length) == 0;

    private void Code(bool untilBrace)
    {
        var depth = 0;
        while (at < text.Length)
        {
            if (Has("//") || Has("/*"))
            {
                var end = text.IndexOf(Has("//") ? "\n" : "*/", at, StringComparison.Ordinal);
                at = end < 0 ? text.Length : end + 1;
            }
            else if (text[at] == '\'')
            {
                at = text.IndexOf('\'', text[at + 1] == '\\' ? at + 3 : at + 2) + 1;
            }
            else if (text[at] is '"' or '$' or '@' && Prefix() is var length && text[at + length] == '"')
            {
                Literal(text.Substring(at, length));
            }
            else
            {
                depth += text[at] == '{' ? 1 : 0;
                depth -= text[at] == '}' ? 1 : 0;
                if (untilBrace && depth < 0)
                {
                    return;
                }
                code.Append(text[at++]);
            }
        }
    }

    private int Prefix() => text.AsSpan(at).IndexOfAnyExcept('$', '@');

    private void Literal(string prefix)
    {
        var holes = prefix.Count(c => c == '$');
        at += prefix.Length;
        var quotes = text.AsSpan(at).IndexOfAnyExcept('"');
        if (quotes == 2)
        {
            at += 2;
            literals.Add("");
            return;
        }
        var close = quotes > 2 ? new string('"', quotes) : "\"";
        var isPlain = quotes == 1 && !prefix.Contains('@');
        at += close.Length;
        var piece = new StringBuilder();
        while (!Has(close) || (prefix.Contains('@') && Has("\"\"")))
        {
            if (holes > 0 && Has(new string('{', holes)) && !(quotes == 1 && Has("{{")))
            {
                literals.Add(piece.ToString());
                piece.Clear();
                at += holes;
                code.Append(' ');
                Code(untilBrace: true);
                code.Append(' ');
                at += holes;
                continue;
            }
            var taken = isPlain && text[at] == '\\' || Has("{{") || Has("}}") || Has("\"\"") && quotes == 1 ? 2 : 1;
            piece.Append(text, at, taken);
            at += taken;
        }
        at += close.Length;
        literals.Add(piece.ToString());
    }
}
