using Reckoner.Reporting;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Cli;

/// <summary>A form that a document of tables can be written in.</summary>
/// <param name="Write">Given the document, its words and the page's columns.</param>
internal sealed record TableFormat(string Name, Func<Document, Vocabulary, int, string> Write)
{
    public static readonly IReadOnlyList<TableFormat> All =
    [
        new("text", (document, _, columns) => DocumentText.Of(document, columns)),
        new("markdown", (document, _, _) => Markdown.Of(document)),
        new("html", (document, _, _) => Html.Of(document)),
        new("latex", (document, _, _) => Latex.Of(document)),
        new("csv", (document, _, _) => Csv.Of(document)),
        new("prose", (document, words, _) => Prose.Of(document, words)),
    ];

    /// <summary>All of them, and JSON, which has fields of its own.</summary>
    public static readonly IReadOnlyList<string> Names =
    [
        .. All.Select(f => f.Name).Take(1),
        "json",
        .. All.Select(f => f.Name).Skip(1),
    ];

    public static TableFormat Of(Request request) =>
        All.First(f => f.Name == (request[Option.Format]?.Text ?? All[0].Name));
}
