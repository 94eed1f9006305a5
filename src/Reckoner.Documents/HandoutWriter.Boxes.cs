using PdfSharp.UniversalAccessibility;
using Reckoner.Drawing;

namespace Reckoner.Documents;

/// <summary>
/// Tables to be filled in by hand: a box for each digit, the parts of a register apart, and a reason between two rows, where it
/// happens. The key has the same places.
/// </summary>
internal sealed partial class HandoutWriter
{
    /// <summary>From line to line of a reason: what a hand writes in, a little closer than on empty lines.</summary>
    private const double ReasonPitch = 28;

    private List<Strip> Boxes(Grid grid, Filling filling)
    {
        var layout = BoxLayout.Of(grid, filling, TextWidth, Size);
        var head = new Strip(
            LineHeight + CellPadding,
            (y, _) =>
            {
                Structure.BeginElement(PdfBlockLevelElementTag.TableRow);
                Heads(
                    grid,
                    layout,
                    y,
                    draw =>
                    {
                        Structure.BeginElement(PdfBlockLevelElementTag.TableHeaderCell);
                        draw();
                        Structure.End();
                    }
                );
                Structure.End();
            }
        );
        var again = new Strip(
            head.Height,
            (y, _) =>
            {
                Structure.BeginArtifact();
                Heads(grid, layout, y, draw => draw());
                Structure.End();
            }
        );
        var reasons = Reasons(grid, filling, layout);
        return Table(
            grid.Caption,
            head,
            again,
            [.. grid.Rows.Select((_, i) => BoxedRow(grid, filling, layout, i, reasons[i]))]
        );
    }

    /// <summary>What stands above each row, in lines.</summary>
    private List<IReadOnlyList<SetLine>> Reasons(Grid grid, Filling filling, BoxLayout layout)
    {
        var width = TextWidth - layout.Label - CellPadding - Beside(grid, layout);
        List<IReadOnlyList<SetLine>> reasons =
        [
            .. grid.Rows.Select(
                (_, i) =>
                    grid.Remarks?.Words[i] is { Length: > 0 } words ? Setting.Lines([new Run(words)], width, Size) : []
            ),
        ];
        if (grid.Remarks is not { IsEven: true })
        {
            return reasons;
        }
        var most = reasons.Max(r => r.Count);
        var empty = Setting.Lines([], width, Size);
        return
        [
            .. reasons.Select(
                (r, i) => filling.Open[i].Count == 0 ? r : [.. r, .. Enumerable.Repeat(empty[0], most - r.Count)]
            ),
        ];
    }

    private void Heads(Grid grid, BoxLayout layout, double y, Action<Action> around)
    {
        foreach (var column in layout.Columns.Where(c => c.Named == 0))
        {
            around(() => Draw(grid.Head[column.Index], Face.Bold, Size, Left + column.Left, y + Size, Role.Ink));
        }
    }

    private Strip BoxedRow(Grid grid, Filling filling, BoxLayout layout, int row, IReadOnlyList<SetLine> reason)
    {
        var indent = layout.Label + CellPadding;
        var isFilled = filling.IsFilledAt(row);
        var isSaid = isFilled || grid.Remarks?.Given.Contains(row) == true;
        var rings = row < grid.Rings.Count ? grid.Rings[row] : [];
        var beside = Beside(grid, layout);
        // The reason stands behind the last rings, or below them.
        var ringLines = RingLines(rings, TextWidth - indent);
        var isBeside = beside > 0 && reason.Count > 0 && ringLines.Count > 0;
        var ringed = (ringLines.Count - (isBeside ? 1 : 0)) * ReasonPitch;
        // A long label stands above its boxes.
        var over = ringed + reason.Count * ReasonPitch + (layout.IsLabelAbove ? LineHeight : 0);
        var high = layout.Lines * (layout.Height + BoxLayout.BetweenLines);
        return new Strip(
            over + high + CellPadding,
            (y, _) =>
            {
                Structure.BeginElement(PdfBlockLevelElementTag.TableRow);
                if (rings.Count > 0)
                {
                    Cell(() =>
                    {
                        foreach (var (i, line) in ringLines.Index())
                        {
                            Ringed(line, indent, y + i * ReasonPitch, isSaid);
                        }
                    });
                }
                if (reason.Count > 0)
                {
                    Cell(() => Reason(reason, y + ringed, isSaid, indent + beside));
                }
                if (ringed + reason.Count > 0)
                {
                    Arrow(y, ringed + reason.Count * ReasonPitch, layout.Label);
                }
                foreach (var column in layout.Columns)
                {
                    Cell(() => Boxed(grid, filling, layout, column, row, y + over));
                }
                Structure.End();
            }
        );

        void Cell(Action draw)
        {
            Structure.BeginElement(PdfBlockLevelElementTag.TableDataCell);
            draw();
            Structure.End();
        }
    }

