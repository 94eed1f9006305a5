using System.Text;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>
/// An inventory as text: short cells stand in columns, the last fills the rest of the page. Its caption is its heading, or the
/// name of each group where its first column is one of groups.
/// </summary>
internal static class InventoryText
{
    private const string Indent = DocumentText.Indent;
    private const string PartIndent = "  ";

    /// <summary>The last column has at least so much room, be the page as narrow as it may.</summary>
    private const int Least = 20;

    public static string Of(Grid grid, int columns)
    {
        if (!grid.Columns[0].IsGroup)
        {
            return grid.Caption + "\n" + Rows(grid.Rows, [.. grid.Rows.Select(r => Cells(r, 0))], columns);
        }
        var all = grid.Rows.Select(r => Cells(r, 1)).ToList();
        return string.Join(
            '\n',
            grid.Rows.GroupBy(r => r.Cells[0].ToString()).Select(g => g.Key + "\n" + Rows([.. g], all, columns))
        );
    }

    private static List<string> Cells(GridRow row, int from) =>
        [.. row.Cells.Skip(from).Select((c, i) => (i == 0 && row.IsPart ? PartIndent : "") + c)];

    /// <param name="all">The rows whose cells stand under each other, of other groups too.</param>
    private static string Rows(IReadOnlyList<GridRow> rows, List<List<string>> all, int columns)
    {
        var text = new StringBuilder();
        foreach (var row in rows)
        {
            var cells = Cells(row, row.Cells.Count - all[0].Count);
            var widths = cells.SkipLast(1).Select((_, i) => all.Max(r => Wrapping.Columns(r[i])) + 2).ToList();
            var rest = new string(' ', Indent.Length + widths.Sum());
            text.Append(
                DocumentText.Filled(
                    Content.Phrase(cells[^1]),
                    Math.Max(columns, rest.Length + Least),
                    Indent + string.Concat(widths.Zip(cells, (width, cell) => Wrapping.Padded(cell, width))),
                    rest
                )
            );
        }
        return text.ToString();
    }
}
