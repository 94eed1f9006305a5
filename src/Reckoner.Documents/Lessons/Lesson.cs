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

    /// <summary>The head of the column of a class list by which students are told apart; null for one of the known heads.</summary>
    public RequestWord? Identifier { get; init; }

    /// <summary>Likewise of the column of their names.</summary>
    public RequestWord? Name { get; init; }

    /// <summary>Likewise of the column that says in which form their sheets are printed.</summary>
    public RequestWord? Form { get; init; }

    /// <summary>What of a student is printed on a sheet, of <see cref="Shown"/>; null for nothing.</summary>
    public RequestWord? Shows { get; init; }

    /// <summary>On how many sides of a leaf sheets are printed: 1 or 2.</summary>
    public RequestWord? Sides { get; init; }

    public static IReadOnlyList<string> Shown { get; } = ["name", "identifier", "both"];
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
    /// <summary>In the order of the text.</summary>
    public IReadOnlyList<LessonQuestion> Questions { get; init; } = [];

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
