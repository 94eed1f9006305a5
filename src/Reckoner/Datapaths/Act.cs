using Reckoner.Notation;

namespace Reckoner.Datapaths;

/// <summary>A statement at known widths. <see cref="Line"/> is its line in <see cref="Source"/>.</summary>
public abstract record Act(Source Source, int Line);

/// <summary>Names a value; the second name is the carry, the borrow or the carry word of the first.</summary>
public sealed record LetAct(Source Source, int Line, Wire Wire, Wire? Second) : Act(Source, Line);

/// <summary>Gives places, most significant first, the bits of a value.</summary>
public sealed record TransferAct(Source Source, int Line, IReadOnlyList<Place> Places, Value Value) : Act(Source, Line);

/// <summary>A branch. <see cref="HasElse"/> tells an empty else from none.</summary>
public sealed record BranchAct(
    Source Source,
    int Line,
    Value Condition,
    IReadOnlyList<Act> Then,
    IReadOnlyList<Act> Otherwise,
    bool HasElse
) : Act(Source, Line);

/// <summary>A choice among arms; the first whose patterns match acts. The binder has checked that exactly one does.</summary>
public sealed record CaseAct(Source Source, int Line, Value Subject, IReadOnlyList<ActArm> Arms) : Act(Source, Line);

public sealed record ActArm(ArmPatterns Patterns, IReadOnlyList<Act> Acts);

public sealed record HoldAct(Source Source, int Line) : Act(Source, Line);

public sealed record RemarkAct(Source Source, int Line, Phrase Text) : Act(Source, Line);
