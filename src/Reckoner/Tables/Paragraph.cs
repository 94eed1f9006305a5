using Reckoner.Words;

namespace Reckoner.Tables;

internal enum ParagraphRole
{
    /// <summary>Says something itself.</summary>
    Plain,

    /// <summary>Explains or weighs what stands beside it.</summary>
    Note,

    /// <summary>What a sign means that stands in heads, labels or cells of the table above; of use only to those who see it.</summary>
    Signs,
}

/// <summary>Sentences that belong together.</summary>
internal sealed record Paragraph(IReadOnlyList<Content> Sentences, ParagraphRole Role = ParagraphRole.Plain) : Block
{
    public Paragraph(Content text, ParagraphRole role = ParagraphRole.Plain)
        : this([text], role) { }

    public Content Text => Content.Join(" ", Sentences);

    public override T Match<T>(
        Func<Paragraph, T> paragraph,
        Func<Pairs, T> pairs,
        Func<Items, T> items,
        Func<Grid, T> grid
    ) => paragraph(this);
}
