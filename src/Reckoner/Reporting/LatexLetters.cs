using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>Text in LaTeX: signs that mean something there, digits that may break.</summary>
internal static class LatexLetters
{
    public static string Inline(Cell cell) => string.Join(" \\newline ", cell.Lines.Select(Inline));

    public static string Inline(Content content) =>
        string.Concat(
            content.Runs.Select(r =>
                r.Kind switch
                {
                    RunKind.Text or RunKind.Phrase or RunKind.Number => Escaped(r.Text),
                    RunKind.Formula => $"\\texttt{{{Escaped(r.Text)}}}",
                    RunKind.Digits or RunKind.Marks => $"\\texttt{{{Breakable(r.Text)}}}",
                }
            )
        );

    /// <summary>Digits and marks of more than a word may break behind every eighth.</summary>
    private static string Breakable(string digits) =>
        string.Join(
            ' ',
            digits.Split(' ').Select(g => string.Join("\\allowbreak{}", Wrapping.Folds(g, 8).Select(Escaped)))
        );

    public static string Escaped(string text) =>
        string.Concat(
            text.Select(
                (c, i) =>
                    c switch
                    {
                        '\\' => "\\textbackslash{}",
                        '\u00A0' => "~",
                        '~' => "\\textasciitilde{}",
                        '^' => "\\textasciicircum{}",
                        '"' => "\\textquotedbl{}",
                        '<' => "\\textless{}",
                        '>' => "\\textgreater{}",
                        '|' => "\\textbar{}",
                        '`' => "\\textasciigrave{}",
                        '{' or '}' or '$' or '&' or '#' or '%' or '_' => $"\\{c}",
                        '[' or ']' => $"{{{c}}}",
                        // Two of them would become one long dash, and --option no option.
                        '-' when i > 0 && text[i - 1] == '-' => "{}-",
                        _ => $"{c}",
                    }
            )
        );
}
