using System.Collections.Frozen;

namespace Reckoner.Notation;

/// <summary>The reserved words: those that begin a line or stand between values. The field's nouns stay free for names.</summary>
internal static class Keywords
{
    /// <summary>Words that begin a declaration.</summary>
    public static readonly FrozenSet<string> Declarations = FrozenSet.Create(
        "machine",
        "title",
        "note",
        "follows",
        "width",
        "parameter",
        "constant",
        "operand",
        "given",
        "register",
        "part",
        "meaning",
        "unit",
        "table",
        "core",
        "repeat",
        "step",
        "result",
        "formula",
        "law",
        "outside"
    );

    /// <summary>Those of them that have a name behind them.</summary>
    public static readonly FrozenSet<string> Naming = Declarations
        .Except(["title", "note", "given", "repeat", "law", "outside"])
        .ToFrozenSet();

    /// <summary>Words that begin a statement or mark its outline.</summary>
    public static readonly FrozenSet<string> Statements = FrozenSet.Create(
        "let",
        "if",
        "case",
        "hold",
        "note",
        "then",
        "else",
        "end"
    );

    /// <summary>Words that stand between values.</summary>
    public static readonly string[] Between =
    [
        "in",
        "loads",
        "at",
        "most",
        "while",
        "says",
        "via",
        "when",
        "exactly",
        "and",
        "or",
        "xor",
        "not",
        "signed",
        "unsigned",
        "last",
    ];

    public static readonly FrozenSet<string> All = Declarations.Union(Statements).Union(Between).ToFrozenSet();

    /// <summary>After one of these at the end of a line the sentence goes on. The colon is not among them: it opens an arm.</summary>
    public static readonly FrozenSet<string> Unfinished = FrozenSet.Create(
        "<-",
        "..",
        "<=",
        ">=",
        "<>",
        "=",
        "<",
        ">",
        "+",
        "-",
        "*",
        "/",
        "^",
        "(",
        "[",
        ",",
        "and",
        "or",
        "xor",
        "when"
    );
}
