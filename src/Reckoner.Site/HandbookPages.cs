using System.Text.RegularExpressions;
using Markdig;
using Markdig.Extensions.AutoIdentifiers;
using Markdig.Renderers.Html;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;

namespace Reckoner.Site;

/// <summary>
/// The repository's Markdown as pages, in the order of the handbook's list: links to pages lead to pages, pictures and files that are
/// linked come along, and what leads to a folder of sources is only named.
/// </summary>
internal static partial class HandbookPages
{
    private const string Handbook = "docs/handbook/README.md";
    private const string First = "README.md";

    private static readonly MarkdownPipeline Pipeline = new MarkdownPipelineBuilder()
        .UsePipeTables()
        .UseAutoIdentifiers(AutoIdentifierOptions.GitHub)
        .DisableHtml()
        .Build();

    public static IReadOnlyList<SitePage> Of(string repository, SiteFolder site)
    {
        var listed = Listed().Matches(File.ReadAllText(Path.Combine(repository, Handbook)));
        var sources = listed
            .Select(m => $"docs/handbook/{m.Groups[1].Value}")
            .Distinct()
            .Prepend(Handbook)
            .Prepend(First)
            .Concat(["CHANGELOG.md", "SECURITY.md", "CONTRIBUTING.md", "ARCHITECTURE.md"])
            .ToList();
        return [.. sources.Select(s => Page(repository, s, sources, site))];
    }

    private static string PathOf(string source) =>
        source == First ? "index.html"
        : source == Handbook ? "docs/handbook/index.html"
        : Path.ChangeExtension(source, ".html");

    private static SitePage Page(string repository, string source, List<string> sources, SiteFolder site)
    {
        var document = Markdown.Parse(File.ReadAllText(Path.Combine(repository, source)), Pipeline);
        foreach (var link in document.Descendants<LinkInline>().ToList())
        {
            Follow(link, repository, source, sources, site);
        }
        var title = Words(document.Descendants<HeadingBlock>().First());
        return new SitePage(PathOf(source), title, document.ToHtml(Pipeline), [.. Sections(document)]);
    }

    private static void Follow(LinkInline link, string repository, string source, List<string> sources, SiteFolder site)
    {
        var url = link.Url ?? "";
        if (url.Length == 0 || url.StartsWith('#') || url.Contains("://", StringComparison.Ordinal))
        {
            return;
        }
        var parts = url.Split('#', 2);
        var full = Path.GetFullPath(Path.Combine(repository, Path.GetDirectoryName(source)!, parts[0]));
        var target = Path.GetRelativePath(repository, full).Replace('\\', '/');
        var up = string.Concat(Enumerable.Repeat("../", source.Count(c => c == '/')));
        if (sources.Contains(target))
        {
            link.Url = up + PathOf(target) + (parts.Length > 1 ? "#" + parts[1] : "");
        }
        else if (File.Exists(full))
        {
            site.Copy(full, target);
            link.Url = up + target;
        }
        else
        {
            // A folder of the sources: what is said of it stays.
            var words = new ContainerInline();
            while (link.FirstChild is { } child)
            {
                child.Remove();
                words.AppendChild(child);
            }
            link.ReplaceBy(words);
        }
    }

    /// <summary>The text below each heading, up to the next.</summary>
    private static IEnumerable<SiteSection> Sections(MarkdownDocument document)
    {
        HeadingBlock? heading = null;
        var below = new List<string>();
        foreach (var block in document)
        {
            if (block is not HeadingBlock next)
            {
                below.Add(Words(block));
                continue;
            }
            if (heading is not null)
            {
                yield return Section(heading, below);
            }
            (heading, below) = (next, []);
        }
        if (heading is not null)
        {
            yield return Section(heading, below);
        }
    }

    private static SiteSection Section(HeadingBlock heading, List<string> below) =>
        new(heading.GetAttributes().Id ?? "", Words(heading), string.Join(' ', below));

    private static string Words(MarkdownObject block) =>
        string.Join(
                ' ',
                Within(block)
                    .Prepend(block)
                    .Select(d =>
                        d switch
                        {
                            LiteralInline text => text.Content.ToString(),
                            CodeInline code => code.Content,
                            CodeBlock code => code.Lines.ToString(),
                            _ => "",
                        }
                    )
                    .Where(t => t.Length > 0)
            )
            .ReplaceLineEndings(" ");

    /// <summary>What stands in a block; a heading or a paragraph alone has its words apart.</summary>
    private static IEnumerable<MarkdownObject> Within(MarkdownObject block) =>
        block is LeafBlock leaf ? leaf.Inline?.Descendants() ?? [] : block.Descendants();

    [GeneratedRegex(@"^\| \[[^\]]*\]\(([a-z-]+\.md)\)", RegexOptions.Multiline)]
    private static partial Regex Listed();
}
