using System.Globalization;
using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;
using Reckoner.Drawing;

namespace Reckoner.Documents;

/// <summary>
/// A handout as a tagged PDF: headings, paragraphs, lists, tables with their head cells and figures with their description, in
/// reading order.
/// </summary>
public sealed partial class HandoutWriter : IDisposable
{
    private const double Size = 14;
    private const double Leading = 1.45;
    private const double Between = 12;
    private const double CellPadding = 5;

    private static readonly (PdfBlockLevelElementTag Tag, double Size)[] Headings =
    [
        (PdfBlockLevelElementTag.Heading1, 26),
        (PdfBlockLevelElementTag.Heading2, 20),
        (PdfBlockLevelElementTag.Heading3, 17),
        (PdfBlockLevelElementTag.Heading4, 15),
        (PdfBlockLevelElementTag.Heading5, 14),
        (PdfBlockLevelElementTag.Heading6, 14),
    ];

    /// <summary>Paper is printed on; a tinted ground would cost ink.</summary>
    private static readonly Colour White = Colour.Of(0xFFFFFF);

    private readonly PdfPages pages;
    private readonly Paper paper;
    private readonly Palette palette;
    private readonly TextForm textForm;
    private double y;

    private HandoutWriter(Handout handout, Palette palette, Paper paper, TextForm textForm)
    {
        this.palette = palette;
        this.paper = paper;
        this.textForm = textForm;
        pages = new PdfPages(handout.Title, handout.Language);
    }

    public static byte[] Write(
        Handout handout,
        Palette palette,
        Paper? paper = null,
        TextForm textForm = TextForm.Letters
    )
    {
        using var writer = new HandoutWriter(handout, palette, paper ?? Paper.A4, textForm);
        writer.NewPage();
        foreach (var block in handout.Blocks)
        {
            writer.Set(block);
        }
        return writer.pages.Bytes();
    }

    public void Dispose() => pages.Dispose();

    private StructureBuilder Structure => pages.Structure;

    private void NewPage()
    {
        pages.Begin(paper.Width, paper.Height, White);
        y = paper.Margin;
        var number = (pages.Count).ToString(CultureInfo.InvariantCulture);
        Structure.BeginArtifact();
        Draw(
            number,
            Face.Plain,
            Size,
            paper.Width - paper.Margin - Typeface.Of(Face.Plain).Width(number, Size),
            paper.Height - paper.Margin / 2,
            Role.Quiet
        );
        Structure.End();
    }

    /// <summary>Goes on to the next page where so much has no room on this one.</summary>
    private void Need(double height)
    {
        if (y > paper.Margin && y + height > paper.Bottom + 0.01)
        {
            NewPage();
        }
    }

    private void Set(Block block)
    {
        switch (block)
        {
            case Heading h:
                Set(h);
                break;
            case Paragraph p:
                Structure.BeginElement(PdfBlockLevelElementTag.Paragraph);
                Set(p.Runs, paper.Margin, paper.TextWidth, Size, Role.Ink);
                Structure.End();
                break;
            case Listing l:
                Set(l);
                break;
            case Verbatim v:
                Set(v);
                break;
            case Grid g:
                Set(g);
                break;
            case Picture p:
                var scene = p.Scene;
                pages.Figure(scene, Place(scene.Width, scene.Height), palette, textForm);
                break;
            case Photograph p:
                pages.Image(p.Bytes, p.Alternative, Place(p.Width, p.Height));
                break;
            case PageEnd:
                NewPage();
                return;
            default:
                throw new InvalidOperationException(block.GetType().Name);
        }
        y += Between;
    }

    private void Set(Heading heading)
    {
        var (tag, size) = Headings[heading.Level - 1];
        // A heading stays with the first lines of what it heads.
        Need(size * Leading + 5 * Size * Leading);
        y += y > paper.Margin ? size * 0.5 : 0;
        Structure.BeginElement(tag);
        Set([new Run(heading.Words, Face.Bold)], paper.Margin, paper.TextWidth, size, Role.Ink);
        Structure.End();
        y -= size * 0.2;
    }

