namespace Reckoner.Notation;

/// <summary>Makes values again with one part changed; everything else is kept as it was.</summary>
internal static class Rewriting
{
    /// <summary>The same node over other children, as many as it has.</summary>
    public static Expression Over(Expression e, IReadOnlyList<Expression> children) =>
        e switch
        {
            NumberLiteral or BitsLiteral or NameReference or Scaled or Unreadable => e,
            Bracketed => new Bracketed(e.Span, children[0]),
            Unary v => new Unary(e.Span, v.Operator, children[0]),
            Binary v => new Binary(e.Span, v.Operator, children[0], children[1]),
            Comparison v => new Comparison(e.Span, children, v.Relations),
            Within => new Within(e.Span, children[0], children[1], children[2]),
            Joined => new Joined(e.Span, children),
            Sliced { HasLow: true } => new Sliced(e.Span, children[0], children[1], children[2]),
            Sliced => new Sliced(e.Span, children[0], children[1]),
            Call v => new Call(e.Span, v.NameSpan, v.Function, children),
            Chosen => new Chosen(e.Span, children[0], children[1], children[2]),
            _ => throw new InvalidOperationException(e.GetType().Name),
        };

    /// <summary>The same node with one child changed.</summary>
    public static Expression With(Expression e, int child, Expression changed) =>
        Over(e, With(e.Children, child, changed));

    /// <summary>The same list with one item changed.</summary>
    public static IReadOnlyList<T> With<T>(IReadOnlyList<T> list, int index, T changed)
    {
        T[] copy = [.. list];
        copy[index] = changed;
        return copy;
    }

    /// <summary>The same list without one item.</summary>
    public static IReadOnlyList<T> Without<T>(IReadOnlyList<T> list, int index) =>
        [.. list.Take(index), .. list.Skip(index + 1)];

    /// <summary>The same list with an item and the next exchanged.</summary>
    public static IReadOnlyList<T> Exchanged<T>(IReadOnlyList<T> list, int index)
    {
        T[] copy = [.. list];
        (copy[index], copy[index + 1]) = (copy[index + 1], copy[index]);
        return copy;
    }
}
