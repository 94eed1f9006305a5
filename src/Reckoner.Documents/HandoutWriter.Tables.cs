using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;
using Reckoner.Drawing;

namespace Reckoner.Documents;

internal sealed partial class HandoutWriter
{
    /// <summary>Remarks stand beside their rows where the digits leave them so much of the line.</summary>
    private const double RoomForRemarks = 0.6;

    /// <summary>How far remarks are moved in that stand under their rows.</summary>
    private const double RemarkIndent = 28;

    /// <summary>A cell set in lines, from the left edge of the text.</summary>
    private sealed record Cell(double Left, double Width, IReadOnlyList<IReadOnlyList<Piece>> Lines)
    {
        /// <summary>Whether lines to write on stand in the place of its words.</summary>
        public bool IsOpen { get; init; }
    }

    /// <summary>A row of cells; the last one stands under the others where it is a remark without room beside them.</summary>
    private sealed record Line(IReadOnlyList<Cell> Cells, Cell? Below)
    {
        /// <summary>The height that its cells take at least.</summary>
        public double Least { get; init; }
    }

    private sealed record Layout(IReadOnlyList<double> Widths, double Size, bool IsRemarkBelow);

    private void Set(Grid grid)
    {
        var (layout, head, rows) = Lines(grid);
        Need(Beginning(grid));
        Structure.BeginElement(PdfBlockLevelElementTag.Table);
        if (grid.Caption is { } words)
        {
            Structure.BeginElement(PdfGroupingElementTag.Caption);
            Set([new Run(words)], paper.Margin, TextWidth, Size, Role.Quiet);
            Structure.End();
        }
        Tagged(head, layout, PdfBlockLevelElementTag.TableHeaderCell);
        for (var i = 0; i < rows.Count; i++)
        {
            var together = rows.Skip(i).Take(i > 0 && i == rows.Count - 2 ? 2 : 1).Sum(r => Height(r, layout));
            if (y > paper.Margin && y + together > paper.Bottom)
            {
                NewPage();
                Structure.BeginArtifact();
                Drawn(head, layout, draw => draw());
                Rule(head, layout);
                Structure.End();
            }
            Tagged(rows[i], layout, PdfBlockLevelElementTag.TableDataCell);
        }
        Structure.End();
    }

    private (Layout Layout, Line Head, List<Line> Rows) Lines(Grid grid)
    {
        var layout = Laid(grid);
        var head = Set(grid, grid.Head, grid.Remarks?.Head, Face.Bold, layout);
        var rows = grid.Rows.Select((row, i) => Opened(Set(grid, row, grid.Remarks?.Words[i], null, layout))).ToList();
        if (grid.Shown is { } shown)
        {
            // What is drawn takes the room that the rows have.
            var drawn = shown.Select((row, i) => Set(grid, row, grid.Remarks?.Words[i], null, layout));
            rows = [.. rows.Zip(drawn, (room, words) => Opened(words) with { Least = HeightOfCells(room, layout) })];
        }
        return (layout, head, rows);

        Line Opened(Line line) =>
            grid.Remarks is not { IsOpen: true } ? line
            : line.Below is { } below ? line with { Below = below with { IsOpen = true } }
            : line with { Cells = [.. line.Cells.SkipLast(1), line.Cells[^1] with { IsOpen = true }] };
    }

    /// <summary>The height of all of it.</summary>
    private double Height(Grid grid)
    {
        var (layout, head, rows) = Lines(grid);
        return Caption(grid) + Height(head, layout) + rows.Sum(r => Height(r, layout));
    }

    private double Caption(Grid grid) =>
        grid.Caption is null ? 0 : Setting.Lines([new Run(grid.Caption)], TextWidth, Size).Count * Size * Leading;

    /// <summary>No row is left alone, neither under its head nor on the next page.</summary>
    private double Beginning(Grid grid)
    {
        var (layout, head, rows) = Lines(grid);
        return Caption(grid) + Height(head, layout) + rows.Take(2).Sum(r => Height(r, layout));
    }

    private Layout Laid(Grid grid)
    {
        var plain = grid with { Remarks = null };
        var wanted = GridColumns.Wanted(plain, Size, CellPadding).Sum();
        if (grid.Remarks is null)
        {
            var (widths, size) = GridColumns.Fitted(plain, TextWidth, Size, CellPadding);
            return new Layout(widths, size, IsRemarkBelow: false);
        }
        var beside = TextWidth - wanted;
        if (beside >= RoomForRemarks * TextWidth)
        {
            return new Layout([.. GridColumns.Wanted(plain, Size, CellPadding), beside], Size, IsRemarkBelow: false);
        }
        var (columns, small) = GridColumns.Fitted(plain, TextWidth, Size, CellPadding);
        return new Layout(columns, small, IsRemarkBelow: true);
    }

