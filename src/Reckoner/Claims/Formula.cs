namespace Reckoner.Claims;

/// <summary>A number or a truth with every name bound, and its place in the text it was written in.</summary>
public abstract class Formula(Span place)
{
    /// <summary>Empty and at 0 for a formula that nobody wrote.</summary>
    public Span Place { get; } = place;

    public abstract FormulaSize Size { get; }

    /// <summary>Named numbers, variables and literals in the order of the text, as often as they stand there.</summary>
    public abstract IEnumerable<Term> Leaves { get; }

    /// <summary>The variables it depends on, each once, in the order of the text.</summary>
    public IEnumerable<Variable> Variables =>
        Leaves.Where(l => l.Kind == TermKind.Variable).Select(l => l.Variable!).Distinct();

    /// <summary>The canonical text.</summary>
    public override string ToString() => FormulaText.Of(this);
}
