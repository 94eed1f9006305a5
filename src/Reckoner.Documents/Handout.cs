using Reckoner.Drawing;

namespace Reckoner.Documents;

/// <summary>Text and figures to be set on pages of paper, from top to bottom.</summary>
/// <param name="Language">A BCP 47 tag; screen readers pronounce by it.</param>
internal sealed record Handout(string Title, string Language, IReadOnlyList<Block> Blocks);

/// <summary>Something that stands in a handout with its own tag.</summary>
internal abstract record Block;

/// <param name="Level">1 to 6; 1 is the handout's title.</param>
internal sealed record Heading(int Level, string Words) : Block;

internal sealed record Paragraph(IReadOnlyList<Run> Runs) : Block
{
    public static Paragraph Of(string words) => new([new Run(words)]);
}

/// <summary>A list, numbered or not; an item is one paragraph.</summary>
internal sealed record Listing(IReadOnlyList<IReadOnlyList<Run>> Items, bool IsNumbered) : Block
{
    /// <summary>What stands before each item where that is not its place in the list; null for the usual.</summary>
    public IReadOnlyList<string>? Labels { get; init; }
}

/// <summary>Lines that stand as they are, every character as wide as every other.</summary>
internal sealed record Verbatim(IReadOnlyList<string> Lines) : Block;

/// <summary>A table; its head is repeated on every page it reaches.</summary>
/// <param name="Caption">What it shows; null for none.</param>
internal sealed record Grid(string? Caption, IReadOnlyList<string> Head, IReadOnlyList<IReadOnlyList<string>> Rows)
    : Block
{
    /// <summary>The face of its cells: digits stand in columns in a face of one width.</summary>
    public Face Face { get; init; } = Face.Plain;

    /// <summary>Columns of numbers, which end under each other; their points and signs are no digits and stand close.</summary>
    public IReadOnlySet<int> Numbers { get; init; } = new HashSet<int>();

    internal Face FaceOf(int column) => Numbers.Contains(column) ? Face.Plain : Face;

    /// <summary>Sentences as a last column; they stand under their rows where beside them is too little room. Null for none.</summary>
    public Remarks? Remarks { get; init; }
}

/// <summary>The last column of a table: sentences, one for each row.</summary>
internal sealed record Remarks(string Head, IReadOnlyList<string> Words);

/// <summary>A figure, made smaller where the page is narrower; one that could not be read then has its page turned.</summary>
internal sealed record Picture(Scene Scene) : Block;

/// <summary>An image in pixels, 96 to the inch, made smaller where the page is narrower.</summary>
/// <param name="Bytes">A PNG or JPEG file.</param>
/// <param name="Alternative">What those hear who cannot see it.</param>
internal sealed record Photograph(byte[] Bytes, double Width, double Height, string Alternative) : Block;

/// <summary>What follows begins a page.</summary>
internal sealed record PageEnd : Block;

/// <summary>A stretch of text in one face.</summary>
internal sealed record Run(string Words, Face Face = Face.Plain);

/// <summary>Paper, in units of scenes (96 to the inch).</summary>
internal sealed record Paper(double Width, double Height, double Margin)
{
    /// <summary>210 by 297 mm (ISO 216).</summary>
    public static readonly Paper A4 = new(793.7, 1122.5, 76);

    public double TextWidth => Width - 2 * Margin;
    public double Bottom => Height - Margin;
}
