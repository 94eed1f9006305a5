using System.Globalization;
using Reckoner.Tables;

namespace Reckoner.Reporting;

/// <summary>
/// A document as LaTeX with rules of booktabs. It compiles alone, and does nothing but set its tables where another document
/// reads it in by \input.
/// </summary>
internal static class Latex
{
    /// <summary>Letters of a typewriter font that fit on a line.</summary>
    private const int LineLetters = 96;

    /// <summary>The room between two columns is wider by so much than the two letters it is counted as.</summary>
    private const double MoreBetween = 0.4;

    /// <summary>What a column of sentences needs at least to stand beside the others.</summary>
    private const int SentenceLetters = 26;

    /// <summary>Tables with more rows may run over several pages.</summary>
    private const int RowsOnAPage = 24;

    public static string Of(Document document) => Written.Text(text => Write(text, document));

    public static void Write(TextWriter text, Document document)
    {
        Begin(text, document);
        text.Write($"\\section*{{{LatexLetters.Escaped(document.Title)}}}\n");
        if (document.Subtitle is { } subtitle)
        {
            text.Write(LatexLetters.Escaped(subtitle) + "\n\n");
        }
        foreach (var lead in document.Leads)
        {
            text.Write($"\\noindent {LatexLetters.Inline(lead)}\n\n");
        }
        foreach (var block in document.Blocks)
        {
            text.Write("\\par\\medskip\\noindent\n");
            foreach (
                var piece in block.Match(p => [LatexLetters.Inline(p.Text) + "\n"], p => [Of(p)], i => [Of(i)], Of)
            )
            {
                text.Write(piece);
            }
        }
        text.Write("\\reckonerend\n");
    }

    /// <summary>Inside a document \documentclass has become the error of a second class; so we know whether we are in one.</summary>
    private static void Begin(TextWriter text, Document document)
    {
        var paper = document.Paper ?? new Paper("a4", IsLandscape: false);
        var (size, geometry) =
            paper.Size == PaperSize.Slide
                ? ("", "paperwidth=254mm,paperheight=142.9mm,margin=10mm")
                : ($"{paper.Size}paper,", paper.IsLandscape ? "landscape,margin=15mm" : "margin=20mm");
        text.Write(
            $$$"""
            % Compiles alone; where a table runs over pages, run LaTeX until its columns no longer move. In a document of your own: \usepackage{array,booktabs,longtable}, then \input this file.
            \expandafter\ifx\csname @twoclasseserror\endcsname\documentclass
              \def\reckonerbegin{}\def\reckonerend{}
            \else
              \def\reckonerbegin{%
                \documentclass[{{{size}}}10pt]{article}
                \usepackage[T1]{fontenc}
                \IfFileExists{lmodern.sty}{\usepackage{lmodern}}{}
                \usepackage[{{{geometry}}}]{geometry}
                \usepackage{array,booktabs,longtable}
                \pagestyle{empty}
                \begin{document}}
              \def\reckonerend{\end{document}}
            \fi
            \reckonerbegin

            """
        );
    }

    private static string Of(Pairs pairs)
    {
        var caption = pairs.Caption is { } said
            ? $"{LatexLetters.Inline(said)}\\nopagebreak\n\n\\smallskip\\noindent\n"
            : "";
        return caption
            + pairs.Form switch
            {
                PairsForm.Beside => "\\begin{tabular}{@{}l>{\\raggedright\\arraybackslash}p{0.7\\linewidth}@{}}\n"
                    + string.Concat(pairs.Rows.Select(Row))
                    + "\\end{tabular}\n",
                PairsForm.Under when pairs.Rows.Count == 0 => "",
                PairsForm.Under => "\\begin{description}\n"
                    + string.Concat(
                        pairs.Rows.Select(r =>
                            $"\\item[{LatexLetters.Inline(r.Name)}] {LatexLetters.Inline(r.SaidTogether)}\n"
                        )
                    )
                    + "\\end{description}\n",
            };
    }

    private static string Row(Pair row) =>
        $"{(row.IsPart ? "\\quad " : "")}{LatexLetters.Inline(row.Name)} & {LatexLetters.Inline(row.SaidTogether)} \\\\\n";

    private static string Of(Items items) =>
        $"\\begin{{itemize}}\n{string.Concat(items.Each.Select(i => $"\\item {LatexLetters.Inline(i)}\n"))}\\end{{itemize}}\n";

    private static IEnumerable<string> Of(Grid grid)
    {
        var letters = grid.Columns.Select(c => Marks.Head(c).Length).ToList();
        foreach (var row in Marks.Seen(grid))
        {
            letters = [.. letters.Select((l, i) => Math.Max(l, Letters(row[i])))];
        }
        letters = [.. letters.Select(l => l + 2)];
        bool IsSentences(int i) => grid.Columns[i].Role == ColumnRole.Sentences;
        var all = Enumerable.Range(0, letters.Count).ToList();
        var fixedLetters = all.Where(i => !IsSentences(i)).Sum(i => letters[i]);
        var sentences = all.Where(IsSentences).ToList();
        var room = LineLetters - fixedLetters;
        var under = letters.Sum() > LineLetters && sentences.Count == 1 && room < SentenceLetters ? sentences[0] : -1;
        var beside = all.Where(i => i != under).ToList();
        string Form(int i) =>
            letters.Sum() <= LineLetters || (!IsSentences(i) && fixedLetters <= LineLetters) ? "l"
            : IsSentences(i) ? Width(Math.Max((room - MoreBetween * letters.Count) / sentences.Count, 12) / LineLetters)
            : Width(0.92 * letters[i] / fixedLetters);
        var isLong = grid.Rows.Count > RowsOnAPage;
        var environment = isLong ? "longtable" : "tabular";
        yield return $"\\textbf{{{LatexLetters.Escaped(grid.Caption)}}}\\nopagebreak\n\n\\smallskip\\noindent\n";
        yield return "{\\small\n";
        yield return $"\\begin{{{environment}}}{{@{{}}{string.Concat(beside.Select(Form))}@{{}}}}\n\\toprule\n";
        var heads = beside.Select(i => LatexLetters.Escaped(Marks.Head(grid.Columns[i])));
        yield return $"{string.Join(" & ", heads)} \\\\\n\\midrule\n{(isLong ? "\\endhead\n" : "")}";
        foreach (var row in Marks.Seen(grid))
        {
            yield return $"{string.Join(" & ", beside.Select(i => LatexLetters.Inline(row[i])))} \\\\\n";
            if (under >= 0 && !row[under].IsEmpty && !Marks.IsSame(row[under]))
            {
                yield return $"\\multicolumn{{{beside.Count}}}{{@{{}}p{{0.95\\linewidth}}@{{}}}}{{\\raggedright {LatexLetters.Inline(row[under])}}} \\\\\n";
            }
        }
        yield return $"\\bottomrule\n\\end{{{environment}}}}}\n";
    }

    private static string Width(double share) =>
        $">{{\\raggedright\\arraybackslash}}p{{{share.ToString("0.000", CultureInfo.InvariantCulture)}\\linewidth}}";

    private static int Letters(Cell cell) => cell.Lines.Select(l => l.ToString().Length).DefaultIfEmpty(0).Max();
}
