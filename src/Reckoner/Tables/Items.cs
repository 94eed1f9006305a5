using Reckoner.Words;

namespace Reckoner.Tables;

/// <summary>A list in no order of rank.</summary>
internal sealed record Items(IReadOnlyList<Content> Each) : Block
{
    public override T Match<T>(
        Func<Paragraph, T> paragraph,
        Func<Pairs, T> pairs,
        Func<Items, T> items,
        Func<Grid, T> grid
    ) => items(this);
}