    private void Reason(IReadOnlyList<SetLine> lines, double y, bool isFilled, double indent)
    {
        for (var i = 0; i < lines.Count; i++)
        {
            var line = y + (i + 1) * ReasonPitch - 10;
            Rule(Left + indent, Left + TextWidth, line + 3);
            if (isFilled)
            {
                Draw(lines[i].Pieces, Left + indent + CellPadding, line - 1, Size, Role.Ink);
            }
        }
    }

    /// <summary>How much of a line the last rings take that stand before a reason; 0 where they leave it too little.</summary>
    private double Beside(Grid grid, BoxLayout layout)
    {
        var wide = grid
            .Rings.SelectMany(r => RingLines(r, TextWidth - layout.Label - CellPadding).TakeLast(1))
            .Select(l => l.Sum(Width))
            .DefaultIfEmpty(0)
            .Max();
        return wide <= MostRings * (TextWidth - layout.Label) ? wide : 0;
    }

    /// <summary>Rings that take a larger share of the line leave too little for a reason.</summary>
    private const double MostRings = 0.6;

    /// <summary>Half of one.</summary>
    private const double RingSize = 6;

    private static double Width(Ring ring) =>
        2 * RingSize + 6 + Typeface.Of(Face.Bold).Width(ring.Words, Size) + RingGap;

    /// <summary>Rings that a line has room for; one at least.</summary>
    private static List<List<Ring>> RingLines(IReadOnlyList<Ring> rings, double width)
    {
        var lines = new List<List<Ring>>();
        foreach (var ring in rings)
        {
            if (lines is [.., var last] && last.Sum(Width) + Width(ring) <= width + RingGap)
            {
                last.Add(ring);
            }
            else
            {
                lines.Add([ring]);
            }
        }
        return lines;
    }

    private const double RingGap = 16;

    /// <summary>What may be decided, each way with a ring before it; on the key that of the right one is filled.</summary>
    private void Ringed(IReadOnlyList<Ring> rings, double indent, double y, bool isSaid)
    {
        var (left, line) = (Left + indent, y + ReasonPitch - 10);
        foreach (var ring in rings)
        {
            var (at, top) = (left, line - Size * 0.36 - RingSize);
            Structure.BeginArtifact();
            pages.Page.DrawEllipse(Pen(Role.Ink, 1), at, top, 2 * RingSize, 2 * RingSize);
            if (isSaid && ring.IsTaken)
            {
                var ink = new PdfSharp.Drawing.XSolidBrush(PdfCanvas.Of(palette.Of(Role.Ink)));
                pages.Page.DrawEllipse(ink, at + 2.5, top + 2.5, 2 * RingSize - 5, 2 * RingSize - 5);
            }
            Structure.End();
            var face = isSaid && ring.IsTaken ? Face.Bold : Face.Plain;
            Draw(ring.Words, face, Size, at + 2 * RingSize + 6, line - 1, Role.Ink);
            left += Width(ring);
        }
    }

