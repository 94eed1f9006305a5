using System.Numerics;
using Reckoner.Claims;
using Reckoner.Notation;
using Reckoner.Numbers;

namespace Reckoner.Datapaths;

/// <summary>An operand: there at the load only.</summary>
public sealed record Operand(string Name, Phrase? Phrase, Size Size, bool IsSigned, int Index)
{
    public int Width => Size.Count;

    public Reading Reading => IsSigned ? Reading.Signed : Reading.Unsigned;

    /// <summary>Where it is declared, with its names in other languages.</summary>
    public Declared? Declared { get; init; }

    /// <summary>Its name as it is shown in a language.</summary>
    public string In(string language) => Declared?.In(language) ?? Name;

    /// <summary>The number that bits of its width stand for.</summary>
    public BigInteger Number(BigInteger bits) => IsSigned ? Bits.AsSigned(bits, Width) : bits;

    /// <summary>What formulas say of it.</summary>
    public Variable Variable => new(VariableKind.Operand, Name, Index, Width, IsSigned);
}

/// <summary>A register: bits kept from one clock edge to the next.</summary>
public sealed class Register(string name, Phrase? phrase, Size size, bool isSigned, int index)
{
    public string Name { get; } = name;
    public Phrase? Phrase { get; } = phrase;
    public Size Size { get; } = size;
    public int Width => Size.Count;
    public bool IsSigned { get; } = isSigned;
    public Reading Reading => IsSigned ? Reading.Signed : Reading.Unsigned;

    /// <summary>Its place among the registers, in the order of the text; those of a core come last.</summary>
    public int Index { get; } = index;

    /// <summary>What the load gives it, over the operands.</summary>
    public Value Loads { get; internal set; } = Value.Unknown;

    /// <summary>The names given to its bits.</summary>
    public IReadOnlyList<Part> Parts => named;

    private readonly List<Part> named = [];

    internal void Add(Part part) => named.Add(part);
}

/// <summary>A name for bits high..low of a register.</summary>
public sealed record Part(string Name, Phrase? Phrase, Register Register, int High, int Low, Reading Reading, Size Size)
{
    public int Width => High - Low + 1;
}

/// <summary>A name for a value inside one cycle; it keeps the value across the moments that follow.</summary>
public sealed class Wire(Declared name, Value value, Says? says, Source source, int line)
{
    public string Name => name.Text;
    public Value Value { get; } = value;
    public Says? Says { get; } = says;

    /// <summary>Whether its words are about how the choice falls that it carries, not about the word it carries.</summary>
    public bool SaysHowItFalls =>
        Says is { IsOfNumber: false } && Value.Operation == Operation.Choose && Value.Width > 1;

    /// <summary>Its name as it is shown in a language.</summary>
    public string In(string language) => name.In(language);

    public Source Source { get; } = source;
    public int Line { get; } = line;
}

/// <summary>A table of constants: a cell for every combination of its indices, the last index running fastest.</summary>
/// <param name="Rows">For each cell the row of the description that gave it, counted from 0.</param>
public sealed record Table(
    string Name,
    IReadOnlyList<TableIndexAt> Indices,
    Size Size,
    Reading Reading,
    IReadOnlyList<BigInteger> Cells,
    IReadOnlyList<int> Rows
)
{
    public int Width => Size.Count;
}

public sealed record TableIndexAt(string Name, Size Size, bool IsSigned)
{
    /// <summary>The number that bits of its width stand for.</summary>
    public BigInteger Number(BigInteger bits) => IsSigned ? Bits.AsSigned(bits, Size.Count) : bits;

    /// <summary>What formulas of the rows say of it.</summary>
    /// <param name="index">Its place among the indices.</param>
    public Variable Variable(int index) => new(VariableKind.Index, Name, index, Size.Count, IsSigned);
}

/// <summary>A unit of hardware and the operations it serves. Units that no line names have no name.</summary>
public sealed class Unit(string? name, UnitKind kind, Size size, Size by, int number)
{
    public string? Name { get; } = name;
    public UnitKind Kind { get; } = kind;
    public Size Size { get; } = size;

    /// <summary>The width of a multiplier's second side; elsewhere as <see cref="Size"/>.</summary>
    public Size By { get; } = by;

    /// <summary>Its place in the list of units, from 1.</summary>
    public int Number { get; } = number;

    public IReadOnlyList<UnitUse> Uses => served;

    private readonly List<UnitUse> served = [];

    internal void Add(UnitUse use) => served.Add(use);
}

/// <summary>An operation, the step it acts in (0 is the load) and its line.</summary>
public sealed record UnitUse(Value Value, int Step, int Line);

/// <summary>Bits of a register that a transfer writes, with the name they were written by.</summary>
public sealed record Place(Register Register, int High, int Low, Part? Part, Expression Written)
{
    public int Width => High - Low + 1;

    public bool IsWhole => Width == Register.Width;

    public BigInteger Mask => Bits.Mask(Width) << Low;

    /// <summary>Whether a value is the bits of this place.</summary>
    public bool IsReadBy(Value value) =>
        value.Operation == Operation.Register
            ? Register == value.Register && IsWhole
            : value.Operation == Operation.Slice
                && value.Inputs[0].Register == Register
                && value.Low == Low
                && value.Width == Width;
}
