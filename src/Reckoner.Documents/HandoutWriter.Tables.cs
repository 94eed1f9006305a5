using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;
using Reckoner.Drawing;

namespace Reckoner.Documents;

public sealed partial class HandoutWriter
{
    private void Set(Grid grid)
    {
        var widths = GridColumns.Widths(grid, paper.TextWidth, Size, CellPadding);
        var head = Cells(grid.Head, widths, Face.Bold);
        var first = grid.Rows.Count > 0 ? Cells(grid.Rows[0], widths, grid.Face) : head;
        Need(Height(head) + Height(first) + (grid.Caption is null ? 0 : Size * Leading));
        Structure.BeginElement(PdfBlockLevelElementTag.Table);
        if (grid.Caption is { } caption)
        {
            Structure.BeginElement(PdfGroupingElementTag.Caption);
            Set([new Run(caption)], paper.Margin, paper.TextWidth, Size, Role.Quiet);
            Structure.End();
        }
        Row(head, widths, PdfBlockLevelElementTag.TableHeaderCell);
        foreach (var row in grid.Rows)
        {
            var cells = Cells(row, widths, grid.Face);
            if (y > paper.Margin && y + Height(cells) > paper.Bottom)
            {
                NewPage();
                Structure.BeginArtifact();
                Drawn(head, widths);
                Structure.End();
            }
            Row(cells, widths, PdfBlockLevelElementTag.TableDataCell);
        }
        Structure.End();
    }

    private static List<IReadOnlyList<IReadOnlyList<Piece>>> Cells(
        IReadOnlyList<string> words,
        IReadOnlyList<double> widths,
        Face face
    ) => [.. words.Select((w, i) => Setting.Lines([new Run(w, face)], widths[i] - 2 * CellPadding + 0.01, Size))];

    private static double Height(IReadOnlyList<IReadOnlyList<IReadOnlyList<Piece>>> cells) =>
        cells.Max(c => c.Count) * Size * Leading + CellPadding;

    private void Row(
        IReadOnlyList<IReadOnlyList<IReadOnlyList<Piece>>> cells,
        IReadOnlyList<double> widths,
        PdfBlockLevelElementTag tag
    )
    {
        Structure.BeginElement(PdfBlockLevelElementTag.TableRow);
        var left = paper.Margin;
        foreach (var (cell, i) in cells.Select((c, i) => (c, i)))
        {
            Structure.BeginElement(tag);
            Cell(cell, left);
            Structure.End();
            left += widths[i];
        }
        Structure.End();
        Ruled(cells, widths);
    }

    private void Drawn(IReadOnlyList<IReadOnlyList<IReadOnlyList<Piece>>> cells, IReadOnlyList<double> widths)
    {
        var left = paper.Margin;
        foreach (var (cell, i) in cells.Select((c, i) => (c, i)))
        {
            Cell(cell, left);
            left += widths[i];
        }
        Line(cells, widths);
    }

    private void Cell(IReadOnlyList<IReadOnlyList<Piece>> lines, double left)
    {
        var baseline = y + Size + CellPadding / 2;
        foreach (var line in lines)
        {
            Draw(line, left + CellPadding, baseline, Size, Role.Ink);
            baseline += Size * Leading;
        }
    }

    private void Ruled(IReadOnlyList<IReadOnlyList<IReadOnlyList<Piece>>> cells, IReadOnlyList<double> widths)
    {
        Structure.BeginArtifact();
        Line(cells, widths);
        Structure.End();
    }

    private void Line(IReadOnlyList<IReadOnlyList<IReadOnlyList<Piece>>> cells, IReadOnlyList<double> widths)
    {
        y += Height(cells);
        var pen = new XPen(PdfCanvas.Of(palette.Of(Role.Rule)), 0.8);
        pages.Page.DrawLine(pen, paper.Margin, y, paper.Margin + widths.Sum(), y);
    }
}
