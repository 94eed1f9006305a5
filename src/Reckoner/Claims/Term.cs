using System.Numerics;
using Reckoner.Numbers;

namespace Reckoner.Claims;

public enum TermKind
{
    /// <summary>A number as it is written.</summary>
    Literal,

    /// <summary>A width, parameter or constant: a number with a name.</summary>
    Named,
    Variable,

    /// <summary>Its input in brackets. They mean nothing and are kept for the text.</summary>
    Bracketed,
    Negation,
    Sum,
    Difference,
    Product,

    /// <summary>2n: a product of a literal and a name, written without a sign.</summary>
    Multiple,
    Quotient,

    /// <summary>Only a whole exponent gives a number.</summary>
    Power,
    Call,

    /// <summary>sum i in a..b of x: all its inputs added up; of none it is 0.</summary>
    Total,

    /// <summary>A name for another number: a formula over its inputs, a part of an operand.</summary>
    Applied,
}

/// <summary>A number as formulas compute it: exact, and without a value where something is divided by zero.</summary>
public sealed class Term : Formula
{
    private Term(TermKind kind, Span place, IReadOnlyList<Term> inputs, IndexRange<Term>? range = null)
        : base(place)
    {
        Kind = kind;
        Inputs = inputs;
        Range = range;
        // A range over nothing was written out for its pattern.
        Size = FormulaSize.Over(inputs.Count > 0 || range is null ? inputs : [range.Pattern]);
    }

    private Term(Span place, string name, IReadOnlyList<Term> inputs, Term body)
        : base(place)
    {
        Kind = TermKind.Applied;
        Inputs = inputs;
        Text = name;
        Body = body;
        Constant = body.Constant;
        Size = FormulaSize.Over([.. inputs, body]);
    }

    public TermKind Kind { get; }

    /// <summary>
    /// None of a literal, a name or a variable; else left and right, root and exponent, the one input, or all there are.
    /// </summary>
    public IReadOnlyList<Term> Inputs { get; }

    /// <summary>
    /// Its value where it depends on no variable, computed once. Null where it does depend on one, and where it has no value.
    /// </summary>
    public Rational? Constant { get; private init; }

    /// <summary>A literal as it is written, or the name of a named number or a formula.</summary>
    public string Text { get; private init; } = "";

    public Variable? Variable { get; private init; }

    /// <summary>Of a call.</summary>
    public Function Function { get; private init; }

    /// <summary>Of an applied name, the number it stands for.</summary>
    public Term? Body { get; private init; }

    /// <summary>Of a total, what it runs over.</summary>
    public IndexRange<Term>? Range { get; }

    public override IEnumerable<Term> Leaves =>
        Body is not null ? Body.Leaves
        : Inputs.Count == 0 && Kind != TermKind.Total ? [this]
        : Inputs.SelectMany(i => i.Leaves);

    public override FormulaSize Size { get; }

    public static Term Literal(Span place, BigInteger number, string text) =>
        new(TermKind.Literal, place, []) { Constant = number, Text = text };

    /// <summary>A number that stands in no text.</summary>
    public static Term Literal(BigInteger number) => Literal(default, number, Bits.Text(number));

    public static Term Named(Span place, string name, Rational number) =>
        new(TermKind.Named, place, []) { Constant = number, Text = name };

    public static Term Of(Span place, Variable variable) => new(TermKind.Variable, place, []) { Variable = variable };

    /// <summary>A term of a kind that is told by its inputs alone.</summary>
    public static Term Of(Span place, TermKind kind, params IReadOnlyList<Term> inputs) =>
        WithConstant(new Term(kind, place, inputs));

    public static Term Call(Span place, Function function, params IReadOnlyList<Term> arguments) =>
        WithConstant(new Term(TermKind.Call, place, arguments) { Function = function });

    /// <summary>A name over inputs for what it comes to with them.</summary>
    public static Term Applied(Span place, string name, IReadOnlyList<Term> inputs, Term body) =>
        new(place, name, inputs, body);

    /// <param name="parts">What is added up, one for each number of the range.</param>
    public static Term Total(Span place, IndexRange<Term> range, IReadOnlyList<Term> parts) =>
        WithConstant(new Term(TermKind.Total, place, parts, range));

    private static Term WithConstant(Term term) =>
        term.Inputs.All(i => i.Constant is not null)
            ? new Term(term.Kind, term.Place, term.Inputs, term.Range)
            {
                Function = term.Function,
                Constant = Exact.OfNumbers.Number(term),
            }
            : term;
}
