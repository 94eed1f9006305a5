using PdfSharp.UniversalAccessibility;
using Reckoner.Drawing;

namespace Reckoner.Documents;

internal sealed partial class HandoutWriter
{
    private const double CellPadding = 5;

    /// <summary>Remarks stand beside their rows where the digits leave them so much of the line.</summary>
    private const double RoomForRemarks = 0.6;

    /// <summary>How far remarks are moved in that stand under their rows.</summary>
    private const double RemarkIndent = 28;

    /// <summary>A cell set in lines, from the left edge of the text.</summary>
    private sealed record Cell(double Left, double Width, IReadOnlyList<SetLine> Lines)
    {
        /// <summary>Whether there is a line to write on, below words or without any.</summary>
        public bool IsOpen { get; init; }

        /// <summary>Whether its lines are as long as it is wide, whatever its words.</summary>
        public bool IsEven { get; init; }

        /// <summary>Whether its words are left for a hand to write.</summary>
        public bool IsEmpty { get; init; }
    }

    /// <summary>A row of cells; the last one stands under the others where it is a remark without room beside them.</summary>
    private sealed record Line(IReadOnlyList<Cell> Cells, Cell? Below);

    private sealed record Layout(IReadOnlyList<double> Widths, double Size, bool IsRemarkBelow);

    private List<Strip> Strips(Grid grid)
    {
        if (grid.Filling is { Boxed.Count: > 0 } filling)
        {
            return Boxes(grid, filling);
        }
        var room = grid with { Rows = [.. grid.Rows.Select((row, i) => Places(row, grid.Filling?.Open[i]))] };
        var layout = Laid(room);
        var head = Set(room, grid.Head, grid.Remarks?.Head, Face.Bold, layout);
        List<Line> lines =
        [
            .. grid.Rows.Select(
                (row, i) => Opened(Set(room, row, grid.Remarks?.Words[i], null, layout), grid.Filling, i)
            ),
        ];
        var rows = Even(lines, grid.Filling).Select(line => Row(line, layout, PdfBlockLevelElementTag.TableDataCell));
        var headRow = Row(head, layout, PdfBlockLevelElementTag.TableHeaderCell);
        return Table(grid.Caption, headRow, Again(head, layout), [.. rows]);
    }

    /// <summary>What is to be written in takes the room of a place for it, or its own where that is more.</summary>
    private static IReadOnlyList<string> Places(IReadOnlyList<string> row, IReadOnlySet<int>? open) =>
        open is null
            ? row
            :
            [
                .. row.Select(
                    (words, i) => open.Contains(i) && words.Length < Filling.Place.Length ? Filling.Place : words
                ),
            ];

    /// <summary>Places of a column that take the room of the longest of them, so that it tells nothing.</summary>
    private static IEnumerable<Line> Even(IReadOnlyList<Line> lines, Filling? filling) =>
        (filling?.Even ?? new HashSet<int>()).Aggregate(
            (IEnumerable<Line>)lines,
            (ls, column) => Even([.. ls], column)
        );

    private static IEnumerable<Line> Even(IReadOnlyList<Line> lines, int column)
    {
        var most = lines.Max(l => l.Cells[column].Lines.Count);
        var empty = Setting.Lines([], 1, Size)[0];
        return lines.Select(l =>
            !l.Cells[column].IsOpen
                ? l
                : l with
                {
                    Cells =
                    [
                        .. l.Cells.Select(
                            (c, i) =>
                                i != column
                                    ? c
                                    : c with
                                    {
                                        Lines = [.. c.Lines, .. Enumerable.Repeat(empty, most - c.Lines.Count)],
                                        IsEven = true,
                                    }
                        ),
                    ],
                }
        );
    }

    private static Line Opened(Line line, Filling? filling, int row) =>
        filling is null
            ? line
            : line with
            {
                Cells =
                [
                    .. line.Cells.Select(
                        (c, i) =>
                            filling.Open[row].Contains(i)
                                ? c with
                                {
                                    IsOpen = true,
                                    IsEmpty = !filling.IsFilledAt(row),
                                }
                                : c
                    ),
                ],
            };

