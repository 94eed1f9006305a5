using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;
using Reckoner.Drawing;
using Reckoner.Sheets;

namespace Reckoner.Documents;

/// <summary>
/// By what a page is known when it comes back: a frame around it, and at its foot the number of its sheet as a register of filled
/// and empty cells, with the letters beside it.
/// </summary>
internal sealed partial class HandoutWriter
{
    /// <summary>8 mm from the edge of the paper, where every printer still prints.</summary>
    private const double FrameAt = 30;

    private const double CellWidth = 9;
    private const double CellHeight = 14;
    private const double BetweenParts = 5;

    private void Marked(SheetNumber number, Paper paper, int page, int count)
    {
        var (left, top) = (paper.Margin, paper.Height - paper.Margin + 14);
        Structure.BeginArtifact();
        // The frame is the mark for a scan, and so the same on every sheet.
        var frame = FrameAt / paper.Larger;
        pages.Page.DrawRectangle(
            Pen(Role.Ink, 1.6 / paper.Larger),
            frame,
            frame,
            paper.Width - 2 * frame,
            paper.Height - 2 * frame
        );
        foreach (var part in number.Cells(page))
        {
            Part(part, left, top, paper.Larger);
            left += (part.Count * CellWidth + BetweenParts) / paper.Larger;
        }
        Structure.End();
        var said = pageOf(page, count);
        var right = paper.Width - paper.Margin - Typeface.Of(Face.Plain).Width(said, Size);
        var (letters, line) = (left + 8, top + CellHeight - 3);
        // On small paper the count stands below, beside the foot.
        var isNarrow = letters + Typeface.Of(Face.Mono).Width($"{number}", Size) + 8 > right;
        // What stands below every page is read out once.
        if (page == 1)
        {
            Structure.BeginElement(PdfBlockLevelElementTag.Paragraph);
            Draw($"{number}", Face.Mono, Size, letters, line, Role.Ink);
            Structure.End();
        }
        Structure.BeginArtifact();
        if (page > 1)
        {
            Draw($"{number}", Face.Mono, Size, letters, line, Role.Ink);
        }
        Draw(said, Face.Plain, Size, right, isNarrow ? line + Size + 2 : line, Role.Quiet);
        Draw(foot, Face.Plain, Size - 4, paper.Margin, line + Size + 2, Role.Quiet);
        Structure.End();
    }

    /// <summary>Its boundary solid, those of its cells dashed, as of every register.</summary>
    private void Part(IReadOnlyList<bool> cells, double left, double top, double larger)
    {
        var (width, height) = (CellWidth / larger, CellHeight / larger);
        var ink = new XSolidBrush(PdfCanvas.Of(palette.Of(Role.Ink)));
        var dashed = Pen(Role.Quiet, 0.6);
        dashed.DashPattern = [2, 2];
        for (var i = 0; i < cells.Count; i++)
        {
            var at = left + i * width;
            if (cells[i])
            {
                pages.Page.DrawRectangle(ink, at, top, width, height);
            }
            if (i > 0)
            {
                pages.Page.DrawLine(dashed, at, top + 1, at, top + height - 1);
            }
        }
        pages.Page.DrawRectangle(Pen(Role.Ink, 1), left, top, cells.Count * width, height);
    }
}
