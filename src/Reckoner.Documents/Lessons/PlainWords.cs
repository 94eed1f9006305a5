using Markdig.Extensions.Mathematics;
using Markdig.Syntax.Inlines;
using Reckoner.Documents.Lessons.Formulas;

namespace Reckoner.Documents.Lessons;

/// <summary>Inline Markdown as words without any marks.</summary>
internal static class PlainWords
{
    public static string Of(ContainerInline? inlines) =>
        inlines is null ? "" : string.Concat(inlines.Select(Of)).Trim();

    private static string Of(Inline inline) =>
        inline switch
        {
            LiteralInline text => text.Content.ToString(),
            MathInline formula => FormulaText.Plain(LessonFormulas.Of(formula)),
            CodeInline code => code.Content,
            HtmlEntityInline entity => entity.Transcoded.ToString(),
            LineBreakInline => " ",
            AutolinkInline link => link.Url,
            ContainerInline container => string.Concat(container.Select(Of)),
            _ => "",
        };
}
