using System.Numerics;
using Reckoner.Datapaths;

namespace Reckoner.Timelines;

/// <summary>
/// One operation of the flat list. Inputs are earlier places in the list. Carry and Less take the two words that are added or
/// subtracted; Choose takes condition, value when 1, value when 0.
/// </summary>
internal sealed record Word(WordOperation Operation, int Width, IReadOnlyList<int> Inputs)
{
    public BigInteger Bits { get; init; }

    /// <summary>The lowest place of a slice; the index of an operand or register.</summary>
    public int Low { get; init; }

    /// <summary>A multiplication of signed words.</summary>
    public bool IsSigned { get; init; }

    public Table? Table { get; init; }

    /// <summary>The unit that computes it, where the graph keeps units apart and it needs one.</summary>
    public Unit? Unit { get; init; }

    /// <summary>Where it came from first.</summary>
    public Origin Origin { get; init; }
}

/// <summary>The step (0 is the load), the line of the text, and the value of the datapath that an operation stands for.</summary>
public readonly record struct Origin(int Step, Source? Source, int Line, Value? Value);
