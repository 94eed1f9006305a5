using System.Text;
using Reckoner.Documents;
using Reckoner.Reporting;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Cli;

/// <summary>A form that a document of tables can be written in.</summary>
/// <param name="IsText">Whether a terminal can show it; else it needs a file.</param>
/// <param name="Write">Given where to, the document, its words and the page's columns.</param>
internal sealed record TableFormat(string Name, bool IsText, Action<Stream, Document, Vocabulary, int> Write)
{
    public static readonly IReadOnlyList<TableFormat> All =
    [
        OfText("text", (text, document, _, columns) => DocumentText.Write(text, document, columns)),
        OfText("markdown", (text, document, _, _) => Markdown.Write(text, document)),
        OfText("html", (text, document, _, _) => Html.Write(text, document)),
        OfText("latex", (text, document, _, _) => Latex.Write(text, document)),
        OfText("csv", (text, document, _, _) => Csv.Write(text, document)),
        new("xlsx", IsText: false, (stream, document, _, _) => XlsxWriter.Write(stream, document)),
        OfText("prose", (text, document, words, _) => Prose.Write(text, document, words)),
    ];

    /// <summary>All of them, and JSON, which has fields of its own.</summary>
    public static readonly IReadOnlyList<string> Names = [All[0].Name, "json", .. All.Skip(1).Select(f => f.Name)];

    public static TableFormat Of(Request request) => All.First(f => f.Name == (AskedForm.Of(request) ?? All[0].Name));

    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>As much of the text is kept at a time, not more: a walk of 100,000 cycles makes some of fifty megabytes.</summary>
    private const int BufferLetters = 1 << 14;

    private static TableFormat OfText(string name, Action<TextWriter, Document, Vocabulary, int> write) =>
        new(
            name,
            IsText: true,
            (stream, document, words, columns) => OnText(stream, text => write(text, document, words, columns))
        );

    /// <summary>Writes a long text into a stream as it is made.</summary>
    public static void OnText(Stream stream, Action<TextWriter> write)
    {
        using var text = new StreamWriter(stream, Utf8, BufferLetters, leaveOpen: true) { NewLine = "\n" };
        write(text);
    }
}
