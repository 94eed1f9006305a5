using Reckoner.Documents.Lessons.Formulas;
using Reckoner.Drawing;
using Reckoner.Sheets;
using Reckoner.Tables;

namespace Reckoner.Documents;

/// <summary>Text and figures to be set on pages of paper, from top to bottom.</summary>
/// <param name="Language">A BCP 47 tag; screen readers pronounce by it.</param>
internal sealed record Handout(string Title, string Language, IReadOnlyList<Block> Blocks)
{
    /// <summary>Stands below every page, left of its number; empty for nothing.</summary>
    public string Foot { get; init; } = "";

    /// <summary>By what its pages are known when they come back; null for those that do not.</summary>
    public SheetNumber? Mark { get; init; }

    /// <summary>What it is set on; null for the paper of the file that it stands in.</summary>
    public Paper? Paper { get; init; }

    /// <summary>What stands beside that number on each page, such as "page 1 of 2".</summary>
    public Func<int, int, string> PageOf { get; init; } = (page, _) => $"{page}";
}

/// <summary>The kinds of blocks of a handout.</summary>
internal enum BlockKind
{
    Heading,
    Paragraph,
    Listing,
    Verbatim,
    Grid,
    Picture,
    Photograph,
    Display,
    PageEnd,
    Room,
}

/// <summary>Something that stands in a handout with its own tag.</summary>
internal abstract record Block
{
    public abstract BlockKind Kind { get; }

    /// <summary>What is made of each kind of block. A new kind is asked for wherever handouts are written, by the compiler.</summary>
    public T Match<T>(
        Func<Heading, T> heading,
        Func<Paragraph, T> paragraph,
        Func<Listing, T> listing,
        Func<Verbatim, T> verbatim,
        Func<Grid, T> grid,
        Func<Picture, T> picture,
        Func<Photograph, T> photograph,
        Func<Display, T> display,
        Func<PageEnd, T> pageEnd,
        Func<Room, T> room
    ) =>
        Kind switch
        {
            BlockKind.Heading => heading((Heading)this),
            BlockKind.Paragraph => paragraph((Paragraph)this),
            BlockKind.Listing => listing((Listing)this),
            BlockKind.Verbatim => verbatim((Verbatim)this),
            BlockKind.Grid => grid((Grid)this),
            BlockKind.Picture => picture((Picture)this),
            BlockKind.Photograph => photograph((Photograph)this),
            BlockKind.Display => display((Display)this),
            BlockKind.PageEnd => pageEnd((PageEnd)this),
            BlockKind.Room => room((Room)this),
        };
}

/// <param name="Level">1 to 6; 1 is the handout's title.</param>
internal sealed record Heading(int Level, string Words) : Block
{
    /// <summary>Whether the paragraph above it leads to what it heads, and stays on its page.</summary>
    public bool IsLedTo { get; init; }

    public override BlockKind Kind => BlockKind.Heading;
}

internal sealed record Paragraph(IReadOnlyList<Run> Runs) : Block
{
    /// <summary>Whether it speaks of the block above it, and stays on its page where that has room for both.</summary>
    public bool IsBelow { get; init; }

    /// <summary>Whether it leads to the block below it, and stays on its page.</summary>
    public bool IsAbove { get; init; }

    public override BlockKind Kind => BlockKind.Paragraph;

    public static Paragraph Of(string words) => new([new Run(words)]);
}

/// <summary>A list, numbered or not; an item is one paragraph.</summary>
internal sealed record Listing(IReadOnlyList<IReadOnlyList<Run>> Items, bool IsNumbered) : Block
{
    public override BlockKind Kind => BlockKind.Listing;

    /// <summary>What stands before each item where that is not its place in the list; null for the usual.</summary>
    public IReadOnlyList<string>? Labels { get; init; }
}

/// <summary>Lines that stand as they are, every character as wide as every other.</summary>
internal sealed record Verbatim(IReadOnlyList<string> Lines) : Block
{
    /// <summary>Whether it leads to the block below it, and stays on its page.</summary>
    public bool IsAbove { get; init; }

