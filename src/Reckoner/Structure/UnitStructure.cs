using Reckoner.Datapaths;

namespace Reckoner.Structure;

/// <summary>What a unit can be told to do. Operands are words as wide as the unit; what it gives is bits.</summary>
public enum UnitFunction
{
    /// <summary>An adder's a + b, cut to its width, and the carry.</summary>
    Add,

    /// <summary>An adder's a - b, cut to its width, and the borrow.</summary>
    Subtract,

    /// <summary>A multiplier's product, as wide as both sides together.</summary>
    Multiply,

    /// <summary>The same of words in two's complement.</summary>
    MultiplySigned,

    /// <summary>Whether a is less than b, both unsigned. Signed words come with their top bits turned over.</summary>
    Less,

    /// <summary>Whether a and b are the same.</summary>
    Equal,

    /// <summary>Three words' sum without carries, and the carries, each at the place that made it.</summary>
    CarrySave,
}

/// <summary>What a unit gives.</summary>
public enum UnitOutput
{
    /// <summary>Sum, difference, product, or the sum word of a carry-save adder.</summary>
    Result,
    Carry,
    Borrow,
    CarryWord,
    Less,
    Equal,
}

/// <summary>What a unit is told to do in a state, and what must be so for it. Of one cycle's settings at most one is so.</summary>
/// <param name="State">The number of the step; 0 is the load.</param>
/// <param name="Moment">From 1; 0 where the condition of the loop that begins with this state is looked at.</param>
/// <param name="Operands">What its inputs take, in order.</param>
/// <param name="Value">The operation as it was bound, written in <paramref name="Line"/>.</param>
public sealed record UnitSetting(
    Unit Unit,
    int State,
    int Moment,
    IReadOnlyList<Guard> When,
    UnitFunction Function,
    IReadOnlyList<Bundle> Operands,
    Value Value,
    Source Source,
    int Line
)
{
    /// <summary>Whether the unit does the same with the same.</summary>
    public bool DoesAs(UnitSetting other) =>
        Unit == other.Unit && Function == other.Function && Operands.SequenceEqual(other.Operands);
}

/// <summary>An arithmetic unit: what it is told in which state, what may enter each of its inputs, what it gives.</summary>
/// <param name="Outputs">The words anybody takes of it.</param>
internal sealed record UnitStructure(Unit Unit, IReadOnlyList<UnitSetting> Settings, IReadOnlyList<Net> Outputs)
{
    /// <summary>For each input the words that may enter it; with more than one there is a choice in front of it.</summary>
    public IReadOnlyList<IReadOnlyList<Bundle>> Inputs =>
        [
            .. Enumerable
                .Range(0, Settings.Select(s => s.Operands.Count).DefaultIfEmpty(0).Max())
                .Select(i => (IReadOnlyList<Bundle>)[.. Settings.Select(s => s.Operands[i]).Distinct()]),
        ];
}
