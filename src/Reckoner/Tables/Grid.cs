namespace Reckoner.Tables;

internal enum GridRole
{
    /// <summary>Columns under heads that one cannot do without.</summary>
    Table,

    /// <summary>Parts of a thing: a few words for each, then what is said of it. The eye needs no heads.</summary>
    Inventory,

    /// <summary>A mark for each bit of each register, a row for each cycle.</summary>
    BitMarks,

    /// <summary>Numbers, and strips of marks that tell what happened with them.</summary>
    Examples,

    /// <summary>What each row gives for each column; of columns there may be more than a page has room for.</summary>
    Crossing,
}

/// <summary>A table.</summary>
/// <param name="Name">Short, for a sheet or a heading.</param>
internal sealed record Grid(string Name, string Caption, IReadOnlyList<GridColumn> Columns, IReadOnlyList<GridRow> Rows)
    : Block
{
    public GridRole Role { get; init; }

    public override T Match<T>(
        Func<Paragraph, T> paragraph,
        Func<Pairs, T> pairs,
        Func<Items, T> items,
        Func<Grid, T> grid
    ) => grid(this);
}

internal enum ColumnRole
{
    /// <summary>Says which row it is.</summary>
    Label,

    /// <summary>Digits in columns.</summary>
    Digits,

    /// <summary>Whole numbers in decimal, which end under each other.</summary>
    Numbers,

    /// <summary>A mark for each bit or each cycle.</summary>
    Marks,

    /// <summary>A few words or a number.</summary>
    Short,

    /// <summary>Sentences, which may take several lines.</summary>
    Sentences,
}

/// <param name="OnWires">True where its values are stored by no clock edge.</param>
/// <param name="IsGroup">True where equal cells under each other are one to the eye.</param>
internal sealed record GridColumn(string Name, ColumnRole Role, bool OnWires = false, bool IsGroup = false)
{
    /// <summary>The whole name, where another than the eye reads it and a letter is not enough.</summary>
    public string? Full { get; init; }

    /// <summary>True where it tells what registers stand for, so that whoever leaves their digits out leaves it out too.</summary>
    public bool IsMeaning { get; init; }
}

/// <param name="Stored">False where the row stands on the wires only and no clock edge stores it.</param>
internal sealed record GridRow(IReadOnlyList<Cell> Cells, bool Stored = true)
{
    /// <summary>The clock cycle that it tells of, the last one of several; null for a row of something else.</summary>
    public int? Cycle { get; init; }

    /// <summary>Whether it is a part of what the row above is about.</summary>
    public bool IsPart { get; init; }
}
