using System.Globalization;
using System.Net;
using System.Text;
using System.Text.Json;
using Markdig.Extensions.Mathematics;
using Markdig.Extensions.Tables;
using Markdig.Renderers;
using Markdig.Renderers.Html;
using Markdig.Renderers.Html.Inlines;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;
using Reckoner.Documents.Lessons.Formulas;
using Reckoner.Drawing;
using Reckoner.Words;

namespace Reckoner.Documents.Lessons;

/// <summary>
/// A lesson as one HTML file that needs no network: fonts, images, style and script stand in it. Every cycle is listed; the script
/// lets one step through them.
/// </summary>
internal static class LessonPage
{
    public static string Of(AnsweredLesson lesson)
    {
        var words = lesson.Words;
        var page = new StringBuilder();
        page.Append("<!DOCTYPE html>\n")
            .Append(
                CultureInfo.InvariantCulture,
                $"<html lang=\"{words.Language}\">\n<head>\n<meta charset=\"utf-8\">\n"
            )
            .Append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n")
            .Append(CultureInfo.InvariantCulture, $"<title>{Escaped(lesson.Lesson.Title)}</title>\n<style>\n")
            .Append(string.Concat(Enum.GetValues<Face>().Select(Typeface.Of).Append(Typeface.Signs).Select(FontFace)))
            .Append(Resource("looks.css"))
            .Append(Resource("lesson-page.css"))
            .Append(Resource("lesson-screen.css"))
            .Append("</style>\n</head>\n<body>\n<main>\n")
            .Append(Body(lesson))
            .Append("</main>\n");
        if (LessonHandout.Imprint(lesson) is { Length: > 0 } imprint)
        {
            page.Append(CultureInfo.InvariantCulture, $"<footer><p>{Escaped(imprint)}</p></footer>\n");
        }
        return page.Append("<script type=\"application/json\" id=\"words\">")
            .Append(PlayerWords(words))
            .Append("</script>\n")
            .AppendJoin("", Scripts.Select(s => $"<script>\n{Resource(s)}</script>\n"))
            .Append("</body>\n</html>\n")
            .ToString();
    }

    private static readonly string[] Scripts = ["stepping.js", "lesson-page.js", "lesson-room.js", "lesson-screens.js"];

    internal static string Escaped(string text) => WebUtility.HtmlEncode(text);

    internal static string Resource(string name)
    {
        using var reader = new StreamReader(typeof(LessonPage).Assembly.GetManifestResourceStream($"lessons/{name}")!);
        return reader.ReadToEnd();
    }

    private static string FontFace(Typeface typeface)
    {
        var bytes = Convert.ToBase64String(typeface.Bytes.Span);
        return $"@font-face{{font-family:\"{typeface.Family}\";font-weight:{typeface.Weight};src:url(data:font/ttf;base64,{bytes})}}\n";
    }

    /// <summary>What the script says, by the end of its key; the facts that it puts in stay in braces.</summary>
    private static string PlayerWords(Vocabulary words)
    {
        var facts = PlayerFacts.Select(f => new Diagnostics.Fact(f, $"{{{f}}}")).ToList();
        return JsonSerializer.Serialize(PlayerKeys.ToDictionary(k => k.Split('.')[1], k => words.Say(k, facts)));
    }

    private static readonly string[] PlayerFacts = ["cycle", "last", "name", "count"];

    private static readonly string[] PlayerKeys =
    [
        "player.bar",
        "player.start",
        "player.backward",
        "player.forward",
        "player.all",
        "player.predict",
        "player.screen",
        "player.load",
        "player.at",
        "player.asking",
        "player.answer",
        "player.field",
        "player.agrees",
        "player.differs",
        "player.count",
        "player.results",
        "player.open",
        "player.cycle",
        "player.reading",
        "page.present",
        "page.present-end",
        "page.earlier",
        "page.later",
    ];

