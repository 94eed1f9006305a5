using Reckoner.Datapaths;

namespace Reckoner.Binding;

/// <summary>What a machine and the core inside it add up to while they are bound.</summary>
internal sealed class Build
{
    public List<Register> Registers { get; } = [];
    public List<Meaning> Meanings { get; } = [];
    public List<Unit> Units { get; } = [];
    public List<Table> Tables { get; } = [];
    public List<Segment> Schedule { get; } = [];
    public List<PendingUse> Uses { get; } = [];
    public int Steps { get; set; }
    public int Repeats { get; set; }

    /// <summary>Operations of all unrolled loops so far, for the limit.</summary>
    public long Operations { get; set; }
}

/// <summary>An operation that needs a unit: where it acts, and on which path through the branches of its step.</summary>
/// <param name="IsOfLoop">Whether it stands in the condition of the loop that begins with this step.</param>
internal sealed record PendingUse(
    Value Value,
    UnitKind Kind,
    int Step,
    bool IsOfLoop,
    BranchPath? Path,
    Unit? Via,
    int Line,
    Action<int> Busy
);

/// <summary>The branches taken on the way to a statement, innermost first.</summary>
internal sealed record BranchPath(int Branch, int Arm, BranchPath? Outer)
{
    /// <summary>Two paths exclude each other when they part at the same branch.</summary>
    public static bool Exclude(BranchPath? a, BranchPath? b)
    {
        for (var x = a; x is not null; x = x.Outer)
        {
            for (var y = b; y is not null; y = y.Outer)
            {
                if (x.Branch == y.Branch && x.Arm != y.Arm)
                {
                    return true;
                }
            }
        }
        return false;
    }
}
