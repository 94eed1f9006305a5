using Reckoner.Notation;

namespace Reckoner.Datapaths;

/// <summary>A statement at known widths. <see cref="Line"/> is its line in <see cref="Source"/>.</summary>
public abstract partial record Act(Source Source, int Line)
{
    /// <summary>The wires it names itself; acts that stand inside it name their own.</summary>
    public IEnumerable<Wire> Names =>
        Match<IEnumerable<Wire>>(
            let: a => a.Second is null ? [a.Wire] : [a.Wire, a.Second],
            transfer: _ => [],
            branch: _ => [],
            arms: _ => [],
            hold: _ => [],
            remark: _ => []
        );

    /// <summary>The places it writes itself.</summary>
    public IEnumerable<Place> Writes =>
        Match<IEnumerable<Place>>(
            let: _ => [],
            transfer: a => a.Places,
            branch: _ => [],
            arms: _ => [],
            hold: _ => [],
            remark: _ => []
        );

    /// <summary>The acts that stand inside it, whichever of them are taken.</summary>
    public IEnumerable<Act> Inside =>
        Match<IEnumerable<Act>>(
            let: _ => [],
            transfer: _ => [],
            branch: a => a.Then.Concat(a.Otherwise),
            arms: a => a.Arms.SelectMany(arm => arm.Acts),
            hold: _ => [],
            remark: _ => []
        );

    /// <summary>Whether it only says that nothing is done, or something beside the hardware.</summary>
    public bool IsIdle =>
        Match(
            let: _ => false,
            transfer: _ => false,
            branch: _ => false,
            arms: _ => false,
            hold: _ => true,
            remark: _ => true
        );

    /// <summary>It and every act inside it, however deep, in the order of the text.</summary>
    public IEnumerable<Act> All => Inside.SelectMany(a => a.All).Prepend(this);
}

/// <summary>Names a value; the second name is the carry, the borrow or the carry word of the first.</summary>
public sealed record LetAct(Source Source, int Line, Wire Wire, Wire? Second) : Act(Source, Line)
{
    public override ActKind Kind => ActKind.Let;
}

/// <summary>Gives places, most significant first, the bits of a value.</summary>
public sealed record TransferAct(Source Source, int Line, IReadOnlyList<Place> Places, Value Value) : Act(Source, Line)
{
    public override ActKind Kind => ActKind.Transfer;

    /// <summary>What enters, where it shifts the very places it writes; else null.</summary>
    public Value? Entering
    {
        get
        {
            if (Value.Operation is not (Operation.ShiftLeft or Operation.ShiftRight))
            {
                return null;
            }
            var shifted = Value.Inputs[0];
            var parts = shifted.Operation == Operation.Join ? shifted.Inputs : [shifted];
            var isSame =
                parts.Count == Places.Count && parts.Zip(Places, (part, place) => place.IsReadBy(part)).All(x => x);
            return isSame ? Value.Inputs[1] : null;
        }
    }
}

/// <summary>A branch. <see cref="HasElse"/> tells an empty else from none.</summary>
/// <param name="Says">What the description says of its outcomes.</param>
public sealed record BranchAct(
    Source Source,
    int Line,
    Value Condition,
    Says? Says,
    IReadOnlyList<Act> Then,
    IReadOnlyList<Act> Otherwise,
    bool HasElse
) : Act(Source, Line)
{
    public override ActKind Kind => ActKind.Branch;
}

/// <summary>A choice among arms; the first whose patterns match acts. The binder has checked that exactly one does.</summary>
public sealed record CaseAct(Source Source, int Line, Value Subject, IReadOnlyList<ActArm> Arms) : Act(Source, Line)
{
    public override ActKind Kind => ActKind.Case;
}

public sealed record ActArm(ArmPatterns Patterns, IReadOnlyList<Act> Acts);

public sealed record HoldAct(Source Source, int Line) : Act(Source, Line)
{
    public override ActKind Kind => ActKind.Hold;
}

public sealed record RemarkAct(Source Source, int Line, Phrase Text) : Act(Source, Line)
{
    public override ActKind Kind => ActKind.Remark;
}
