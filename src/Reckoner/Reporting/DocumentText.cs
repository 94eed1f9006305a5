using System.Text;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>A document as text for a page of so many columns.</summary>
internal static class DocumentText
{
    internal const string Indent = "   ";

    public static string Of(Document document, int columns) => Written.Text(text => Write(text, document, columns));

    /// <summary>The same, block by block.</summary>
    public static void Write(TextWriter text, Document document, int columns)
    {
        text.Write(Head(document, columns));
        foreach (var block in Blocks(document, columns))
        {
            text.Write('\n');
            text.Write(block);
        }
    }

    /// <summary>Documents under each other.</summary>
    public static string Of(IEnumerable<Document> documents, int columns) =>
        string.Join('\n', documents.Select(d => Of(d, columns)));

    /// <summary>Without its title.</summary>
    public static string Body(Document document, int columns) => string.Join('\n', Blocks(document, columns));

    private static string Head(Document document, int columns)
    {
        IEnumerable<Content> subtitle = document.Subtitle is { } text ? [Content.Phrase(text)] : [];
        return string.Concat(
            subtitle.Prepend(Content.Phrase(document.Title)).Concat(document.Leads).Select(l => Filled(l, columns))
        );
    }

    private static IEnumerable<string> Blocks(Document document, int columns)
    {
        // What a single table shows, the title says.
        var captions = document.Grids.Count() > 1;
        return document.Blocks.Select(block =>
            block.Match(
                paragraph => Of(paragraph, columns),
                pairs => PairsText.Of(pairs, columns),
                items => string.Concat(items.Each.Select(i => Filled(i, columns, Indent, Indent + Indent))),
                grid => Of(grid, columns, captions)
            )
        );
    }

    private static string Of(Paragraph paragraph, int columns)
    {
        var indent = paragraph.Role switch
        {
            ParagraphRole.Plain or ParagraphRole.Signs => "",
            ParagraphRole.Note => Indent,
        };
        return string.Concat(paragraph.Sentences.Select(s => Filled(s, columns, indent, indent)));
    }

    private static string Of(Grid grid, int columns, bool captions) =>
        grid.Role switch
        {
            GridRole.Table => (captions ? Caption(grid, columns) : "") + GridText.Of(grid, columns),
            GridRole.Inventory => InventoryText.Of(grid, columns),
            GridRole.BitMarks => BitMarksText.Of(grid, columns),
            GridRole.Examples => ExamplesText.Of(grid, columns),
            GridRole.Crossing => Caption(grid, columns) + CrossingText.Of(grid, columns),
        };

    private static string Caption(Grid grid, int columns) => Filled(Content.Phrase(grid.Caption), columns);

    /// <summary>A sentence in lines, the first behind a lead, the others behind another.</summary>
    internal static string Filled(Content said, int columns, string lead = "", string rest = "")
    {
        var text = new StringBuilder();
        foreach (var line in Wrapping.Lines(said, columns - rest.Length).DefaultIfEmpty(""))
        {
            text.Append((lead + line).TrimEnd()).Append('\n');
            lead = rest;
        }
        return text.ToString();
    }
}
