namespace Reckoner.Notation;

/// <summary>Makes values again with one part changed; everything else is kept as it was.</summary>
internal static class Rewriting
{
    /// <summary>The same node over other children, as many as it has.</summary>
    public static Expression Over(Expression e, IReadOnlyList<Expression> children) =>
        e.Kind switch
        {
            ExpressionKind.Number
            or ExpressionKind.Bits
            or ExpressionKind.Name
            or ExpressionKind.Scaled
            or ExpressionKind.Unreadable => e,
            ExpressionKind.Bracketed => new Bracketed(e.Span, children[0]),
            ExpressionKind.Unary => new Unary(e.Span, ((Unary)e).Operator, children[0]),
            ExpressionKind.Binary => new Binary(e.Span, ((Binary)e).Operator, children[0], children[1]),
            ExpressionKind.Comparison => new Comparison(e.Span, children, ((Comparison)e).Relations),
            ExpressionKind.Within => new Within(e.Span, children[0], children[1], children[2]),
            ExpressionKind.Joined => new Joined(e.Span, children),
            ExpressionKind.Sliced => ((Sliced)e).HasLow
                ? new Sliced(e.Span, children[0], children[1], children[2])
                : new Sliced(e.Span, children[0], children[1]),
            ExpressionKind.Call => new Call(e.Span, ((Call)e).NameSpan, ((Call)e).Function, children),
            ExpressionKind.Total => new Total(e.Span, ((Total)e).Index, children[0], children[1], children[2]),
            ExpressionKind.Every => new Every(e.Span, ((Every)e).Index, children[0], children[1], children[2]),
            ExpressionKind.Chosen => new Chosen(e.Span, children[0], children[1], children[2]),
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
