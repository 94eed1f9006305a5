namespace Reckoner.Tables;

/// <summary>Something that stands under a document's title.</summary>
internal abstract record Block
{
    /// <summary>What a format makes of it. A new block fails the build in every format until it is said there.</summary>
    public abstract T Match<T>(
        Func<Paragraph, T> paragraph,
        Func<Pairs, T> pairs,
        Func<Items, T> items,
        Func<Grid, T> grid
    );
}
