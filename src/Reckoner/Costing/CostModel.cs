namespace Reckoner.Costing;

/// <summary>What a piece of hardware takes: area, and the time from its inputs to its output, both in the units of the model.</summary>
public readonly record struct Price(int Area, int Delay);

/// <summary>What the pieces cost that all hardware here is made of.</summary>
/// <param name="Choice">A choice between two bits.</param>
/// <param name="Register">A bit of a register; its delay is from the clock edge to its output.</param>
public sealed record CostModel(Price And, Price Or, Price Xor, Price Not, Price Choice, Price Register)
{
    /// <summary>What it calls itself; null for the unit-gate model.</summary>
    public string? Title { get; init; }

    /// <summary>What area is counted in; null for gates.</summary>
    public string? AreaUnit { get; init; }

    /// <summary>What time is counted in; null for gates.</summary>
    public string? DelayUnit { get; init; }

    /// <summary>A full adder that is a piece of its own, from its words to sum and carry; null where it is of gates.</summary>
    public Price? FullAdder { get; init; }

    /// <summary>The delay of such a full adder from carry to carry.</summary>
    public int CarryDelay { get; init; }

    /// <summary>A bit of a table's cell, and the time from a table's address to its word; null where a table is of gates.</summary>
    public Price? TableBit { get; init; }

    /// <summary>The area of a bit of the round counter; null for a register bit and a half adder.</summary>
    public int? CounterBit { get; init; }

    /// <summary>The area of such a bit, said or not.</summary>
    internal int CounterArea => CounterBit ?? Register.Area + Xor.Area + And.Area;

    /// <summary>
    /// The unit-gate model: A. Tyagi, "A Reduced-Area Scheme for Carry-Select Adders", IEEE Transactions on Computers 42(10), 1993,
    /// 1163-1170, as R. Zimmermann uses it in "Binary Adder Architectures for Cell-Based VLSI and their Synthesis", ETH Zurich 1997,
    /// pages 16-19: a gate of two inputs has area 1 and delay 1, an exclusive or 2 and 2; inverters and wires take nothing. A choice
    /// is two gates and one behind them. The model has no registers: 6 gates for a bit is common practice, its delay is left out.
    /// </summary>
    public static readonly CostModel UnitGates = new(
        And: new(1, 1),
        Or: new(1, 1),
        Xor: new(2, 2),
        Not: new(0, 0),
        Choice: new(3, 2),
        Register: new(6, 0)
    );

    internal Price Of(GateKind kind) =>
        kind switch
        {
            GateKind.Constant or GateKind.Input => default,
            GateKind.And => And,
            GateKind.Or => Or,
            GateKind.Xor => Xor,
            GateKind.Not => Not,
            GateKind.Choice => Choice,
            GateKind.Sum or GateKind.Carry => FullAdder!.Value,
        };
}
