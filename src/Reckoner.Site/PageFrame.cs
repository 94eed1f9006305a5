using System.Net;
using Reckoner.Words;

namespace Reckoner.Site;

/// <summary>What stands around every page: its head, the search, the way to the other pages.</summary>
internal static class PageFrame
{
    public static string Of(SitePage page, IReadOnlyList<SitePage> handbook)
    {
        var words = Vocabulary.English;
        var ways = handbook.Select(p => Way(page, p.Path, p.Title));
        var search = Escaped(words.Say("site.search"));
        return $"""
            <!DOCTYPE html>
            <html lang="en">
            <head>
            <meta charset="utf-8">
            <meta name="viewport" content="width=device-width, initial-scale=1">
            <meta name="color-scheme" content="light dark">
            <title>{Escaped(page.Title)} · Reckoner</title>
            <link rel="stylesheet" href="{page.To("site.css")}">
            <script src="{page.To("search-index.js")}" defer></script>
            <script src="{page.To("search.js")}" defer data-root="{page.To("")}"></script>
            </head>
            <body>
            <a class="skip" href="#main">{Escaped(words.Say("site.skip"))}</a>
            <header>
            <a class="name" href="{page.To("index.html")}">Reckoner</a>
            <search><label>{search} <input type="search" id="search" autocomplete="off"></label></search>
            </header>
            <section id="found" aria-live="polite" aria-label="{search}" hidden></section>
            <div class="columns">
            <main id="main">
            {Reachable(page.Body)}
            </main>
            <nav aria-label="{Escaped(words.Say("site.pages"))}">
            <ul>
            {string.Join("\n", ways)}
            {Way(page, MachinePages.Index, words.Say("site.machines"))}
            </ul>
            </nav>
            </div>
            </body>
            </html>

            """;
    }

    /// <summary>What may be wider than its column is scrolled by keys too.</summary>
    private static string Reachable(string body) =>
        body.Replace("<pre>", "<pre tabindex=\"0\">", StringComparison.Ordinal)
            .Replace("<table>", "<table tabindex=\"0\">", StringComparison.Ordinal);

    private static string Way(SitePage from, string path, string title) =>
        $"<li><a href=\"{from.To(path)}\"{(path == from.Path ? " aria-current=\"page\"" : "")}>{Escaped(title)}</a></li>";

    public static string Escaped(string text) => WebUtility.HtmlEncode(text);
}