    /// <summary>
    /// A table that a page has room for stays whole, and of one that is longer no row is left alone, neither under its head nor on
    /// the next page.
    /// </summary>
    private List<Strip> Table(string? caption, Strip head, Strip again, List<Strip> rows)
    {
        var title = caption is null
            ? []
            : Tagged(
                Lines([new Run(caption)], Left, TextWidth, Size, Role.Quiet),
                () => Structure.BeginElement(PdfGroupingElementTag.Caption)
            );
        List<Strip> all = [.. title, head, .. rows];
        var isWhole = all.Sum(s => s.Height) <= upright.TextHeight;
        var first = title.Count + 1;
        return Tagged(
            [
                .. all.Select(
                    (s, i) =>
                        s with
                        {
                            StaysWithAbove = i > 0 && (isWhole || i <= first + 1 || i == all.Count - 1),
                            Again = isWhole || i < first ? null : again,
                        }
                ),
            ],
            () => Structure.BeginElement(PdfBlockLevelElementTag.Table)
        );
    }

    private Layout Laid(Grid grid)
    {
        var plain = grid with { Remarks = null };
        var wanted = GridColumns.Wanted(plain, Size, CellPadding);
        var beside = TextWidth - wanted.Sum();
        if (grid.Remarks is not null && beside >= RoomForRemarks * TextWidth)
        {
            return new Layout([.. wanted, beside], Size, IsRemarkBelow: false);
        }
        var (widths, size) = GridColumns.Fitted(plain, TextWidth, Size, CellPadding);
        return new Layout(widths, size, IsRemarkBelow: grid.Remarks is not null);
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
        return cell with { Lines = [.. cell.Lines.Select(l => l with { Pieces = Moved(l.Pieces) })] };

        IReadOnlyList<Piece> Moved(IReadOnlyList<Piece> line)
        {
            var spare = line is [.., var last] ? room - last.Left - last.Width(size) : 0;
            return [.. line.Select(p => p with { Left = p.Left + Math.Max(0, spare) })];
        }
    }

    private static double HeightOfCells(Line line, Layout layout) =>
        line.Cells.Max(c => c.Lines.Count) * layout.Size * SetLine.Leading + CellPadding;

    private static double Height(Line line, Layout layout) =>
        HeightOfCells(line, layout)
        + (line.Below is { Lines: [{ Pieces.Count: > 0 }, ..] } below ? below.Lines.Count * LineHeight : 0);

    private Strip Row(Line line, Layout layout, PdfBlockLevelElementTag tag) =>
        new(
            Height(line, layout),
            (y, height) =>
            {
                Structure.BeginElement(PdfBlockLevelElementTag.TableRow);
                Draw(
                    line,
                    layout,
                    y,
                    draw =>
                    {
                        Structure.BeginElement(tag);
                        draw();
                        Structure.End();
                    }
                );
                Structure.End();
                Structure.BeginArtifact();
                Rule(line, layout, y + height);
                Structure.End();
            }
        );

    /// <summary>The head of a table on the pages behind its first; it is read out once.</summary>
    private Strip Again(Line head, Layout layout) =>
        new(
            Height(head, layout),
            (y, height) =>
            {
                Structure.BeginArtifact();
                Draw(head, layout, y, draw => draw());
                Rule(head, layout, y + height);
                Structure.End();
            }
        );

    private void Draw(Line line, Layout layout, double y, Action<Action> around)
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
        var left = Left + cell.Left + CellPadding;
        foreach (var line in cell.Lines)
        {
            if (cell.IsEven)
            {
                Rule(left, left + cell.Width - 2 * CellPadding, baseline + 2);
            }
            else if (cell.IsOpen && line.Pieces is [.., var last])
            {
                var place = Typeface.Of(Face.Plain).Width(Filling.Place, size);
                Rule(left, left + Math.Max(place, last.Left + last.Width(size)), baseline + 2);
            }
            if (!cell.IsEmpty)
            {
                Draw(line.Pieces, left, baseline, size, Role.Ink);
            }
            baseline += size * SetLine.Leading;
        }
    }

    private void Rule(Line line, Layout layout, double at) =>
        Rule(Left, Left + (line.Below is null ? layout.Widths.Sum() : TextWidth), at);
}
