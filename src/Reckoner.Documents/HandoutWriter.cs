using System.Globalization;
using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;
using Reckoner.Drawing;
using Reckoner.Sheets;

namespace Reckoner.Documents;

/// <summary>
/// A handout as a tagged PDF: headings, paragraphs, lists, tables with their head cells and figures with their description, in
/// reading order. Its blocks are measured as strips, the strips put onto pages, and then all is drawn.
/// </summary>
internal sealed partial class HandoutWriter
{
    private const double Size = PaperFigures.TextSize;
    private const double Between = 12;
    private const double LineHeight = Size * SetLine.Leading;

    /// <summary>9 mm from line to line, as in an exercise book.</summary>
    private const double WritingPitch = 34;

    /// <summary>Paper is printed on; a tinted ground would cost ink.</summary>
    private static readonly Colour White = Colour.Of(0xFFFFFF);

    private readonly PdfPages pages;
    private readonly IReadOnlyList<Block> blocks;
    private readonly string foot;
    private readonly SheetNumber? mark;
    private readonly Func<int, int, string> pageOf;

    /// <summary>The pages before its first one, of other handouts.</summary>
    private readonly int before;

    /// <summary>What the handout is set on, but for figures that need a page across.</summary>
    private readonly Paper upright;
    private readonly Palette palette;
    private readonly TextForm textForm;

    private HandoutWriter(PdfPages pages, Handout handout, Palette palette, Paper paper, TextForm textForm)
    {
        this.pages = pages;
        before = pages.Count;
        mark = handout.Mark;
        pageOf = handout.PageOf;
        this.palette = palette;
        upright = paper;
        this.textForm = textForm;
        blocks = handout.Blocks;
        foot = handout.Foot;
    }

    public static byte[] Write(
        Handout handout,
        Palette palette,
        Paper? paper = null,
        TextForm textForm = TextForm.Letters
    )
    {
        using var pages = new PdfPages(handout.Title, handout.Language);
        Add(pages, handout, palette, paper ?? Paper.A4, beginOdd: false, textForm);
        return pages.Bytes();
    }

    /// <summary>Sets one more handout behind those that stand there.</summary>
    /// <param name="paper">Of a handout that has none of its own.</param>
    /// <param name="beginOdd">Whether it begins on the front of a leaf that is printed on both sides.</param>
    public static void Add(
        PdfPages pages,
        Handout handout,
        Palette palette,
        Paper paper,
        bool beginOdd,
        TextForm textForm = TextForm.Letters
    )
    {
        var upright = handout.Paper ?? paper;
        if (beginOdd && pages.Count % 2 == 1)
        {
            pages.Begin(upright, White);
        }
        var writer = new HandoutWriter(pages, handout, palette, upright, textForm);
        writer.Write(writer.Strips());
    }

    private StructureBuilder Structure => pages.Structure;

    private double Left => upright.Margin;

    /// <summary>Lines of text are never longer than on an upright page.</summary>
    private double TextWidth => upright.TextWidth;

    private void Write(IReadOnlyList<Strip> strips)
    {
        var plan = PagePlan.Of(strips, upright);
        foreach (var page in plan)
        {
            Begin(page.IsAcross ? upright.Turned : upright, plan.Count);
            var y = upright.Margin;
            for (var i = page.From; i < page.To; i++)
            {
                var strip = strips[i];
                if (i > page.From)
                {
                    y += strip.Above;
                }
                else if (strip.Again is { } again)
                {
                    again.Draw(y, again.Height);
                    y += again.Height;
                }
                var height = strip.Height - page.GivesWay * (strip.Height - strip.Least);
                strip.Draw(y, height);
                y += height;
            }
        }
        if (plan.Count == 0)
        {
            Begin(upright, 1);
        }
    }

    private void Begin(Paper paper, int count)
    {
        pages.Begin(paper, White);
        var page = pages.Count - before;
        if (mark is { } its)
        {
            Marked(its, paper, page, count);
            return;
        }
        var number = page.ToString(CultureInfo.InvariantCulture);
        // What stands below every page is read out once.
        if (page == 1 && foot.Length > 0)
        {
            Structure.BeginElement(PdfBlockLevelElementTag.Paragraph);
            Foot(paper);
            Structure.End();
        }
        Structure.BeginArtifact();
        if (page > 1)
        {
            Foot(paper);
        }
        var right = paper.Width - paper.Margin - Typeface.Of(Face.Plain).Width(number, Size);
        Draw(number, Face.Plain, Size, right, paper.Height - paper.Margin / 2, Role.Quiet);
        Structure.End();
    }

    /// <summary>Made smaller where it were longer than the line.</summary>
    private void Foot(Paper paper)
    {
        var room = paper.TextWidth - 3 * Size;
        var size = Math.Min(Size - 2, room / Math.Max(1, Typeface.Of(Face.Plain).Width(foot, 1)));
        Draw(foot, Face.Plain, size, paper.Margin, paper.Height - paper.Margin / 2, Role.Quiet);
    }

