using Reckoner.Tables;

namespace Reckoner.Reporting;

/// <summary>Names and what is said of each, as text.</summary>
internal static class PairsText
{
    private const string Indent = DocumentText.Indent;

    public static string Of(Pairs pairs, int columns) =>
        pairs.Form switch
        {
            PairsForm.Beside when pairs.Caption is { } caption => DocumentText.Filled(caption, columns, Indent, Indent)
                + Beside(pairs, columns, Indent + Indent),
            PairsForm.Beside => Beside(pairs, columns, Indent),
            PairsForm.Under => string.Concat(pairs.Rows.Select(r => Under(r, columns))),
        };

    /// <summary>Names take at most half of the page; a longer one stands before what is said of it.</summary>
    private static string Beside(Pairs pairs, int columns, string indent)
    {
        var names = pairs.Rows.Select(r => (r.IsPart ? Indent : "") + r.Name).ToList();
        var width = Math.Min(columns / 2, names.Select(Wrapping.Columns).DefaultIfEmpty(0).Max()) + 2;
        return string.Concat(
            pairs.Rows.Select(
                (row, i) =>
                    Said(
                        row,
                        columns,
                        indent
                            + (Wrapping.Columns(names[i]) < width ? Wrapping.Padded(names[i], width) : names[i] + "  "),
                        new string(' ', indent.Length + width)
                    )
            )
        );
    }

    private static string Under(Pair row, int columns) =>
        $"{Indent}{row.Name}\n" + Said(row, columns, Indent + Indent, Indent + Indent);

    private static string Said(Pair row, int columns, string lead, string rest) =>
        string.Concat(row.Said.Select((s, i) => DocumentText.Filled(s, columns, i == 0 ? lead : rest, rest)));
}
