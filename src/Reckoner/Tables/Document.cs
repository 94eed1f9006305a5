using Reckoner.Words;

namespace Reckoner.Tables;

/// <summary>What an output writes: a title, then blocks from top to bottom. Every format is one function over it.</summary>
/// <param name="Name">Short, for a file or a sheet.</param>
/// <param name="Language">The tag of its words.</param>
public sealed record Document(string Name, string Language, string Title, string? Subtitle, IReadOnlyList<Block> Blocks)
{
    public Paper? Paper { get; init; }

    public IEnumerable<Grid> Grids => Blocks.OfType<Grid>();
}

/// <summary>The paper that a printed document is laid out for.</summary>
public sealed record Paper(string Size, bool IsLandscape);

public abstract record Block;

/// <summary>A paragraph.</summary>
public sealed record Paragraph(Content Text) : Block;

/// <summary>What a sign means that stands in heads, labels or cells of the table above; of use only to those who see it.</summary>
public sealed record SignNote(Content Text) : Block;

/// <summary>Names and what is said of each.</summary>
public sealed record Pairs(IReadOnlyList<(Content Name, Content Said)> Rows) : Block;

/// <summary>A table.</summary>
/// <param name="Name">Short, for a sheet or a heading.</param>
public sealed record Grid(string Name, string Caption, IReadOnlyList<GridColumn> Columns, IReadOnlyList<GridRow> Rows)
    : Block;

public enum ColumnRole
{
    /// <summary>Says which row it is.</summary>
    Label,

    /// <summary>Digits in columns.</summary>
    Digits,

    /// <summary>A few words or a number.</summary>
    Short,

    /// <summary>Sentences, which may take several lines.</summary>
    Sentences,
}

/// <param name="OnWires">True where its values are stored by no clock edge.</param>
/// <param name="IsGroup">True where equal cells under each other are one to the eye.</param>
public sealed record GridColumn(string Name, ColumnRole Role, bool OnWires = false, bool IsGroup = false)
{
    /// <summary>The whole name, where another than the eye reads it and a letter is not enough.</summary>
    public string? Full { get; init; }

    /// <summary>True where it tells what registers stand for, so that whoever leaves their digits out leaves it out too.</summary>
    public bool IsMeaning { get; init; }
}

/// <param name="Stored">False where the row stands on the wires only and no clock edge stores it.</param>
public sealed record GridRow(IReadOnlyList<Cell> Cells, bool Stored = true)
{
    /// <summary>The clock cycle that it tells of, the last one of several; null for a row of something else.</summary>
    public int? Cycle { get; init; }
}

/// <summary>What stands where a row and a column meet, in one line or several.</summary>
public sealed record Cell(IReadOnlyList<Content> Lines)
{
    public static readonly Cell Empty = new([]);

    /// <summary>Whether it differs from what it is compared with.</summary>
    public bool IsMarked { get; init; }

    public bool IsEmpty => Lines.Count == 0;

    public static Cell Of(Content content) => new([content]);

    public static Cell Of(string text) => text.Length == 0 ? Empty : new([Content.Phrase(text)]);
}
