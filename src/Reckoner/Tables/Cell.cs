using Reckoner.Words;

namespace Reckoner.Tables;

/// <summary>What stands where a row and a column meet, in one line or several.</summary>
internal sealed record Cell(IReadOnlyList<Content> Lines)
{
    public static readonly Cell Empty = new([]);

    /// <summary>Whether it differs from what it is compared with.</summary>
    public bool IsMarked { get; init; }

    public bool IsEmpty => Lines.Count == 0;

    public static Cell Of(Content content) => new([content]);

    public static Cell Of(string text) => text.Length == 0 ? Empty : new([Content.Phrase(text)]);

    /// <summary>Its lines as one.</summary>
    public override string ToString() => string.Join("; ", Lines);
}
