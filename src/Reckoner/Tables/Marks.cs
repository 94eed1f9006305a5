using Reckoner.Words;

namespace Reckoner.Tables;

/// <summary>Signs in heads, labels and cells that a note below the table explains.</summary>
internal static class Marks
{
    /// <summary>Stands on the wires only.</summary>
    public const string OnWires = "~";

    /// <summary>Differs from what stands left of it.</summary>
    public const string Differs = "*";

    /// <summary>The same as above.</summary>
    public const string Same = "\"";

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

    /// <summary>
    /// The same for the eye: in a column of groups only the first cell of each is shown. Sentences may be missing, so those that go
    /// on have a sign.
    /// </summary>
    public static IEnumerable<IReadOnlyList<Cell>> Seen(Grid grid)
    {
        GridRow? above = null;
        foreach (var row in grid.Rows)
        {
            yield return
            [
                .. Cells(grid, row)
                    .Select(
                        (cell, i) =>
                            !grid.Columns[i].IsGroup || !IsSame(above, row, i) ? cell
                            : grid.Columns[i].Role == ColumnRole.Sentences && !cell.IsEmpty
                                ? Cell.Of(Content.Text(Same))
                            : Cell.Empty
                    ),
            ];
            above = row;
        }
    }

    /// <summary>Whether a cell only says that it is as the one above.</summary>
    public static bool IsSame(Cell cell) => cell.Lines is [{ Runs: [{ Kind: RunKind.Text, Text: Same }] }];

    private static bool IsSame(GridRow? above, GridRow row, int column) =>
        Repeats(above?.Cells[column].Lines, row.Cells[column].Lines);

    /// <summary>Whether lines say again what those above them say; where nothing is said, nothing is said again.</summary>
    public static bool Repeats<T>(IReadOnlyList<T>? above, IReadOnlyList<T> lines) =>
        above is not null && lines.Count > 0 && lines.SequenceEqual(above);

    private static Cell Marked(Cell cell, string sign) =>
        cell with
        {
            Lines = cell.IsEmpty
                ? [Content.Text(sign)]
                : [.. cell.Lines.Take(cell.Lines.Count - 1), cell.Lines[^1] + Content.Text(" " + sign)],
        };
}
