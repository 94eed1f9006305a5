using System.Text;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>Examples as text: numbers in columns, strips of marks beside them; where these do not fit they stand below each row.</summary>
internal sealed class ExamplesText
{
    private const string Indent = DocumentText.Indent;
    private const string Gap = "  ";

    /// <summary>A strip has at least so much room, be the page as narrow as it may.</summary>
    private const int Least = 10;

    private readonly Grid grid;
    private readonly int columns;
    private readonly StringBuilder text = new();
    private readonly List<int> numbers;
    private readonly List<int> strips;

    private ExamplesText(Grid grid, int columns)
    {
        this.grid = grid;
        this.columns = columns;
        numbers = [.. All.Where(i => grid.Columns[i].Role != ColumnRole.Marks)];
        strips = [.. All.Where(i => grid.Columns[i].Role == ColumnRole.Marks)];
    }

    public static string Of(Grid grid, int columns)
    {
        var made = new ExamplesText(grid, columns);
        made.Write();
        return made.text.ToString();
    }

    private IEnumerable<int> All => Enumerable.Range(0, grid.Columns.Count);

    private string Name(int column) => grid.Columns[column].Name;

    private static string Text(GridRow row, int column) => row.Cells[column].ToString();

    private void Write()
    {
        var widths = All.Select(i => grid.Rows.Select(r => Text(r, i)).Append(Name(i)).Max(Wrapping.Columns)).ToList();
        var isBeside = Indent.Length + widths.Sum(w => w + Gap.Length) <= columns;
        Line(Name);
        foreach (var row in grid.Rows)
        {
            Line(i => Text(row, i));
            if (!isBeside)
            {
                Below(row);
            }
        }

        void Line(Func<int, string> cell)
        {
            var shown = numbers
                .Select(i => new string(' ', widths[i] - Wrapping.Columns(cell(i))) + cell(i))
                .Concat(isBeside ? strips.Select(i => Wrapping.Padded(cell(i), widths[i])) : []);
            text.Append((Indent + string.Join(Gap, shown)).TrimEnd()).Append('\n');
        }
    }

    private void Below(GridRow row)
    {
        var width =
            Indent.Length + strips.Select(i => Wrapping.Columns(Name(i))).DefaultIfEmpty(0).Max() + 2 * Gap.Length;
        foreach (var strip in strips)
        {
            text.Append(
                DocumentText.Filled(
                    Content.Phrase(Text(row, strip)),
                    Math.Max(columns, width + Least),
                    Wrapping.Padded(Indent + Gap + Name(strip), width),
                    new string(' ', width)
                )
            );
        }
    }
}