    internal static string Body(AnsweredLesson lesson)
    {
        using var text = new StringWriter { NewLine = "\n" };
        var renderer = new HtmlRenderer(text);
        LessonReader.Pipeline.Setup(renderer);
        renderer.ObjectRenderers.Replace<CodeBlockRenderer>(new BlockRenderer(lesson));
        renderer.ObjectRenderers.Replace<LinkInlineRenderer>(new LinkRenderer(lesson));
        renderer.ObjectRenderers.Replace<AutolinkInlineRenderer>(new AddressRenderer());
        renderer.ObjectRenderers.Replace<HtmlMathInlineRenderer>(new FormulaRenderer());
        renderer.ObjectRenderers.Replace<HtmlMathBlockRenderer>(new DisplayRenderer());
        renderer.ObjectRenderers.Replace<HtmlTableRenderer>(new TableRenderer(lesson.Words));
        if (!lesson.Lesson.Body.Descendants<HeadingBlock>().Any(h => h.Level == 1))
        {
            text.Write($"<h1>{Escaped(lesson.Lesson.Title)}</h1>\n");
        }
        renderer.Render(lesson.Lesson.Body);
        return text.ToString();
    }

    private sealed class BlockRenderer(AnsweredLesson lesson) : CodeBlockRenderer
    {
        protected override void Write(HtmlRenderer renderer, CodeBlock node)
        {
            if (node is FencedCodeBlock fence && lesson.BlockOf(fence) is { } answered)
            {
                renderer.EnsureLine();
                renderer.Write(LessonStage.Html(lesson, answered));
            }
            else if (node is FencedCodeBlock asked && lesson.QuestionOf(asked) is { } question)
            {
                renderer.EnsureLine();
                renderer.Write(QuestionPage.Html(question, lesson.Words));
            }
            else
            {
                base.Write(renderer, node);
            }
        }
    }

    private sealed class TableRenderer(Vocabulary words) : HtmlTableRenderer
    {
        protected override void Write(HtmlRenderer renderer, Table table)
        {
            foreach (var cell in table.OfType<TableRow>().Where(r => r.IsHeader).SelectMany(r => r.OfType<TableCell>()))
            {
                cell.GetAttributes().AddPropertyIfNotExist("scope", "col");
            }
            renderer.Write(LessonStage.Wide(words.Say("lesson.table")));
            base.Write(renderer, table);
            renderer.Write("</div>\n");
        }
    }

    /// <summary>Linked numbers, images in the page itself, and links that lead to addresses only.</summary>
    private sealed class LinkRenderer(AnsweredLesson lesson) : LinkInlineRenderer
    {
        private readonly Dictionary<LinkInline, string> values = lesson.Values.ToDictionary(
            v => v.Link.Node,
            v => v.Text
        );

        protected override void Write(HtmlRenderer renderer, LinkInline link)
        {
            if (values.TryGetValue(link, out var value))
            {
                renderer.Write("<b class=\"value\">").WriteEscape(value).Write("</b>");
            }
            else if (link.IsImage)
            {
                var file = link.Url ?? "";
                var bytes = Convert.ToBase64String(lesson.Images[file]);
                renderer
                    .Write($"<img src=\"data:{LessonImages.Type(file)};base64,{bytes}\" alt=\"")
                    .WriteEscape(PlainWords.Of(link))
                    .Write("\">");
            }
            else if (IsAddress(link.Url))
            {
                base.Write(renderer, link);
            }
            else
            {
                renderer.WriteChildren(link);
            }
        }
    }

    private sealed class FormulaRenderer : HtmlMathInlineRenderer
    {
        protected override void Write(HtmlRenderer renderer, MathInline formula) =>
            renderer.Write(FormulaText.MathMl(LessonFormulas.Of(formula), isDisplay: formula.DelimiterCount == 2));
    }

    private sealed class DisplayRenderer : HtmlMathBlockRenderer
    {
        protected override void Write(HtmlRenderer renderer, MathBlock formula) =>
            renderer.EnsureLine().Write(FormulaText.MathMl(LessonFormulas.Of(formula), isDisplay: true)).Write('\n');
    }

    private sealed class AddressRenderer : AutolinkInlineRenderer
    {
        protected override void Write(HtmlRenderer renderer, AutolinkInline link)
        {
            if (link.IsEmail || IsAddress(link.Url))
            {
                base.Write(renderer, link);
            }
            else
            {
                renderer.WriteEscape(link.Url);
            }
        }
    }

    /// <summary>A link may lead to the web, a mailbox or a place in the page; it may not run anything.</summary>
    private static bool IsAddress(string? url) =>
        url is not null
        && (url.StartsWith('#') || Schemes.Any(s => url.StartsWith(s, StringComparison.OrdinalIgnoreCase)));

    private static readonly string[] Schemes = ["https://", "http://", "mailto:"];
}
