using System.Globalization;
using Reckoner.Tables;
using Reckoner.Words;
using SpreadCheetah;
using SpreadCheetah.Styling;
using SpreadCheetah.Worksheets;
using Cell = Reckoner.Tables.Cell;

namespace Reckoner.Documents;

/// <summary>
/// The tables of a document as a workbook (Office Open XML), a sheet for each. Cycles and counts are numbers; every other cell is
/// text, so no zero of digits is lost and nothing is ever a formula. The head stays where it is when one scrolls.
/// </summary>
internal static class XlsxWriter
{
    private const double WidestColumn = 60;
    private const string DigitsFont = "Courier New";

    public static byte[] Write(Document document)
    {
        using var stream = new MemoryStream();
        Write(stream, document);
        return stream.ToArray();
    }

    /// <summary>The same, row by row.</summary>
    public static void Write(Stream stream, Document document) =>
        WriteTo(stream, document).AsTask().GetAwaiter().GetResult();

    private static async ValueTask WriteTo(Stream stream, Document document)
    {
        await using var workbook = await Spreadsheet.CreateNewAsync(stream);
        var text = NumberFormat.Standard(StandardNumberFormat.Text);
        var head = workbook.AddStyle(new Style { Font = { Bold = true }, Format = text });
        var plain = workbook.AddStyle(new Style { Format = text });
        var number = workbook.AddStyle(new Style { Alignment = { Horizontal = HorizontalAlignment.Left } });
        var digits = workbook.AddStyle(new Style { Font = { Name = DigitsFont }, Format = text });
        foreach (var grid in document.Grids)
        {
            await workbook.StartWorksheetAsync(grid.Name, Layout(grid));
            await workbook.AddRowAsync([.. grid.Columns.Select(c => new StyledCell(Marks.FullHead(c), head))]);
            foreach (var row in grid.Rows)
            {
                var cells = Marks.Cells(grid, row).Zip(grid.Columns);
                await workbook.AddRowAsync([
                    .. cells.Select(c =>
                        c.Second.Role == ColumnRole.Digits ? new StyledCell(Text(c.First), digits)
                        : Count(c.First, row) is { } count ? new StyledCell(count, number)
                        : Fraction(c.First, c.Second) is { } fraction ? new StyledCell(fraction, number)
                        : new StyledCell(Text(c.First), plain)
                    ),
                ]);
            }
        }
        await workbook.FinishAsync();
    }

    /// <summary>What counts something: the cycle of a row, or a number of few digits that stands alone.</summary>
    private static int? Count(Cell cell, GridRow row) =>
        cell.Lines is [{ Runs: [var run] }]
        && int.TryParse(run.Text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var count)
        && (run.Kind == RunKind.Number || count == row.Cycle)
            ? count
            : null;

    /// <summary>A decimal fraction among numbers, such as half a mark: whoever adds up a column needs it as a number.</summary>
    private static decimal? Fraction(Cell cell, GridColumn column) =>
        column.Role == ColumnRole.Numbers
        && cell.Lines is [{ Runs: [{ Kind: RunKind.Number } run] }]
        && run.Text.Length < 12
        && decimal.TryParse(
            run.Text,
            NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint,
            CultureInfo.InvariantCulture,
            out var fraction
        )
            ? fraction
            : null;

    private static string Text(Cell cell) => string.Join("; ", cell.Lines.Select(l => l.ToString()));

    /// <summary>A column is as wide as what stands in it, sentences excepted.</summary>
    private static WorksheetOptions Layout(Tables.Grid grid)
    {
        var options = new WorksheetOptions { FrozenRows = 1 };
        for (var i = 0; i < grid.Columns.Count; i++)
        {
            var longest = grid
                .Rows.Select(r => Text(r.Cells[i]).Length)
                .Append(Marks.FullHead(grid.Columns[i]).Length)
                .Max();
            options.Column(i + 1).Width = Math.Min(WidestColumn, longest * 1.2 + 3);
        }
        return options;
    }
}
