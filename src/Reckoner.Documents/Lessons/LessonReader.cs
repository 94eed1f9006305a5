using Markdig;
using Markdig.Extensions.Mathematics;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;
using Reckoner.Diagnostics;
using Reckoner.Running;

namespace Reckoner.Documents.Lessons;

/// <summary>Reads a lesson: its header, its text, and in the text the blocks of requests, questions, linked numbers and images.</summary>
internal static class LessonReader
{
    /// <summary>The word behind the fence of a block of requests.</summary>
    private const string BlockName = "reckoner";

    /// <summary>Raw HTML is read as text, so that it comes out as it was written.</summary>
    internal static MarkdownPipeline Pipeline { get; } =
        new MarkdownPipelineBuilder().UsePipeTables().UseMathematics().UsePreciseSourceLocation().DisableHtml().Build();

    /// <summary>The lesson, or null with what is wrong.</summary>
    public static (Lesson? Lesson, IReadOnlyList<Diagnostic> Found) Read(Source source)
    {
        var report = new Report(source);
        if (report.AddHidden(source.Text, new Span(0, source.Text.Length)))
        {
            return (null, report.InOrder());
        }
        var (header, end) = HeaderReader.Read(source, report);
        if (report.HasErrors)
        {
            return (null, report.InOrder());
        }
        if (Parsed(source, end) is not { } body)
        {
            report.Add(Id.LessonTooDeep, source.LineSpan(1));
            return (null, report.InOrder());
        }
        LessonFormulas.Check(body, source, report);
        var blocks = new List<RequestBlock>();
        var questions = new List<LessonQuestion>();
        foreach (var fence in body.Descendants<FencedCodeBlock>().Where(b => b is not MathBlock))
        {
            Read(fence, source, blocks, questions, report);
        }
        var links = body.Descendants<LinkInline>().ToList();
        var values = links.Where(IsValue).Select(l => Value(l, source)).ToList();
        var images = links.Where(l => l.IsImage).Select(l => new LessonImage(l, Target(l))).ToList();
        var lesson = new Lesson(source, header, body, blocks, values, images) { Questions = questions };
        return (report.HasErrors ? null : lesson, report.InOrder());
    }

    /// <summary>So deep may blocks and words in them nest; the library that makes the page gives up some way beyond.</summary>
    private const int MostNesting = 100;

    /// <summary>The header becomes empty lines, so that every place in the tree is one in the text. Null for what nests too deep.</summary>
    private static MarkdownDocument? Parsed(Source source, int end)
    {
        var head = string.Concat(source.Text[..end].Select(c => c == '\n' ? '\n' : ' '));
        try
        {
            var body = Markdown.Parse(head + source.Text[end..], Pipeline);
            return IsDeeper(body, MostNesting) ? null : body;
        }
        catch (ArgumentException)
        {
            // The library's way to say that brackets or quotes nest deeper than its limit.
            return null;
        }
    }

    private static bool IsDeeper(MarkdownObject node, int levels)
    {
        IEnumerable<MarkdownObject> inner = node switch
        {
            ContainerBlock block => block,
            LeafBlock { Inline: { } inline } => inline,
            ContainerInline inline => inline,
            _ => [],
        };
        return levels == 0 || inner.Any(n => IsDeeper(n, levels - 1));
    }

    private static void Read(
        FencedCodeBlock fence,
        Source source,
        List<RequestBlock> blocks,
        List<LessonQuestion> questions,
        Report report
    )
    {
        var first = source.LineSpan(fence.Line + 1);
        if (fence.Info is not (BlockName or QuestionReader.BlockName))
        {
            if (fence.Info is { } info && NearNames.Of(info, [BlockName, QuestionReader.BlockName]) is [_, ..] near)
            {
                report.Add(Id.LessonBlockName, first, ("word", info), ("near", near));
            }
            return;
        }
        var lines = Lines(fence)
            .Where(l => l.Slice.AsSpan().Trim().Length > 0)
            .Select(l => Trimmed(source.LineSpan(l.Line + 1), source))
            .ToList();
        if (fence.ClosingFencedCharCount == 0)
        {
            report.Add(Id.LessonBlockOpen, first);
        }
        else if (lines.Count == 0)
        {
            report.Add(Id.LessonBlockEmpty, first);
        }
        else if (fence.Info == QuestionReader.BlockName)
        {
            if (QuestionReader.Read(fence, questions.Count + 1, lines, source, report) is { } question)
            {
                questions.Add(question);
            }
            return;
        }
        blocks.Add(new RequestBlock(fence, lines));
    }

    /// <summary>The lines of a block of code; the library has no list for one that is empty.</summary>
    internal static IEnumerable<Markdig.Helpers.StringLine> Lines(CodeBlock block) =>
        (block.Lines.Lines ?? []).Take(block.Lines.Count);

    private static Span Trimmed(Span line, Source source)
    {
        var text = source[line];
        return new Span(line.End - text.TrimStart().Length, line.Start + text.TrimEnd().Length);
    }

    /// <summary>A target without the marks of an address or a file names a value, behind a slash one of another machine.</summary>
    private static bool IsValue(LinkInline link) =>
        !link.IsImage
        && link.Url is { Length: > 0 } url
        && !url.AsSpan().ContainsAny(".#?:")
        && url.Split('/') is { Length: <= 2 } parts
        && !parts.Contains("");

    private static ValueLink Value(LinkInline link, Source source)
    {
        // What stands between the brackets; they are the first character and the one before the target's bracket.
        var start = link.Span.Start + 1;
        var end = start;
        if (link.LastChild is { } last)
        {
            end = Math.Max(start, last.Span.End + 1);
        }
        var place = new Span(start, end);
        return new ValueLink(link, Target(link), new RequestWord(source[place], place));
    }

    private static RequestWord Target(LinkInline link)
    {
        var span = link.UrlSpan is { IsEmpty: false } url
            ? new Span(url.Start, url.End + 1)
            : new Span(link.Span.Start, link.Span.End + 1);
        return new RequestWord(link.Url ?? "", span);
    }
}
