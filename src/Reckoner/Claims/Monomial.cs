namespace Reckoner.Claims;

/// <summary>A product of variables; of none it is 1.</summary>
/// <param name="factors">In any order, one for each power.</param>
public sealed class Monomial(IEnumerable<Variable> factors) : IEquatable<Monomial>
{
    public static readonly Monomial One = new([]);

    /// <summary>Operands before results, each by their place in the text.</summary>
    public IReadOnlyList<Variable> Factors { get; } = [.. factors.OrderBy(f => f.Kind).ThenBy(f => f.Index)];

    public int Degree => Factors.Count;

    public static Monomial operator *(Monomial a, Monomial b) => new(a.Factors.Concat(b.Factors));

    /// <summary>Whether its factors are of these kinds, in the order of <see cref="Factors"/>.</summary>
    public bool Is(params IReadOnlyList<VariableKind> kinds) => Factors.Select(f => f.Kind).SequenceEqual(kinds);

    public bool Equals(Monomial? other) => other is not null && Factors.SequenceEqual(other.Factors);

    public override bool Equals(object? obj) => Equals(obj as Monomial);

    public override int GetHashCode() => Factors.Aggregate(0, HashCode.Combine);
}
