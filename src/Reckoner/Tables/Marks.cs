using Reckoner.Words;

namespace Reckoner.Tables;

/// <summary>Signs in heads, labels and cells that a note below the table explains.</summary>
internal static class Marks
{
    /// <summary>Stands on the wires only.</summary>
    public const string OnWires = "~";

    /// <summary>Differs from what stands left of it.</summary>
    public const string Differs = "*";

    public static bool IsSign(Run run) => run.Kind == RunKind.Text && run.Text.Trim() is OnWires or Differs;

    /// <summary>For those that read a table alone, without what stands above it.</summary>
    public static string FullHead(GridColumn column) => Head(column with { Name = column.Full ?? column.Name });

    public static string Head(GridColumn column) => column.OnWires ? $"{column.Name} {OnWires}" : column.Name;

    /// <summary>The cells of a row with their signs: a row that is not stored has one in its label.</summary>
    public static IEnumerable<Cell> Cells(Grid grid, GridRow row) =>
        row.Cells.Select(
            (cell, i) =>
                cell.IsMarked ? Marked(cell, Differs)
                : !row.Stored && i == Math.Max(0, grid.Columns.ToList().FindIndex(c => c.Role == ColumnRole.Label))
                    ? Marked(cell, OnWires)
                : cell
        );

    /// <summary>The same for the eye: in a column of groups only the first cell of each is shown.</summary>
    public static IEnumerable<IReadOnlyList<Cell>> Seen(Grid grid)
    {
        GridRow? above = null;
        foreach (var row in grid.Rows)
        {
            yield return
            [
                .. Cells(grid, row)
                    .Select((cell, i) => grid.Columns[i].IsGroup && Same(above, row, i) ? Cell.Empty : cell),
            ];
            above = row;
        }
    }

    private static bool Same(GridRow? above, GridRow row, int column) =>
        above is not null && above.Cells[column].Lines.SequenceEqual(row.Cells[column].Lines);

    private static Cell Marked(Cell cell, string sign) =>
        cell with
        {
            Lines = cell.IsEmpty
                ? [Content.Text(sign)]
                : [.. cell.Lines.Take(cell.Lines.Count - 1), cell.Lines[^1] + Content.Text(" " + sign)],
        };
}
