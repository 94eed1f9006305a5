using Reckoner.Datapaths;
using Reckoner.Structure;

namespace Reckoner.Costing;

/// <summary>What a path leads through.</summary>
public enum PathKind
{
    /// <summary>A register, where a path begins.</summary>
    Register,

    /// <summary>An operand as it comes in, where a path of the load begins.</summary>
    Operand,

    /// <summary>What the control unit says by the state alone: whether a unit adds or subtracts.</summary>
    Control,

    /// <summary>Whether a round is the last, told from the round counter.</summary>
    Last,
    And,
    Or,
    Xor,
    Not,
    Equal,

    /// <summary>A choice that the text asks for.</summary>
    Choice,
    Lookup,

    /// <summary>The choice in front of a unit.</summary>
    UnitInput,
    Unit,

    /// <summary>The choice in front of a register among what steps store there, or between that and what it holds.</summary>
    RegisterInput,
}

/// <summary>One piece of hardware on a path.</summary>
/// <param name="Delay">What it adds, in units of the model.</param>
/// <param name="At">The time behind it.</param>
public sealed record PathHop(PathKind Kind, int Delay, int At)
{
    public Register? Register { get; init; }
    public Operand? Operand { get; init; }
    public Unit? Unit { get; init; }

    /// <summary>Which of the unit's outputs the path takes.</summary>
    public UnitOutput Output { get; init; }
    public Table? Table { get; init; }

    /// <summary>The line that asks for it; 0 where none does.</summary>
    public int Line { get; init; }
    public Source? Source { get; init; }
}

/// <summary>The longest path of a cycle.</summary>
/// <param name="Step">The step; null for the load and where a loop asks whether it goes on.</param>
/// <param name="Loop">The loop that asks whether it goes on; else null.</param>
/// <param name="Hops">In the order of time. Empty where nothing but constants is stored.</param>
public sealed record StepPath(Step? Step, Segment? Loop, IReadOnlyList<PathHop> Hops)
{
    public int Delay => Hops.Count == 0 ? 0 : Hops[^1].At;
}
