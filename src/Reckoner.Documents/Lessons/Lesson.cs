using Markdig.Syntax;
using Markdig.Syntax.Inlines;
using Reckoner.Running;

namespace Reckoner.Documents.Lessons;

/// <summary>What stands at the top of a lesson, once for all its blocks.</summary>
/// <param name="Operands">As in a request: by place or name=value.</param>
internal sealed record LessonHeader(
    RequestWord? Title,
    RequestWord? Style,
    RequestWord? Language,
    RequestWord? Machine,
    RequestWord? Width,
    IReadOnlyList<RequestWord> Operands,
    RequestWord? Author,
    RequestWord? Licence
)
{
    /// <summary>What the papers are set on.</summary>
    public RequestWord? Paper { get; init; }
}

/// <summary>A lesson as it was read: Markdown with live blocks.</summary>
internal sealed record Lesson(
    Source Source,
    LessonHeader Header,
    MarkdownDocument Body,
    IReadOnlyList<RequestBlock> Blocks,
    IReadOnlyList<ValueLink> Values,
    IReadOnlyList<LessonImage> Images
)
{
    /// <summary>The header's, or the first heading, or the file's name.</summary>
    public string Title =>
        Header.Title?.Text
        ?? Body.Descendants<HeadingBlock>().Select(h => PlainWords.Of(h.Inline)).FirstOrDefault(t => t.Length > 0)
        ?? Source.Name;
}

/// <summary>A fenced block of requests.</summary>
internal sealed record RequestBlock(FencedCodeBlock Node, IReadOnlyList<Span> Lines);

/// <summary>A number in the text with what it is the value of.</summary>
/// <param name="Place">Where the number stands.</param>
internal sealed record ValueLink(LinkInline Node, RequestWord Name, RequestWord Place);

/// <summary>An image that the text names, by its path from the lesson's folder.</summary>
internal sealed record LessonImage(LinkInline Node, RequestWord File);
