using Reckoner.Words;

namespace Reckoner.Tables;

/// <summary>What an output writes: a title, then blocks from top to bottom. Every format is one function over it.</summary>
/// <param name="Name">Short, for a file or a sheet.</param>
/// <param name="Language">The tag of its words.</param>
internal sealed record Document(
    string Name,
    string Language,
    string Title,
    string? Subtitle,
    IReadOnlyList<Block> Blocks
)
{
    /// <summary>Sentences that belong to the title, such as how much was looked at.</summary>
    public IReadOnlyList<Content> Leads { get; init; } = [];

    public Paper? Paper { get; init; }

    public IEnumerable<Grid> Grids => Blocks.OfType<Grid>();

    /// <summary>What signs in its tables mean.</summary>
    public IEnumerable<Content> Signs =>
        Blocks.OfType<Paragraph>().Where(p => p.Role == ParagraphRole.Signs).Select(p => p.Text);
}

/// <summary>The paper that a printed document is laid out for.</summary>
/// <param name="Size">A name of <see cref="PaperSize"/>.</param>
public sealed record Paper(string Size, bool IsLandscape);
