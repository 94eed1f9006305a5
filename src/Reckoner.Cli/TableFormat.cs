using System.Text;
using Reckoner.Documents;
using Reckoner.Reporting;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Cli;

/// <summary>A form that a document of tables can be written in.</summary>
/// <param name="IsText">Whether a terminal can show it; else it needs a file.</param>
/// <param name="Write">Given the document, its words and the page's columns.</param>
internal sealed record TableFormat(string Name, bool IsText, Func<Document, Vocabulary, int, byte[]> Write)
{
    public static readonly IReadOnlyList<TableFormat> All =
    [
        OfText("text", (document, _, columns) => DocumentText.Of(document, columns)),
        OfText("markdown", (document, _, _) => Markdown.Of(document)),
        OfText("html", (document, _, _) => Html.Of(document)),
        OfText("latex", (document, _, _) => Latex.Of(document)),
        OfText("csv", (document, _, _) => Csv.Of(document)),
        new("xlsx", IsText: false, (document, _, _) => XlsxWriter.Write(document)),
        OfText("prose", (document, words, _) => Prose.Of(document, words)),
    ];

    /// <summary>All of them, and JSON, which has fields of its own.</summary>
    public static readonly IReadOnlyList<string> Names = [All[0].Name, "json", .. All.Skip(1).Select(f => f.Name)];

    public static TableFormat Of(Request request) => All.First(f => f.Name == (AskedForm.Of(request) ?? All[0].Name));

    private static TableFormat OfText(string name, Func<Document, Vocabulary, int, string> write) =>
        new(name, IsText: true, (document, words, columns) => Encoding.UTF8.GetBytes(write(document, words, columns)));
}
