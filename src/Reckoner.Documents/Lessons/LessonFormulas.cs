using Markdig.Extensions.Mathematics;
using Markdig.Syntax;
using Reckoner.Diagnostics;
using Reckoner.Documents.Lessons.Formulas;

namespace Reckoner.Documents.Lessons;

/// <summary>The formulas of a lesson's text: between single dollar signs within a line, between double ones on lines of their own.</summary>
internal static class LessonFormulas
{
    /// <summary>Says of every formula that cannot be read where that begins.</summary>
    public static void Check(MarkdownDocument body, Source source, Report report)
    {
        foreach (var inline in body.Descendants<MathInline>())
        {
            Check(inline.Content.ToString(), inline.Span.Start + inline.DelimiterCount, source, report);
        }
        foreach (var block in body.Descendants<MathBlock>())
        {
            var text = Text(block);
            var start = block.Lines.Count == 0 ? block.Span.Start : block.Lines.Lines[0].Slice.Start;
            Check(text, start, source, report);
        }
    }

    private static void Check(string text, int start, Source source, Report report)
    {
        if (FormulaReader.Read(text) is { Formula: null, Stuck: var stuck })
        {
            var found = FormulaReader.Found(text, stuck);
            var at = Math.Min(start + stuck, source.Text.Length);
            report.Add(
                Id.LessonFormula,
                new Span(at, Math.Min(at + found.Length, source.Text.Length)),
                ("found", found.Length > 0 ? found : new Term("formula-end")),
                ("forms", FormulaReader.Forms)
            );
        }
    }

    /// <summary>One that was found to be right.</summary>
    public static Formula Of(MathInline inline) => Of(inline.Content.ToString());

    /// <summary>Of a paragraph that is nothing but a formula between double dollar signs; null of any other.</summary>
    public static Formula? Alone(ParagraphBlock paragraph) =>
        paragraph.Inline is { FirstChild: MathInline { DelimiterCount: 2 } inline } all && all.LastChild == inline
            ? Of(inline)
            : null;

    /// <summary>Likewise.</summary>
    public static Formula Of(MathBlock block) => Of(Text(block));

    private static Formula Of(string text) =>
        FormulaReader.Read(text).Formula
        ?? throw new InvalidOperationException($"a formula that nobody refused: {text}");

    private static string Text(MathBlock block) =>
        string.Join('\n', LessonReader.Lines(block).Select(l => l.Slice.ToString()));
}