    public override BlockKind Kind => BlockKind.Verbatim;
}

/// <summary>A table; its head is repeated on every page it reaches.</summary>
/// <param name="Caption">What it shows; null for none.</param>
internal sealed record Grid(string? Caption, IReadOnlyList<string> Head, IReadOnlyList<IReadOnlyList<string>> Rows)
    : Block
{
    public override BlockKind Kind => BlockKind.Grid;

    /// <summary>The face of its cells: digits stand in columns in a face of one width.</summary>
    public Face Face { get; init; } = Face.Plain;

    /// <summary>Columns of numbers, which end under each other; their points and signs are no digits and stand close.</summary>
    public IReadOnlySet<int> Numbers { get; init; } = new HashSet<int>();

    /// <summary>With rows below the last that stay empty, with places wherever a row may have some.</summary>
    /// <param name="rings">What may be decided on the way to such a row.</param>
    /// <param name="given">What is printed in a column that has no places in any row.</param>
    public Grid WithSpare(int count, Func<int, string> label, Func<int, string> given, IReadOnlyList<Ring> rings) =>
        count == 0 || Filling is not { } filling
            ? this
            : this with
            {
                Rows =
                [
                    .. Rows,
                    .. Enumerable
                        .Range(0, count)
                        .Select(i =>
                            (IReadOnlyList<string>)
                                [label(i), .. Enumerable.Range(1, Head.Count - 1).Select(c => Like(c) ?? given(c))]
                        ),
                ],
                Rings = Rings.Count == 0 ? [] : [.. Rings, .. Enumerable.Repeat(rings, count)],
                Remarks = Remarks is null
                    ? null
                    : Remarks with
                    {
                        Words = [.. Remarks.Words, .. Enumerable.Repeat("", count)],
                    },
                Filling = filling with
                {
                    Open = [.. filling.Open, .. Enumerable.Repeat(filling.Open.SelectMany(o => o).ToHashSet(), count)],
                    Spare = count,
                },
            };

    /// <summary>What belongs into the last place of a column: a row to spare has as much room. Null where it has none.</summary>
    private string? Like(int column) =>
        Rows.Zip(Filling!.Open, (cells, open) => open.Contains(column) ? cells[column] : null)
            .LastOrDefault(c => c is not null);

    internal Face FaceOf(int column) => Numbers.Contains(column) ? Face.Plain : Face;

    /// <summary>What is to be filled in by hand, or was; null for a table to be read.</summary>
    public Filling? Filling { get; init; }

    /// <summary>What is decided on the way to each row, to be ringed above it; none for nothing.</summary>
    public IReadOnlyList<IReadOnlyList<Ring>> Rings { get; init; } = [];

    /// <summary>Sentences as a last column; they stand under their rows where beside them is too little room. Null for none.</summary>
    public Remarks? Remarks { get; init; }
}

/// <summary>The last column of a table: sentences, one for each row.</summary>
internal sealed record Remarks(string Head, IReadOnlyList<string> Words)
{
    /// <summary>The rows whose sentences are printed where a table is to be filled in.</summary>
    public IReadOnlySet<int> Given { get; init; } = new HashSet<int>();

    /// <summary>Whether all rows that are to be filled in have the same room, so that it tells nothing.</summary>
    public bool IsEven { get; init; }
}

/// <summary>One way in which something is decided, with a ring before it that is filled where it is so.</summary>
internal sealed record Ring(string Words, bool IsTaken);

/// <summary>A table with places to write into. It has the same places, and the same room, empty and filled in.</summary>
/// <param name="Boxed">The columns whose digits have a box each; elsewhere a place is a line.</param>
/// <param name="Open">For each row the columns that are to be filled in.</param>
/// <param name="IsFilled">Whether it is the key.</param>
internal sealed record Filling(IReadOnlySet<int> Boxed, IReadOnlyList<IReadOnlySet<int>> Open, bool IsFilled)
{
    /// <summary>Rows at the end that are there to be left empty.</summary>
    public int Spare { get; init; }

