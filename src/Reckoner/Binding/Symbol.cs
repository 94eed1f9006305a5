using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Numbers;

namespace Reckoner.Binding;

/// <summary>What a name stands for in a description. <see cref="Line"/> is where it was declared.</summary>
internal abstract record Symbol(string Name, int Line)
{
    /// <summary>What it is, as the keys of words call it.</summary>
    public abstract string Kind { get; }

    public bool IsUsed { get; set; }
}

/// <summary>A width, parameter or constant without type: a number.</summary>
/// <param name="Declares">The word that declares it.</param>
internal sealed record NumberSymbol(string Name, int Line, string Declares, BigInteger? Number) : Symbol(Name, Line)
{
    public override string Kind => Declares;
}

/// <summary>A constant with a type: bits.</summary>
internal sealed record BitsSymbol(string Name, int Line, Value Value) : Symbol(Name, Line)
{
    public override string Kind => "constant";
}

/// <summary>An operand; in a core the value it is given there.</summary>
internal sealed record OperandSymbol(string Name, int Line, Value Value) : Symbol(Name, Line)
{
    public override string Kind => "operand";
}

internal sealed record RegisterSymbol(string Name, int Line, Register? Register) : Symbol(Name, Line)
{
    public override string Kind => "register";

    public bool IsWritten { get; set; }
}

internal sealed record PartSymbol(string Name, int Line, Part? Part) : Symbol(Name, Line)
{
    public override string Kind => "part";
}

/// <summary>Bits of an operand: a number for laws, and a value at the load.</summary>
/// <param name="Range">Null where its places are wrong.</param>
internal sealed record OperandPartSymbol(
    string Name,
    int Line,
    OperandSymbol Of,
    Reading Reading,
    (int High, int Low, Size Size)? Range
) : Symbol(Name, Line)
{
    public override string Kind => "part";
}

/// <summary>A name for a number or a truth in laws.</summary>
internal sealed record FormulaSymbol(string Name, int Line) : Symbol(Name, Line)
{
    public override string Kind => "formula";
}

/// <summary>What registers stand for, shown and never computed with.</summary>
internal sealed record MeaningSymbol(string Name, int Line) : Symbol(Name, Line)
{
    public override string Kind => "meaning";
}

internal sealed record UnitSymbol(string Name, int Line, Unit? Unit) : Symbol(Name, Line)
{
    public override string Kind => "unit";
}

internal sealed record TableSymbol(string Name, int Line, Table? Table) : Symbol(Name, Line)
{
    public override string Kind => "table";
}

internal sealed record WireSymbol(string Name, int Line, Wire Wire) : Symbol(Name, Line)
{
    public override string Kind => "wire";
}
