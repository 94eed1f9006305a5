using Reckoner.Numbers;

namespace Reckoner.Claims;

public enum TruthKind
{
    /// <summary>A chain such as 0 &lt;= r &lt; d; it stops at the first relation that fails.</summary>
    Comparison,

    /// <summary>x in 1..9, both ends included.</summary>
    Between,

    /// <summary>Its input in brackets. They mean nothing and are kept for the text.</summary>
    Bracketed,

    /// <summary>Stops at a left side that fails, so that "d &lt;&gt; 0 and ..." guards what follows.</summary>
    And,

    /// <summary>Stops at a left side that holds.</summary>
    Or,
    Xor,
    Not,

    /// <summary>every i in a..b: x, which stops at the first that fails; of none it holds.</summary>
    Every,

    /// <summary>A name for another truth: a formula over its terms.</summary>
    Applied,
}

/// <summary>Something that is so or not; without a value where a number in it has none.</summary>
public sealed class Truth : Formula
{
    private Truth(
        TruthKind kind,
        Span place,
        IReadOnlyList<Truth> inputs,
        IReadOnlyList<Term> terms,
        IReadOnlyList<Relation> relations,
        IndexRange<Truth>? range = null
    )
        : base(place)
    {
        Kind = kind;
        Inputs = inputs;
        Terms = terms;
        Relations = relations;
        Range = range;
        // A range over nothing was written out for its pattern.
        Size = FormulaSize.Over(inputs.Count > 0 || range is null ? [.. inputs, .. terms] : [range.Pattern]);
    }

    public TruthKind Kind { get; }

    /// <summary>Left and right, the one input, or all there are; what an applied name stands for; none of a comparison.</summary>
    public IReadOnlyList<Truth> Inputs { get; }

    /// <summary>
    /// What a comparison compares, from the left; of "between" the number, the low and the high end; what a name is applied to.
    /// </summary>
    public IReadOnlyList<Term> Terms { get; }

    /// <summary>Of a comparison, one less than its terms.</summary>
    public IReadOnlyList<Relation> Relations { get; }

    /// <summary>Of an applied name.</summary>
    public string Text { get; private init; } = "";

    /// <summary>Of "every", what it runs over.</summary>
    public IndexRange<Truth>? Range { get; }

    public override FormulaSize Size { get; }

    public override IEnumerable<Term> Leaves =>
        Kind == TruthKind.Applied
            ? Inputs[0].Leaves
            : Inputs.SelectMany(i => i.Leaves).Concat(Terms.SelectMany(t => t.Leaves));

    public static Truth Comparison(Span place, IReadOnlyList<Term> terms, IReadOnlyList<Relation> relations) =>
        new(TruthKind.Comparison, place, [], terms, relations);

    public static Truth Comparison(Span place, Term left, Relation relation, Term right) =>
        Comparison(place, [left, right], [relation]);

    public static Truth Between(Span place, Term number, Term low, Term high) =>
        new(TruthKind.Between, place, [], [number, low, high], []);

    /// <summary>A name over terms for what it comes to with them.</summary>
    public static Truth Applied(Span place, string name, IReadOnlyList<Term> terms, Truth body) =>
        new(TruthKind.Applied, place, [body], terms, []) { Text = name };

    /// <param name="parts">What is claimed, one for each number of the range.</param>
    public static Truth Every(Span place, IndexRange<Truth> range, IReadOnlyList<Truth> parts) =>
        new(TruthKind.Every, place, parts, [], [], range);

    /// <summary>A truth of a kind that is told by its inputs alone.</summary>
    public static Truth Of(Span place, TruthKind kind, params IReadOnlyList<Truth> inputs) =>
        new(kind, place, inputs, [], []);
}
