using Reckoner.Datapaths;
using Reckoner.Timelines;

namespace Reckoner.Structure;

/// <summary>What gives a word.</summary>
public enum NetKind
{
    /// <summary>An operand; it is there at the load only.</summary>
    Operand,

    /// <summary>A register, as it is held while the cycle lasts.</summary>
    Register,

    /// <summary>The control unit, 1 in the last round of a loop of fixed count.</summary>
    Last,

    /// <summary>An arithmetic unit; what goes into it is a matter of its settings.</summary>
    Unit,

    /// <summary>Gates bit by bit, over two words or (Not) one.</summary>
    And,
    Or,
    Xor,
    Not,

    /// <summary>Gates that tell whether two words are the same, one of them a constant as a rule: one bit.</summary>
    Equal,

    /// <summary>A choice between two words: its inputs are the condition, the word for 1, the word for 0.</summary>
    Choice,

    /// <summary>A table, looked up by its one input.</summary>
    Lookup,
}

/// <summary>A word that something gives, as it stands on wires while a cycle lasts; whoever takes bits of it takes them from here.</summary>
/// <param name="number">Its place in the list of nets; what goes into a net comes before it, except into a unit.</param>
/// <param name="inputs">What goes into it, each as wide as its kind asks; none of a source and of a unit's output.</param>
public sealed class Net(int number, NetKind kind, int width, IReadOnlyList<Bundle> inputs)
{
    public int Number { get; } = number;
    public NetKind Kind { get; } = kind;
    public int Width { get; } = width;
    public IReadOnlyList<Bundle> Inputs { get; } = inputs;

    public Operand? Operand { get; init; }
    public Register? Register { get; init; }
    public Table? Table { get; init; }

    /// <summary>The unit whose output it is, and which one.</summary>
    public Unit? Unit { get; init; }
    public UnitOutput Output { get; init; }

    /// <summary>The step (0 is the load), the line and the value that asked for it first.</summary>
    public Origin Origin { get; init; }

    /// <summary>All bits of it.</summary>
    public Bundle Word => new([Stretch.Of(this, Width - 1, 0)]);
}
