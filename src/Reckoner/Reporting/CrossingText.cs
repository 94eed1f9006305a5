using System.Text;
using Reckoner.Tables;

namespace Reckoner.Reporting;

/// <summary>A crossing as text: where its columns do not fit beside each other, the table goes on below with the next ones.</summary>
internal static class CrossingText
{
    private const string Indent = DocumentText.Indent;
    private const string Gap = "  ";

    public static string Of(Grid grid, int columns)
    {
        var text = new StringBuilder();
        var shown = Enumerable.Range(0, grid.Columns.Count).Select(i => Column(grid, i)).ToList();
        var names = shown[0];
        var lead = names.Max(Wrapping.Columns);
        var cells = shown[1..];
        for (var from = 0; from < cells.Count; )
        {
            var to = from + Fitting(cells.Skip(from), columns - Indent.Length - lead);
            text.Append('\n');
            for (var row = 0; row < names.Count; row++)
            {
                var beside = cells[from..to].Select(c => c[row].PadLeft(c.Max(t => t.Length)));
                var line = Indent + string.Join(Gap, beside.Prepend(Wrapping.Padded(names[row], lead)));
                text.Append(line.TrimEnd()).Append('\n');
            }
            from = to;
        }
        return text.ToString();
    }

    /// <summary>The head, then a cell for each row.</summary>
    private static List<string> Column(Grid grid, int column) =>
        [.. grid.Rows.Select(r => r.Cells[column].ToString()).Prepend(grid.Columns[column].Name)];

    /// <summary>As many columns as fit beside the names, and at least one.</summary>
    private static int Fitting(IEnumerable<List<string>> cells, int columns)
    {
        var (count, left) = (0, columns);
        foreach (var cell in cells)
        {
            left -= Gap.Length + cell.Max(t => t.Length);
            if (left < 0 && count > 0)
            {
                break;
            }
            count++;
        }
        return count;
    }
}