    /// <summary>Time runs from the row above to this one.</summary>
    private void Arrow(double y, double height, double right)
    {
        var (x, end) = (Left + Math.Min(right, 36) - 12, y + height - 2);
        var pen = Pen(Role.Quiet, 0.9);
        Structure.BeginArtifact();
        pages.Page.DrawLine(pen, x, y + 1, x, end);
        pages.Page.DrawLine(pen, x - 4, end - 5, x, end);
        pages.Page.DrawLine(pen, x + 4, end - 5, x, end);
        Structure.End();
    }

    private void Boxed(Grid grid, Filling filling, BoxLayout layout, BoxColumn column, int row, double y)
    {
        var text = grid.Rows[row][column.Index];
        var isOpen = filling.Open[row].Contains(column.Index);
        var isShown = !isOpen || filling.IsFilledAt(row);
        if (column.Named > 0)
        {
            var line = y + column.Line * (layout.Height + BoxLayout.BetweenLines) + layout.Height / 2 + Size / 3;
            Draw(grid.Head[column.Index], Face.Bold, Size, Left + column.Left - column.Named, line, Role.Ink);
        }
        var ink = isOpen ? Face.Bold : Face.Mono;
        if (!filling.Boxed.Contains(column.Index))
        {
            var isLabel = column.Line == 0 && column.Left < layout.Label;
            var top = y + column.Line * (layout.Height + BoxLayout.BetweenLines);
            var at = layout.IsLabelAbove && isLabel ? y - LineHeight + Size : top + layout.Height / 2 + Size / 3;
            Written(text, isOpen, isShown, column, at, isLabel ? Face.Bold : Face.Plain);
            return;
        }
        if (text.Length == 0)
        {
            return;
        }
        var digits = BoxLayout.Digits(text);
        var runs = layout.Runs(column, text);
        foreach (var run in runs)
        {
            var top = y + run.Line * (layout.Height + BoxLayout.BetweenLines);
            Box(run, layout, top);
            if (isShown)
            {
                for (var i = 0; i < run.Count; i++)
                {
                    var digit = digits[run.From + i].ToString();
                    var size = Math.Min(Size * 1.2, layout.Unit * 0.75);
                    var left = Left + run.Left + (i + 0.5) * layout.Unit - Typeface.Of(ink).Width(digit, size) / 2;
                    Draw(digit, ink, size, left, top + layout.Height / 2 + size * 0.36, Role.Ink);
                }
            }
        }
        if (isShown && runs is [.., var last])
        {
            var top = y + last.Line * (layout.Height + BoxLayout.BetweenLines);
            var behind = Left + last.Left + last.Count * layout.Unit + 3;
            Draw(BoxLayout.Behind(text), Face.Plain, Size, behind, top + layout.Height / 2 + Size / 3, Role.Ink);
        }
    }

    private void Written(string text, bool isOpen, bool isShown, BoxColumn column, double at, Face face)
    {
        if (isOpen && text.Length > 0)
        {
            Structure.BeginArtifact();
            Rule(Left + column.Left, Left + column.Left + column.Width, at + 3);
            Structure.End();
        }
        if (isShown)
        {
            Draw(text, isOpen ? Face.Bold : face, Size, Left + column.Left, at, Role.Ink);
        }
    }

    /// <summary>Boundaries of parts are solid, those of bits dashed.</summary>
    private void Box(BoxRun run, BoxLayout layout, double top)
    {
        var (left, width) = (Left + run.Left, run.Count * layout.Unit);
        Structure.BeginArtifact();
        pages.Page.DrawRoundedRectangle(Pen(Role.Ink, 1), left, top, width, layout.Height, 6, 6);
        var dashed = Pen(Role.Quiet, 0.7);
        dashed.DashPattern = [2.5, 2.5];
        for (var i = 1; i < run.Count; i++)
        {
            var x = left + i * layout.Unit;
            pages.Page.DrawLine(dashed, x, top + 1, x, top + layout.Height - 1);
        }
        Structure.End();
    }
}
