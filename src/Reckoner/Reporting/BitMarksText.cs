using System.Text;
using Reckoner.Tables;

namespace Reckoner.Reporting;

/// <summary>
/// Marks of bits as text: a picture of each register beside the others where the page has room, else stretches of places beside
/// each other, else stretches under each other.
/// </summary>
internal sealed class BitMarksText
{
    private const string Gap = "  ";

    private readonly Grid grid;
    private readonly int columns;
    private readonly StringBuilder text = new();
    private readonly IReadOnlyList<string> names;
    private readonly List<string> labels;
    private readonly int labelWidth;

    /// <summary>What stands behind the marks: how many get so far, where that is told.</summary>
    private readonly List<string> ends;

    private BitMarksText(Grid grid, int columns)
    {
        this.grid = grid;
        this.columns = columns;
        names = [.. Registers.Select(i => grid.Columns[i].Name)];
        labels = [.. grid.Rows.Select(r => r.Cells[0].ToString())];
        labelWidth = labels.Append(grid.Columns[0].Name).Max(l => l.Length);
        ends = [.. grid.Rows.Select(r => grid.Columns[^1].Role == ColumnRole.Marks ? "" : r.Cells[^1].ToString())];
    }

    public static string Of(Grid grid, int columns)
    {
        var made = new BitMarksText(grid, columns);
        made.Write();
        return made.text.ToString();
    }

    private IEnumerable<int> Registers =>
        Enumerable.Range(0, grid.Columns.Count).Where(i => grid.Columns[i].Role == ColumnRole.Marks);

    private void Write()
    {
        var pictures = Told(marks => marks);
        var stretches = Told(Stretches);
        if (Width(pictures) <= columns)
        {
            Beside(pictures);
        }
        else if (Width(stretches) <= columns)
        {
            Beside(stretches);
        }
        else
        {
            Below(stretches);
        }
    }

    /// <summary>For each row what is told of each register.</summary>
    private List<List<string>> Told(Func<string, string> tell) =>
        [.. grid.Rows.Select(r => Registers.Select(i => tell(r.Cells[i].ToString())).ToList())];

    /// <summary>Places that carry alike, as in "127..64=0, 63..0=#".</summary>
    private static string Stretches(string picture)
    {
        var marks = picture.Replace(" ", "", StringComparison.Ordinal);
        var stretches = new List<string>();
        for (var from = 0; from < marks.Length; )
        {
            var to = from;
            while (to + 1 < marks.Length && marks[to + 1] == marks[from])
            {
                to++;
            }
            var (high, low) = (marks.Length - 1 - from, marks.Length - 1 - to);
            stretches.Add(high == low ? $"{high}={marks[from]}" : $"{high}..{low}={marks[from]}");
            from = to + 1;
        }
        return string.Join(", ", stretches);
    }

    private List<int> Widths(List<List<string>> told) =>
        [.. names.Select((n, i) => Math.Max(Wrapping.Columns(n), told.Max(row => row[i].Length)))];

    private int Width(List<List<string>> told)
    {
        var end = ends.Max(e => e.Length);
        return labelWidth + Widths(told).Sum(w => Gap.Length + w) + (end > 0 ? Gap.Length + end : 0);
    }

    private void Beside(List<List<string>> told)
    {
        var widths = Widths(told);
        Line(grid.Columns[0].Name, names, "");
        for (var row = 0; row < told.Count; row++)
        {
            Line(labels[row], told[row], ends[row]);
        }

        void Line(string label, IEnumerable<string> cells, string end)
        {
            var padded = cells.Zip(widths, (cell, width) => Gap + Wrapping.Padded(cell, width));
            text.Append($"{label.PadLeft(labelWidth)}{string.Concat(padded)}{Gap}{end}".TrimEnd()).Append('\n');
        }
    }

    private void Below(List<List<string>> told)
    {
        var width = names.Max(Wrapping.Columns) + Gap.Length;
        for (var row = 0; row < told.Count; row++)
        {
            var label = grid.Rows[row].Cycle == 0 ? labels[row] : $"{grid.Columns[0].Name} {labels[row]}";
            text.Append(label).Append(ends[row].Length > 0 ? $", {ends[row]}" : "").Append('\n');
            foreach (var (name, said) in names.Zip(told[row]))
            {
                var lead = DocumentText.Indent + Wrapping.Padded(name, width);
                text.Append(
                    DocumentText.Filled(Words.Content.Phrase(said), columns, lead, new string(' ', lead.Length))
                );
            }
        }
    }
}
