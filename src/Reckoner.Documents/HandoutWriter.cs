using System.Globalization;
using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;
using Reckoner.Drawing;

namespace Reckoner.Documents;

/// <summary>
/// A handout as a tagged PDF: headings, paragraphs, lists, tables with their head cells and figures with their description, in
/// reading order.
/// </summary>
internal sealed partial class HandoutWriter : IDisposable
{
    private const double Size = 14;
    private const double Leading = 1.45;
    private const double Between = 12;
    private const double CellPadding = 5;

    /// <summary>9 mm from line to line, as in an exercise book.</summary>
    private const double WritingPitch = 34;

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
    private readonly IReadOnlyList<Block> blocks;
    private readonly string foot;

    /// <summary>What the handout is set on, but for wide figures.</summary>
    private readonly Paper upright;
    private readonly Palette palette;
    private readonly TextForm textForm;
    private Paper paper;
    private double y;

    private HandoutWriter(Handout handout, Palette palette, Paper paper, TextForm textForm)
    {
        this.palette = palette;
        this.paper = upright = paper;
        this.textForm = textForm;
        blocks = handout.Blocks;
        foot = handout.Foot;
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
        for (var i = 0; i < handout.Blocks.Count; i++)
        {
            writer.Set(i);
        }
        writer.Need(0);
        return writer.pages.Bytes();
    }

    public void Dispose() => pages.Dispose();

    private StructureBuilder Structure => pages.Structure;

    /// <summary>Lines of text are never longer than on an upright page.</summary>
    private double TextWidth => upright.TextWidth;

    private Paper Across => upright with { Width = upright.Height, Height = upright.Width };

    private void NewPage() => NewPage(upright);