    /// <summary>All blocks, one below the other, and what of them stays together.</summary>
    private List<Strip> Strips()
    {
        var sets = new List<List<Strip>>();
        // The block of each set, to know what may be parted from what stands above it.
        var from = new List<int>();
        var beginsPage = false;
        for (var i = 0; i < blocks.Count; i++)
        {
            var block = blocks[i];
            if (block is PageEnd)
            {
                beginsPage = sets.Count > 0;
                continue;
            }
            var set = Strips(block);
            if (set.Count == 0)
            {
                continue;
            }
            set[0] = set[0] with
            {
                Above = Above(i),
                BeginsPage = beginsPage,
                StaysWithAbove = i > 0 && StaysWithAbove(i),
            };
            beginsPage = false;
            sets.Add(set);
            from.Add(i);
        }
        Parted(sets, from);
        return [.. sets.SelectMany(s => s)];
    }

    /// <summary>
    /// What would stay together but is more than a page is parted where that does least harm: before a heading, then before a table or
    /// a figure. So none of these is cut for the sake of what leads to it.
    /// </summary>
    private void Parted(List<List<Strip>> sets, List<int> from)
    {
        for (var first = 0; first < sets.Count; )
        {
            var end = first + 1;
            while (end < sets.Count && sets[end][0].StaysWithAbove)
            {
                end++;
            }
            if (
                Enumerable.Range(first, end - first).Sum(i => sets[i].Sum(s => s.Above + s.Least)) > upright.TextHeight
                && Weakest(from, first + 1, end) is { } weak
            )
            {
                sets[weak][0] = sets[weak][0] with { StaysWithAbove = false };
                continue;
            }
            first = end;
        }
    }

    private int? Weakest(List<int> from, int first, int end)
    {
        var places = Enumerable.Range(first, end - first).ToList();
        return places.Find(i => blocks[from[i]] is Heading) is > 0 and var heading ? heading
            : places.Find(i => blocks[from[i]] is Grid or Picture) is > 0 and var whole ? whole
            : null;
    }

    private double Above(int index) =>
        Between
        + (blocks[index] is Heading h ? 0.5 * HeadingSize(h) : 0)
        - (index > 0 && blocks[index - 1] is Heading above ? 0.2 * HeadingSize(above) : 0);

    /// <summary>
    /// A heading stays with what it heads, and so does a short paragraph below it that leads to something that cannot be parted;
    /// lines to write on stay with what they are for.
    /// </summary>
    private bool StaysWithAbove(int index) =>
        blocks[index] is Room
        || blocks[index] is Paragraph { IsBelow: true }
        || (blocks[index] is Heading { IsLedTo: true } && blocks[index - 1] is Paragraph { IsBelow: false })
        || blocks[index - 1] is Heading
        || blocks[index - 1] is Paragraph { IsAbove: true } or Verbatim { IsAbove: true }
        || (
            blocks[index] is Grid or Picture or Photograph or Display
            && blocks[index - 1] is Paragraph paragraph
            && (index < 2 || blocks[index - 2] is Heading || LeadsOn(paragraph))
        );

    /// <summary>A single line, or words that end with a colon, are about what follows.</summary>
    private bool LeadsOn(Paragraph paragraph) =>
        !paragraph.IsBelow
        && (
            paragraph.Runs is [.., var last] && last.Words.TrimEnd().EndsWith(':')
            || Setting.Lines(paragraph.Runs, TextWidth, Size).Count == 1
        );

    private List<Strip> Strips(Block block) =>
        block.Match<List<Strip>>(
            heading: Strips,
            paragraph: Strips,
            listing: Strips,
            verbatim: Strips,
            grid: Strips,
            picture: Strips,
            photograph: Strips,
            display: Strips,
            pageEnd: _ => [],
            room: Strips
        );

    private void Draw(IReadOnlyList<Piece> line, double left, double baseline, double size, Role ink)
    {
        // Neighbours of one face are drawn together, blanks and all, so that what is copied out keeps its blanks.
        foreach (var piece in Joined(line, size))
        {
            if (piece.Drawing is null)
            {
                Draw(piece.Words, piece.Face, size, left + piece.Left, baseline, ink);
            }
            else
            {
                Draw(piece, left + piece.Left, baseline, ink);
            }
        }
    }

    private static IEnumerable<Piece> Joined(IReadOnlyList<Piece> line, double size)
    {
        for (var i = 0; i < line.Count; )
        {
            var piece = line[i++];
            while (i < line.Count && line[i].Face == piece.Face && IsPlain(piece) && IsPlain(line[i]))
            {
                var blank = line[i].Left > piece.Left + piece.Width(size) + 0.01 ? " " : "";
                piece = piece with { Words = piece.Words + blank + line[i++].Words };
            }
            yield return piece;
        }
    }

    private static bool IsPlain(Piece piece) => piece is { Drawing: null, Least: 0 };

    private void Draw(string words, Face face, double size, double left, double baseline, Role ink)
    {
        if (words.Length > 0)
        {
            PdfCanvas.Write(pages.Page, words, face, size, new Point(left, baseline), palette.Of(ink));
        }
    }

    private XPen Pen(Role role, double width) => new(PdfCanvas.Of(palette.Of(role)), width);

    private void Rule(double left, double right, double at) =>
        pages.Page.DrawLine(Pen(Role.Rule, 0.8), left, at, right, at);
}
