using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Xml;
using Reckoner.Diagnostics;

namespace Reckoner.Documents.HandedIn;

/// <summary>The cells of a spreadsheet in the OpenDocument format (ISO/IEC 26300), read as they come.</summary>
internal static class OpenDocumentReader
{
    private const long MostBytes = 64_000_000;

    public static HandedReading Of(byte[] bytes)
    {
        using var archive = new ZipArchive(new MemoryStream(bytes), ZipArchiveMode.Read);
        if (IsLocked(archive))
        {
            return new Term("handed.locked");
        }
        using var xml = XmlReader.Create(
            new LimitedStream(archive.GetEntry("content.xml")!.Open(), MostBytes),
            WorkbookReader.Safe
        );
        var pages = new List<HandedPage>();
        var (grid, name, column, rows) = (new CellGrid(), "", 0, 1);
        while (xml.Read())
        {
            if (xml.NodeType == XmlNodeType.Element)
            {
                switch (xml.LocalName)
                {
                    case "table":
                        (grid, name) = (new CellGrid(), Attribute(xml, "name") ?? "");
                        break;
                    case "table-row":
                        column = 0;
                        // Many blank rows are one; whoever fills one in has not a million that are alike.
                        rows = Repeated(xml, "number-rows-repeated", int.MaxValue / CellGrid.MostColumns);
                        if (xml.IsEmptyElement)
                        {
                            grid.EndRow();
                        }
                        break;
                    case "table-cell" or "covered-table-cell":
                        var times = Repeated(xml, "number-columns-repeated", CellGrid.MostColumns);
                        var text = Cell(xml).Trim();
                        for (var i = 0; text.Length > 0 && i < times; i++)
                        {
                            grid.Put(column + i, text);
                        }
                        column = Math.Min(column + times, CellGrid.MostColumns);
                        break;
                }
            }
            else if (xml is { NodeType: XmlNodeType.EndElement, LocalName: "table-row" })
            {
                grid.EndRow(rows);
            }
            else if (xml is { NodeType: XmlNodeType.EndElement, LocalName: "table" })
            {
                pages.Add(new HandedPage(name, grid.Rows));
            }
        }
        return pages.Count == 0 ? new Term("handed.no-table") : new HandedText(pages);
    }

    private static int Repeated(XmlReader xml, string name, int most) =>
        Attribute(xml, name) is not { } said ? 1
        : !int.TryParse(said, NumberStyles.None, CultureInfo.InvariantCulture, out var times) ? most
        : Math.Clamp(times, 1, most);

    private static bool IsLocked(ZipArchive archive)
    {
        using var xml = XmlReader.Create(
            new LimitedStream(archive.GetEntry("META-INF/manifest.xml")!.Open(), MostBytes),
            // Older programs name a document type there.
            new XmlReaderSettings { DtdProcessing = DtdProcessing.Ignore, XmlResolver = null }
        );
        while (xml.Read())
        {
            if (xml is { NodeType: XmlNodeType.Element, LocalName: "encryption-data" })
            {
                return true;
            }
        }
        return false;
    }

    /// <summary>A number as it was typed, or what is shown; paragraphs of one cell follow each other.</summary>
    private static string Cell(XmlReader xml)
    {
        var number = Attribute(xml, "value-type") == "float" ? Attribute(xml, "value") : null;
        if (xml.IsEmptyElement)
        {
            return "";
        }
        var (text, depth) = (new StringBuilder(), xml.Depth);
        while (xml.Read() && xml.Depth > depth)
        {
            if (xml.NodeType == XmlNodeType.Text)
            {
                XmlText.Append(xml, text, CellGrid.MostLetters);
            }
            else if (
                xml
                is { NodeType: XmlNodeType.Element, LocalName: "s" }
                    or { NodeType: XmlNodeType.EndElement, LocalName: "p" }
            )
            {
                text.Append(' ');
            }
        }
        return number is not null ? CellValue.OfNumber(number) : text.ToString();
    }

    private static string? Attribute(XmlReader xml, string name)
    {
        string? value = null;
        for (var i = 0; i < xml.AttributeCount; i++)
        {
            xml.MoveToAttribute(i);
            value = xml.LocalName == name ? xml.Value : value;
        }
        xml.MoveToElement();
        return value;
    }
}
