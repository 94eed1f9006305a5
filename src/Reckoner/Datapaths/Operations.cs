using System.Collections.Frozen;

namespace Reckoner.Datapaths;

/// <summary>What hardware does with words. One row each in <see cref="Operations"/>.</summary>
public enum Operation
{
    Unknown,
    Constant,
    Operand,
    Register,
    Wire,
    Last,
    Slice,
    Join,
    Copies,
    Reread,
    Extend,
    ShiftLeft,
    ShiftRight,
    Add,
    Subtract,
    Negate,
    Magnitude,
    Multiply,
    CarrySaveSum,
    CarrySaveCarry,
    Carry,
    Borrow,
    And,
    Or,
    Xor,
    Not,
    Equal,
    Unequal,
    Less,
    LessOrEqual,
    Greater,
    GreaterOrEqual,
    Choose,
    Select,
    Lookup,
}

/// <summary>What an operation costs: nothing but wires, gates beside each bit, or a unit that may be shared.</summary>
internal enum Cost
{
    /// <summary>A source of bits: constant, operand, register, control signal.</summary>
    Source,

    /// <summary>Bits taken elsewhere; no hardware.</summary>
    Wiring,

    /// <summary>A gate per bit.</summary>
    Gates,

    /// <summary>A multiplexer.</summary>
    Choice,

    /// <summary>A unit of <see cref="OperationRow.Unit"/>.</summary>
    Unit,

    /// <summary>A table of constants.</summary>
    Table,

    /// <summary>Another output of the unit that computes its input.</summary>
    SecondOutput,
}

/// <summary>The kinds of arithmetic units.</summary>
public enum UnitKind
{
    Adder,
    Multiplier,
    Comparator,
    CarrySaveAdder,
}

/// <param name="Written">How a description writes it: an operator or a function's name; empty where it has no word of its own.</param>
/// <param name="Width">The width of its value, in words.</param>
internal sealed record OperationRow(Operation Operation, string Written, Cost Cost, UnitKind? Unit, string Width);

/// <summary>The one table of operations: binder, cost model and handbook read its rows.</summary>
internal static class Operations
{
    public static IReadOnlyList<OperationRow> Rows { get; } =
    [
        new(Operation.Unknown, "", Cost.Source, null, "not known"),
        new(Operation.Constant, "", Cost.Source, null, "its digits, or of the other side"),
        new(Operation.Operand, "", Cost.Source, null, "declared"),
        new(Operation.Register, "", Cost.Source, null, "declared"),
        new(Operation.Wire, "", Cost.Wiring, null, "of its value"),
        new(Operation.Last, "last", Cost.Source, null, "1"),
        new(Operation.Slice, "[..]", Cost.Wiring, null, "hi - lo + 1"),
        new(Operation.Join, ":", Cost.Wiring, null, "the sum"),
        new(Operation.Copies, "copies", Cost.Wiring, null, "the count"),
        new(Operation.Reread, "signed", Cost.Wiring, null, "the same"),
        new(Operation.Extend, "extend", Cost.Wiring, null, "of the target, or as said"),
        new(Operation.ShiftLeft, "shl", Cost.Wiring, null, "the same"),
        new(Operation.ShiftRight, "shr", Cost.Wiring, null, "the same"),
        new(Operation.Add, "+", Cost.Unit, UnitKind.Adder, "of both sides"),
        new(Operation.Subtract, "-", Cost.Unit, UnitKind.Adder, "of both sides"),
        new(Operation.Negate, "-", Cost.Unit, UnitKind.Adder, "the same"),
        new(Operation.Magnitude, "abs", Cost.Unit, UnitKind.Adder, "the same"),
        new(Operation.Multiply, "*", Cost.Unit, UnitKind.Multiplier, "the sum"),
        new(Operation.CarrySaveSum, "csa", Cost.Unit, UnitKind.CarrySaveAdder, "of all three"),
        new(Operation.CarrySaveCarry, "", Cost.SecondOutput, null, "of all three"),
        new(Operation.Carry, "", Cost.SecondOutput, null, "1"),
        new(Operation.Borrow, "", Cost.SecondOutput, null, "1"),
        new(Operation.And, "and", Cost.Gates, null, "of both sides"),
        new(Operation.Or, "or", Cost.Gates, null, "of both sides"),
        new(Operation.Xor, "xor", Cost.Gates, null, "of both sides"),
        new(Operation.Not, "not", Cost.Gates, null, "the same"),
        new(Operation.Equal, "=", Cost.Unit, UnitKind.Comparator, "1"),
        new(Operation.Unequal, "<>", Cost.Unit, UnitKind.Comparator, "1"),
        new(Operation.Less, "<", Cost.Unit, UnitKind.Comparator, "1"),
        new(Operation.LessOrEqual, "<=", Cost.Unit, UnitKind.Comparator, "1"),
        new(Operation.Greater, ">", Cost.Unit, UnitKind.Comparator, "1"),
        new(Operation.GreaterOrEqual, ">=", Cost.Unit, UnitKind.Comparator, "1"),
        new(Operation.Choose, "when", Cost.Choice, null, "of both sides"),
        new(Operation.Select, "case", Cost.Choice, null, "of all arms"),
        new(Operation.Lookup, "table", Cost.Table, null, "of the table"),
    ];

    private static readonly FrozenSet<string> Functions = FrozenSet.Create(
        "signed",
        "unsigned",
        "extend",
        "shl",
        "shr",
        "copies",
        "abs",
        "csa"
    );

    public static OperationRow Row(Operation operation) => Rows[(int)operation];

    /// <summary>Whether a name followed by a bracket is a function of the hardware.</summary>
    public static bool IsFunction(string name) => Functions.Contains(name);

    public static IEnumerable<string> FunctionNames => Functions;
}