    private void Set(IReadOnlyList<Run> runs, double left, double width, double size, Role ink)
    {
        foreach (var line in Setting.Lines(runs, width, size))
        {
            Need(size * Leading);
            Draw(line, left, y + size, size, ink);
            y += size * Leading;
        }
    }

    private void Draw(IReadOnlyList<Piece> line, double left, double baseline, double size, Role ink)
    {
        // Neighbours of one face are drawn together, blanks and all, so that what is copied out keeps its blanks.
        foreach (var piece in Joined(line, size))
        {
            Draw(piece.Words, piece.Face, size, left + piece.Left, baseline, ink);
        }
    }

    private static IEnumerable<Piece> Joined(IReadOnlyList<Piece> line, double size)
    {
        for (var i = 0; i < line.Count; )
        {
            var piece = line[i++];
            while (i < line.Count && line[i].Face == piece.Face)
            {
                var end = piece.Left + Typeface.Of(piece.Face).Width(piece.Words, size);
                var blank = line[i].Left > end + 0.01 ? " " : "";
                piece = piece with { Words = piece.Words + blank + line[i++].Words };
            }
            yield return piece;
        }
    }

    private void Draw(string words, Face face, double size, double left, double baseline, Role ink)
    {
        if (words.Length > 0)
        {
            var brush = new XSolidBrush(PdfCanvas.Of(palette.Of(ink)));
            pages.Page.DrawString(words, PdfCanvas.Font(face, size), brush, new XPoint(left, baseline));
        }
    }

    private void Set(Listing listing)
    {
        var indent = Size * 2;
        Structure.BeginElement(PdfBlockLevelElementTag.List);
        foreach (var (item, i) in listing.Items.Select((item, i) => (item, i)))
        {
            Need(Size * Leading);
            Structure.BeginElement(PdfBlockLevelElementTag.ListItem);
            Structure.BeginElement(PdfBlockLevelElementTag.Label);
            var label = listing.IsNumbered ? $"{(i + 1).ToString(CultureInfo.InvariantCulture)}." : "–";
            Draw(label, Face.Plain, Size, paper.Margin, y + Size, Role.Ink);
            Structure.End();
            Structure.BeginElement(PdfBlockLevelElementTag.ListBody);
            Set(item, paper.Margin + indent, paper.TextWidth - indent, Size, Role.Ink);
            Structure.End();
            Structure.End();
        }
        Structure.End();
    }

    private void Set(Verbatim verbatim)
    {
        var longest = verbatim.Lines.Select(l => l.Length).DefaultIfEmpty(1).Max();
        var size = Math.Min(Size, paper.TextWidth / Math.Max(1, longest) / Typeface.Of(Face.Mono).Width("0", 1));
        Structure.BeginElement(PdfBlockLevelElementTag.Paragraph);
        foreach (var line in verbatim.Lines)
        {
            Need(size * Leading);
            Draw(line, Face.Mono, size, paper.Margin, y + size, Role.Ink);
            y += size * Leading;
        }
        Structure.End();
    }

    /// <summary>A figure that would nearly fit on the rest of the page is made smaller by so much at most to get there.</summary>
    private const double Squeeze = 0.75;

    /// <summary>Takes the room for something of this size.</summary>
    private Box Place(double width, double height)
    {
        var scale = Math.Min(1, Math.Min(paper.TextWidth / width, (paper.Bottom - paper.Margin) / height));
        var left = paper.Bottom - y;
        if (height * scale > left && height * scale * Squeeze <= left)
        {
            scale = left / height;
        }
        Need(height * scale);
        var place = new Box(paper.Margin, y, width * scale, height * scale);
        y += place.Height;
        return place;
    }
}
