using Reckoner.Tables;

namespace Reckoner.Styles;

/// <summary>What a row of a walk's table is.</summary>
public enum RowUnit
{
    Cycle,
    Round,
    Moment,
}

/// <summary>How a sum by hand is laid out; countries differ.</summary>
public enum HandLayout
{
    /// <summary>The divisor left of a bar, the quotient above; factors one below the other.</summary>
    Bar,

    /// <summary>dividend : divisor = quotient in one line; so factors and radicand.</summary>
    Colon,
}

/// <summary>How a house writes its tables: one small file, read by every output instead of a dozen options.</summary>
public sealed record HouseStyle
{
    /// <summary>What is used where no style is given.</summary>
    public static readonly HouseStyle None = new();

    public string? Title { get; init; }

    /// <summary>The tag of the words' language, or null for the one that is asked for otherwise.</summary>
    public string? Language { get; init; }

    public RowUnit Rows { get; init; } = RowUnit.Cycle;

    /// <summary>Whether rows in which no register is written are left out.</summary>
    public bool LeavesOutIdle { get; init; }

    public Digits Digits { get; init; } = Digits.Plain;

    /// <summary>Whether a subtraction is told by complement and carry instead of by its borrow.</summary>
    public bool ByComplement { get; init; }

    public ReasonForm Reasons { get; init; }

    /// <summary>In the order of the text; empty for cycle, registers and reasons.</summary>
    public IReadOnlyList<StyleColumn> Columns { get; init; } = [];

    public IReadOnlyList<LabelRule> Labels { get; init; } = [];

    public Paper? Paper { get; init; }

    public HandLayout Sums { get; init; }

    /// <summary>The text that it was read from.</summary>
    public Source? Source { get; init; }
}

/// <summary>Columns that are no register, part or value of the machine.</summary>
public enum ColumnKind
{
    /// <summary>A register, part, operand or named value.</summary>
    Named,

    /// <summary>1 where the register is given new bits in this row.</summary>
    Writes,

    /// <summary>1 where the register is shifted in this row.</summary>
    Moves,

    /// <summary>All columns of the kinds above that the machine has.</summary>
    Signals,

    /// <summary>What "label" says of this row.</summary>
    Label,
    Cycle,
    Round,
    Step,

    /// <summary>Rounds that are still to come in this loop.</summary>
    Remaining,

    /// <summary>The reasons, in words.</summary>
    Why,

    /// <summary>What was decided: the short reason, however long the reasons are.</summary>
    Outcome,

    /// <summary>What holds in every round, with its numbers, where that is asked for.</summary>
    Invariant,
}

/// <param name="Names">Of what stands in it; the first that the machine has is taken.</param>
/// <param name="IsOptional">Whether it is left out where the machine has none of them.</param>
/// <param name="Heading">Null for the name itself.</param>
public sealed record StyleColumn(
    ColumnKind Kind,
    IReadOnlyList<string> Names,
    bool IsOptional,
    string? Heading,
    int? Base,
    int? Group,
    Span Span
)
{
    public Digits Digits(Digits house) => new(Base ?? house.Base, Group ?? (Base is null ? house.Group : null));
}

/// <summary>Which rows a label is for.</summary>
public enum LabelCondition
{
    Always,
    Load,
    Step,
    Moment,
}

/// <param name="Name">The step's name.</param>
/// <param name="Number">The moment's number.</param>
/// <param name="Way">Which way the row's decision must fall, from 1; null for any.</param>
/// <param name="Text">
/// With {cycle}, {round}, {moment}, {step}, {remaining}, {way} and {outcome} in the place of what they stand for.
/// </param>
public sealed record LabelRule(LabelCondition When, string? Name, int Number, int? Way, string Text);