    /// <param name="face">The face of every cell; null for that of its column.</param>
    private Line Set(Grid grid, IReadOnlyList<string> words, string? remark, Face? face, Layout layout)
    {
        var cells = new List<Cell>();
        var left = 0.0;
        foreach (var (text, i) in words.Select((w, i) => (w, i)))
        {
            var cell = Made(text, face ?? grid.FaceOf(i), left, layout.Widths[i], layout.Size);
            cells.Add(grid.Numbers.Contains(i) ? ToTheRight(cell, layout.Size) : cell);
            left += layout.Widths[i];
        }
        if (remark is null)
        {
            return new Line(cells, null);
        }
        var remarkFace = face ?? Face.Plain;
        return layout.IsRemarkBelow
            ? new Line(cells, Made(remark, remarkFace, RemarkIndent, TextWidth - RemarkIndent, Size))
            : new Line([.. cells, Made(remark, remarkFace, left, layout.Widths[^1], Size)], null);
    }

    private static Cell Made(string words, Face face, double left, double width, double size) =>
        new(left, width, Setting.Lines([new Run(words, face)], width - 2 * CellPadding + 0.01, size));

    private static Cell ToTheRight(Cell cell, double size)
    {
        var room = cell.Width - 2 * CellPadding;
        return cell with { Lines = [.. cell.Lines.Select(Moved)] };

        IReadOnlyList<Piece> Moved(IReadOnlyList<Piece> line)
        {
            var spare = line is [.., var last] ? room - last.Left - Typeface.Of(last.Face).Width(last.Words, size) : 0;
            return [.. line.Select(p => p with { Left = p.Left + Math.Max(0, spare) })];
        }
    }

    private static double HeightOfCells(Line line, Layout layout) =>
        Math.Max(line.Least, line.Cells.Max(c => c.Lines.Count) * layout.Size * Leading + CellPadding);

    private static double HeightBelow(Line line) =>
        line.Below is { Lines: [{ Count: > 0 }, ..] } below ? below.Lines.Count * Size * Leading : 0;

    private static double Height(Line line, Layout layout) => HeightOfCells(line, layout) + HeightBelow(line);

    private void Tagged(Line line, Layout layout, PdfBlockLevelElementTag tag)
    {
        Structure.BeginElement(PdfBlockLevelElementTag.TableRow);
        Drawn(
            line,
            layout,
            draw =>
            {
                Structure.BeginElement(tag);
                draw();
                Structure.End();
            }
        );
        Structure.End();
        Structure.BeginArtifact();
        Rule(line, layout);
        Structure.End();
    }

    private void Drawn(Line line, Layout layout, Action<Action> around)
    {
        foreach (var cell in line.Cells)
        {
            around(() => Draw(cell, y, layout.Size));
        }
        if (line.Below is { } below)
        {
            around(() => Draw(below, y + HeightOfCells(line, layout) - CellPadding, Size));
        }
    }

    private void Draw(Cell cell, double top, double size)
    {
        var baseline = top + size + CellPadding / 2;
        if (cell.IsOpen)
        {
            Open(cell, baseline, size);
            return;
        }
        foreach (var line in cell.Lines)
        {
            Draw(line, paper.Margin + cell.Left + CellPadding, baseline, size, Role.Ink);
            baseline += size * Leading;
        }
    }

    /// <summary>As many lines to write on as there would be words.</summary>
    private void Open(Cell cell, double baseline, double size)
    {
        var pen = new XPen(PdfCanvas.Of(palette.Of(Role.Rule)), 0.8);
        var left = paper.Margin + cell.Left + CellPadding;
        foreach (var at in cell.Lines.Where(l => l.Count > 0).Select((_, i) => baseline + i * size * Leading + 2))
        {
            pages.Page.DrawLine(pen, left, at, left + cell.Width - 2 * CellPadding, at);
        }
    }

    private void Rule(Line line, Layout layout)
    {
        y += Height(line, layout);
        var right = line.Below is null ? layout.Widths.Sum() : TextWidth;
        var pen = new XPen(PdfCanvas.Of(palette.Of(Role.Rule)), 0.8);
        pages.Page.DrawLine(pen, paper.Margin, y, paper.Margin + right, y);
    }
}
