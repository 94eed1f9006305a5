using Reckoner.Words;

namespace Reckoner.Tables;

/// <summary>Signs in heads, labels and cells that a note below the table explains.</summary>
public static class Marks
{
    /// <summary>Stands on the wires only.</summary>
    public const string OnWires = "~";

    /// <summary>Differs from what stands left of it.</summary>
    public const string Differs = "*";

    public static bool IsSign(Run run) => run.Kind == RunKind.Text && run.Text.Trim() is OnWires or Differs;

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

    private static Cell Marked(Cell cell, string sign) =>
        cell with
        {
            Lines = cell.IsEmpty
                ? [Content.Text(sign)]
                : [.. cell.Lines.Take(cell.Lines.Count - 1), cell.Lines[^1] + Content.Text(" " + sign)],
        };
}
