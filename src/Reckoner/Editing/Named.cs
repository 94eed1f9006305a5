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
    /// <summary>Whether machines that are built around this one, or follow it, name it too.</summary>
    public bool IsSeenFromOutside => Kind is NamedKind.Operand or NamedKind.Result or NamedKind.Machine;

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
