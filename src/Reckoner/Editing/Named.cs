using Reckoner.Notation;

namespace Reckoner.Editing;

/// <summary>What a name of a description can stand for.</summary>
internal enum NamedKind
{
    Machine,
    Width,
    Parameter,
    Constant,
    Operand,
    Register,
    Part,
    Meaning,
    Unit,
    Table,
    Index,
    Step,
    Result,
    Formula,
    Wire,
}

/// <summary>Something that a description names.</summary>
/// <param name="Place">The name where it is declared.</param>
/// <param name="Scope">Where it can be named.</param>
/// <param name="Line">The sentence that declares it.</param>
internal sealed record Named(string Name, NamedKind Kind, Span Place, Span Scope, Line Line, Phrase? Phrase)
{
    /// <summary>Whether a machine that is built around this one has it too, under the same name.</summary>
    public bool IsSeenAround =>
        IsNumber
        || Kind is NamedKind.Register or NamedKind.Part or NamedKind.Meaning or NamedKind.Unit or NamedKind.Table;

    /// <summary>
    /// Whether machines that name each other may both declare it, and then mean the same: numbers, and what has to agree where one
    /// follows the other.
    /// </summary>
    /// <param name="isCore">Whether one is built around the other; else it follows it.</param>
    public bool IsSharedWith(bool isCore) => IsNumber || (!isCore && Kind is NamedKind.Operand or NamedKind.Result);

    /// <summary>Whether something that another of them declares is this. A width takes its number also from a constant.</summary>
    public bool IsSameAs(Named other) =>
        Name == other.Name && (IsNumber ? other.IsNumber : Kind == other.Kind && Kind != NamedKind.Machine);

    private bool IsNumber => Kind is NamedKind.Width or NamedKind.Parameter or NamedKind.Constant;

    /// <summary>The key of the word for what it is.</summary>
    public string Word =>
        Kind switch
        {
            NamedKind.Machine => "machine",
            NamedKind.Width => "width",
            NamedKind.Parameter => "parameter",
            NamedKind.Constant => "constant",
            NamedKind.Operand => "operand",
            NamedKind.Register => "register",
            NamedKind.Part => "part",
            NamedKind.Meaning => "meaning",
            NamedKind.Unit => "unit",
            NamedKind.Table => "table",
            NamedKind.Index => "table-index",
            NamedKind.Step => "step",
            NamedKind.Result => "result",
            NamedKind.Formula => "formula",
            NamedKind.Wire => "wire",
        };
}