    /// <summary>The columns in which every place has the room of the longest.</summary>
    public IReadOnlySet<int> Even { get; init; } = new HashSet<int>();

    /// <summary>The same for reading aloud: no boxes, and what is written stands in cells.</summary>
    /// <param name="worded">The columns of words, which are longer and shorter.</param>
    public Filling Read(IReadOnlySet<int> worded) => this with { Boxed = new HashSet<int>(), Even = worded };

    /// <summary>Whether a row shows what belongs there.</summary>
    public bool IsFilledAt(int row) => IsFilled && row < Open.Count - Spare;

    /// <summary>As wide as a place to write a number into.</summary>
    public const string Place = "________";
}

/// <summary>A figure, made smaller where the page is narrower or too full; one that could not be read then has its page turned.</summary>
internal sealed record Picture(Scene Scene) : Block
{
    /// <summary>The same figure to be filled in, or filled in: both are given the same place. Null for none.</summary>
    public Scene? Twin { get; init; }

    /// <summary>Whether it was laid out for the width of the page, and stands on it as it is.</summary>
    public bool IsForPage { get; init; }

    public override BlockKind Kind => BlockKind.Picture;
}

/// <summary>An image in pixels, 96 to the inch, made smaller where the page is narrower.</summary>
/// <param name="Bytes">A PNG or JPEG file.</param>
/// <param name="Alternative">What those hear who cannot see it.</param>
internal sealed record Photograph(byte[] Bytes, double Width, double Height, string Alternative) : Block
{
    public override BlockKind Kind => BlockKind.Photograph;
}

/// <summary>A formula on a line of its own.</summary>
internal sealed record Display(Formula Formula) : Block
{
    public override BlockKind Kind => BlockKind.Display;
}

/// <summary>What follows begins a page.</summary>
internal sealed record PageEnd : Block
{
    public override BlockKind Kind => BlockKind.PageEnd;
}

/// <summary>Empty lines to write on.</summary>
internal sealed record Room(int Lines) : Block
{
    public override BlockKind Kind => BlockKind.Room;
}

/// <summary>A stretch of text in one face.</summary>
internal sealed record Run(string Words, Face Face = Face.Plain)
{
    /// <summary>What is drawn in the place of the words; null for the words.</summary>
    public Formula? Formula { get; init; }

    /// <summary>Words that stay on a line and take the room of these at least; null for any others.</summary>
    public Run? InPlaceOf { get; init; }
}

/// <summary>Paper, in units of scenes (96 to the inch).</summary>
internal sealed record Paper(double Width, double Height, double Margin)
{
    /// <summary>By the names under which lessons and house styles ask for it.</summary>
    public static IReadOnlyDictionary<string, Paper> Named { get; } =
        PaperSize.Sheets.ToDictionary(
            p => p.Name,
            p => new Paper(PaperSize.Units(p.Width), PaperSize.Units(p.Height), Math.Round(PaperSize.Units(p.Margin)))
        );

    public static Paper A4 => Named["a4"];

    /// <summary>How much larger all is printed that is set on it; its own measures are those that it is set by.</summary>
    public double Larger { get; init; } = 1;

    /// <summary>24 units, which are 18 points, for the letters of a text.</summary>
    private const double LargeLetters = 24;

    /// <summary>The same sheet with large print: what is set on it is set on less room, and all of it printed larger.</summary>
    public Paper Enlarged
    {
        get
        {
            const double By = LargeLetters / PaperFigures.TextSize;
            return new Paper(Width / By, Height / By, Margin / By) { Larger = By };
        }
    }

    public double TextWidth => Width - 2 * Margin;
    public double Bottom => Height - Margin;
    public double TextHeight => Bottom - Margin;

    /// <summary>The same, turned.</summary>
    public Paper Turned => this with { Width = Height, Height = Width };
}
