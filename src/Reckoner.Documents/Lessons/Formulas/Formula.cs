namespace Reckoner.Documents.Lessons.Formulas;

/// <summary>The kinds of formulas.</summary>
internal enum FormulaKind
{
    Symbol,
    Row,
    Scripts,
    Fraction,
    Root,
}

/// <summary>
/// A formula of the text, between dollar signs: what is written by hand beside a machine, and no more. It is read once and set in
/// every output from this tree.
/// </summary>
internal abstract record Formula
{
    public abstract FormulaKind Kind { get; }

    /// <summary>What an output makes of it. A new kind is asked for in each of them, by the compiler.</summary>
    public T Match<T>(
        Func<Symbol, T> symbol,
        Func<Row, T> row,
        Func<Scripts, T> scripts,
        Func<Fraction, T> fraction,
        Func<Root, T> root
    ) =>
        Kind switch
        {
            FormulaKind.Symbol => symbol((Symbol)this),
            FormulaKind.Row => row((Row)this),
            FormulaKind.Scripts => scripts((Scripts)this),
            FormulaKind.Fraction => fraction((Fraction)this),
            FormulaKind.Root => root((Root)this),
        };
}

/// <summary>What a symbol is: by that it is set with more or less room around it.</summary>
internal enum SymbolRole
{
    Name,
    Number,

    /// <summary>Plus, times: between two things, or the sign before one.</summary>
    Operator,
    Relation,
    Opening,
    Closing,
    Comma,

    /// <summary>A sum: what it runs over stands below and above it.</summary>
    Large,
    Words,
}

/// <summary>A name, a number or a sign.</summary>
/// <param name="Text">As it is seen.</param>
internal sealed record Symbol(string Text, SymbolRole Role) : Formula
{
    public override FormulaKind Kind => FormulaKind.Symbol;
}

internal sealed record Row(IReadOnlyList<Formula> Parts) : Formula
{
    public override FormulaKind Kind => FormulaKind.Row;
}

/// <summary>Something with an index, an exponent or both.</summary>
internal sealed record Scripts(Formula Of, Formula? Below, Formula? Above) : Formula
{
    public override FormulaKind Kind => FormulaKind.Scripts;
}

internal sealed record Fraction(Formula Above, Formula Below) : Formula
{
    public override FormulaKind Kind => FormulaKind.Fraction;
}

internal sealed record Root(Formula Of) : Formula
{
    public override FormulaKind Kind => FormulaKind.Root;
}
