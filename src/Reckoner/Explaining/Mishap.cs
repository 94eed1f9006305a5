using Reckoner.Datapaths;
using Reckoner.Slips;

namespace Reckoner.Explaining;

public enum MishapKind
{
    Slipped,
    WorkedOtherwise,
    Misread,
    Miscopied,
    RowsOff,
    ResultOff,
}

/// <summary>One thing that went wrong while a table was worked out by hand. The row of the load is 0.</summary>
public abstract record Mishap
{
    public abstract MishapKind Kind { get; }

    /// <summary>The row in which it happened; null where it is no matter of one row.</summary>
    public abstract int? Row { get; }

    /// <summary>What each kind gives. A new kind is asked for wherever mishaps are told apart, by the compiler.</summary>
    public T Match<T>(
        Func<Slipped, T> slipped,
        Func<WorkedOtherwise, T> workedOtherwise,
        Func<Misread, T> misread,
        Func<Miscopied, T> miscopied,
        Func<RowsOff, T> rowsOff,
        Func<ResultOff, T> resultOff
    ) =>
        Kind switch
        {
            MishapKind.Slipped => slipped((Slipped)this),
            MishapKind.WorkedOtherwise => workedOtherwise((WorkedOtherwise)this),
            MishapKind.Misread => misread((Misread)this),
            MishapKind.Miscopied => miscopied((Miscopied)this),
            MishapKind.RowsOff => rowsOff((RowsOff)this),
            MishapKind.ResultOff => resultOff((ResultOff)this),
        };
}

/// <summary>How far a slip reaches.</summary>
public enum SlipExtent
{
    Throughout,

    /// <summary>In the rows that are named alone: a lapse.</summary>
    InRows,

    /// <summary>From the row that is named on.</summary>
    FromRow,
}

/// <summary>A slip of the description was made.</summary>
/// <param name="Rows">Where it was made, where not throughout.</param>
public sealed record Slipped(Slip Slip, SlipExtent Extent, IReadOnlyList<int> Rows) : Mishap
{
    public override MishapKind Kind => MishapKind.Slipped;

    public override int? Row => Rows.Count > 0 ? Rows[0] : null;

    public bool Equals(Slipped? other) =>
        other is not null && Slip.Name == other.Slip.Name && Extent == other.Extent && Rows.SequenceEqual(other.Rows);

    public override int GetHashCode() => HashCode.Combine(Slip.Name, Extent, Rows.Count);
}

/// <summary>It was worked as another machine does, whose results are others.</summary>
public sealed record WorkedOtherwise(Datapath As) : Mishap
{
    public override MishapKind Kind => MishapKind.WorkedOtherwise;

    public override int? Row => null;
}

/// <summary>Operands were read otherwise than they are written.</summary>
public sealed record Misread(OperandReading Reading) : Mishap
{
    public override MishapKind Kind => MishapKind.Misread;

    public override int? Row => null;
}

/// <summary>How a register is miscopied.</summary>
public enum CopyingKind
{
    OneBit,

    /// <summary>Two digits beside each other changed places.</summary>
    Exchanged,

    /// <summary>Every bit stands one place too far to the left, or right.</summary>
    MovedLeft,
    MovedRight,

    /// <summary>A digit was left out, and the rest filled up.</summary>
    DigitLeftOut,

    /// <summary>A digit was written twice, and one at an end was lost.</summary>
    DigitTwice,

    /// <summary>It stands as in the row above.</summary>
    Kept,

    /// <summary>Two registers of the same width stand in each other's columns.</summary>
    Columns,
}

/// <summary>A row was written down otherwise than it was worked out.</summary>
/// <param name="Other">For <see cref="CopyingKind.Columns"/> the second register.</param>
/// <param name="Place">The bit, or the lower of two; 0 where it is no matter of one.</param>
/// <param name="IsCarriedOn">Whether what was written was worked on with.</param>
public sealed record Miscopied(
    CopyingKind How,
    Register Register,
    Register? Other,
    int Place,
    int AtRow,
    bool IsCarriedOn
) : Mishap
{
    public override MishapKind Kind => MishapKind.Miscopied;

    public override int? Row => AtRow;
}

/// <summary>How rows are too many or too few.</summary>
public enum RowsKind
{
    /// <summary>A row was worked out but not written.</summary>
    NotWritten,

    /// <summary>A cycle was not worked out at all.</summary>
    LeftOut,

    Repeated,

    /// <summary>The last cycles are missing.</summary>
    StoppedEarly,

    /// <summary>A cycle more than there is.</summary>
    WentOn,
}

/// <param name="AtRow">For <see cref="RowsKind.StoppedEarly"/> the last row there is.</param>
/// <param name="Count">How many rows.</param>
public sealed record RowsOff(RowsKind How, int AtRow, int Count) : Mishap
{
    public override MishapKind Kind => MishapKind.RowsOff;

    public override int? Row => AtRow;
}

/// <summary>How a result may be written otherwise than the registers have it.</summary>
public enum ResultKind
{
    OneBit,
    Exchanged,
    Negated,

    /// <summary>Each has the other's number.</summary>
    ResultsExchanged,
}

/// <summary>A result does not stand as the last row has it.</summary>
/// <param name="Result">By its index.</param>
/// <param name="Place">The bit, or the lower of two.</param>
public sealed record ResultOff(ResultKind How, int Result, int Place) : Mishap
{
    public override MishapKind Kind => MishapKind.ResultOff;

    public override int? Row => null;
}
