using Markdig.Syntax.Inlines;

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
            CodeInline code => code.Content,
            HtmlEntityInline entity => entity.Transcoded.ToString(),
            LineBreakInline => " ",
            AutolinkInline link => link.Url,
            ContainerInline container => string.Concat(container.Select(Of)),
            _ => "",
        };
}