    private void NewPage(Paper next)
    {
        paper = next;
        pages.Begin(paper.Width, paper.Height, White);
        y = paper.Margin;
        var number = (pages.Count).ToString(CultureInfo.InvariantCulture);
        // What stands below every page is read out once.
        if (pages.Count == 1 && foot.Length > 0)
        {
            Structure.BeginElement(PdfBlockLevelElementTag.Paragraph);
            Foot();
            Structure.End();
        }
        Structure.BeginArtifact();
        if (pages.Count > 1)
        {
            Foot();
        }
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

    /// <summary>Made smaller where it were longer than the line.</summary>
    private void Foot()
    {
        var room = paper.TextWidth - 3 * Size;
        var size = Math.Min(Size - 2, room / Math.Max(1, Typeface.Of(Face.Plain).Width(foot, 1)));
        Draw(foot, Face.Plain, size, paper.Margin, paper.Height - paper.Margin / 2, Role.Quiet);
    }

    /// <summary>Goes on to the next page where so much has no room on this one.</summary>
    private void Need(double height)
    {
        if (pages.Count == 0 || (y > paper.Margin && y + height > paper.Bottom + 0.01))
        {
            NewPage();
        }
    }

    private void Set(int index)
    {
        var (block, next) = (blocks[index], blocks.ElementAtOrDefault(index + 1));
        TurnFor(block is Heading ? next : block);
        Need(block is Heading ? 0 : Whole(index));
        var set = block.Match<Action>(
            heading: h => () => Set(h, index),
            paragraph: p => () => Set(p),
            listing: l => () => Set(l),
            verbatim: v => () => Set(v),
            grid: g => () => Set(g),
            picture: p => () => pages.Figure(p.Scene, Place(p), palette, textForm),
            photograph: p =>
                () =>
                    pages.Image(p.Bytes, p.Alternative, Place(p.Width, p.Height, Scale(p.Width, p.Height, 1, upright))),
            // The next page is begun by what will stand on it, which may want it turned.
            pageEnd: _ => () => y = paper.Height,
            room: r => () => Set(r)
        );
        set();
        y += block is PageEnd ? 0 : Between;
    }

    private void Set(Paragraph paragraph)
    {
        Structure.BeginElement(PdfBlockLevelElementTag.Paragraph);
        Set(paragraph.Runs, paper.Margin, TextWidth, Size, Role.Ink);
        Structure.End();
    }

    private void Set(Heading heading, int index)
    {
        var (tag, size) = Headings[heading.Level - 1];
        // A heading stays with the beginning of what it heads.
        Need(size * Leading * 1.5 + Math.Max(5 * Size * Leading, Beginning(index + 1)));
        y += y > paper.Margin ? size * 0.5 : 0;
        Structure.BeginElement(tag);
        Set([new Run(heading.Words, Face.Bold)], paper.Margin, TextWidth, size, Role.Ink);
        Structure.End();
        y -= size * 0.2;
    }

    private void Set(IReadOnlyList<Run> runs, double left, double width, double size, Role ink)
    {
        var lines = Setting.Lines(runs, width, size);
        for (var i = 0; i < lines.Count; i++)
        {
            Need(Together(lines.Count, i) * size * Leading);
            Draw(lines[i], left, y + size, size, ink);
            y += size * Leading;
        }
    }

    /// <summary>How many lines of a paragraph stay on one page from this one on: neither its first nor its last stands alone.</summary>
    private static int Together(int lines, int from) =>
        from == 0 ? (lines <= 3 ? lines : 2)
        : from == lines - 2 ? 2
        : 1;

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
            var lines = Setting.Lines(item, TextWidth - indent, Size).Count;
            Need(Together(lines, 0) * Size * Leading);
            Structure.BeginElement(PdfBlockLevelElementTag.ListItem);
            Structure.BeginElement(PdfBlockLevelElementTag.Label);
            var label =
                listing.Labels?[i] ?? (listing.IsNumbered ? $"{(i + 1).ToString(CultureInfo.InvariantCulture)}." : "–");
            Draw(label, Face.Plain, Size, paper.Margin, y + Size, Role.Ink);
            Structure.End();
            Structure.BeginElement(PdfBlockLevelElementTag.ListBody);
            Set(item, paper.Margin + indent, TextWidth - indent, Size, Role.Ink);
            Structure.End();
            Structure.End();
        }
        Structure.End();
    }

    /// <summary>Lines a hand's width of writing apart. They stay together; more than a page has go on on the next.</summary>
    private void Set(Room room)
    {
        var most = (int)((paper.Bottom - paper.Margin) / WritingPitch);
        for (var left = room.Lines; left > 0; left -= most)
        {
            var lines = Math.Min(left, most);
            Need(lines * WritingPitch);
            Structure.BeginArtifact();
            var pen = new XPen(PdfCanvas.Of(palette.Of(Role.Rule)), 0.8);
            for (var i = 0; i < lines; i++)
            {
                y += WritingPitch;
                pages.Page.DrawLine(pen, paper.Margin, y, paper.Margin + TextWidth, y);
            }
            Structure.End();
        }
    }

    private void Set(Verbatim verbatim)
    {
        var letter = Typeface.Of(Face.Mono).Width("0", 1);
        var longest = verbatim.Lines.Select(l => l.Length).DefaultIfEmpty(1).Max();
        // What is longer than anybody could read on a line goes on below it.
        var size = Math.Clamp(TextWidth / Math.Max(1, longest) / letter, GridColumns.SmallestSize, Size);
        var letters = (int)(TextWidth / letter / size);
        Structure.BeginElement(PdfBlockLevelElementTag.Paragraph);
        foreach (var line in verbatim.Lines.SelectMany(l => Broken(l, letters)))
        {
            Need(size * Leading);
            Draw(line, Face.Mono, size, paper.Margin, y + size, Role.Ink);
            y += size * Leading;
        }
        Structure.End();
    }

    /// <summary>Broken at the last blank that fits, and moved in as far as the line itself.</summary>
    private static IEnumerable<string> Broken(string line, int letters)
    {
        var indent = new string(' ', Math.Min(line.Length - line.TrimStart().Length + 4, letters / 2));
        while (line.Length > letters)
        {
            var blank = line.LastIndexOf(' ', letters, letters - indent.Length);
            var cut = blank > 0 ? blank : letters;
            yield return line[..cut];
            line = indent + line[cut..].TrimStart();
        }
        yield return line;
    }
}
