using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Xml;
using Reckoner.Diagnostics;

namespace Reckoner.Documents.HandedIn;

/// <summary>
/// The cells of a workbook (Office Open XML, ECMA-376), read as they come: a million lines take no more room than one. Formulas are
/// never worked out, nor is anything else run; what they came to when the file was saved is what counts.
/// </summary>
internal static class WorkbookReader
{
    private const long MostBytes = 64_000_000;
    private const int MostWorksheets = 60;
    private const long MostShared = 8_000_000;

    internal static readonly XmlReaderSettings Safe = new()
    {
        DtdProcessing = DtdProcessing.Prohibit,
        XmlResolver = null,
        IgnoreWhitespace = false,
    };

    public static HandedReading Of(byte[] bytes)
    {
        using var archive = new ZipArchive(new MemoryStream(bytes), ZipArchiveMode.Read);
        var targets = Targets(archive);
        var shared = new Lazy<IReadOnlyList<string>>(() => Shared(archive));
        var pages = new List<HandedPage>();
        foreach (var (name, id) in Worksheets(archive).Take(MostWorksheets))
        {
            if (targets.TryGetValue(id, out var target) && archive.GetEntry(target) is { } entry)
            {
                pages.Add(new HandedPage(name, Rows(entry, shared)));
            }
        }
        return pages.Count == 0 ? new Term("handed.broken") : new HandedText(pages);
    }

    private static XmlReader Open(ZipArchiveEntry entry) =>
        XmlReader.Create(new LimitedStream(entry.Open(), MostBytes), Safe);

    private static List<(string Name, string Id)> Worksheets(ZipArchive archive)
    {
        var found = new List<(string, string)>();
        using var xml = Open(archive.GetEntry("xl/workbook.xml")!);
        while (xml.Read())
        {
            if (xml is { NodeType: XmlNodeType.Element, LocalName: "sheet" })
            {
                var id = "";
                for (var i = 0; i < xml.AttributeCount; i++)
                {
                    xml.MoveToAttribute(i);
                    id = xml.LocalName == "id" ? xml.Value : id;
                }
                xml.MoveToElement();
                found.Add((xml.GetAttribute("name") ?? "", id));
            }
        }
        return found;
    }

    private static Dictionary<string, string> Targets(ZipArchive archive)
    {
        var found = new Dictionary<string, string>();
        if (archive.GetEntry("xl/_rels/workbook.xml.rels") is not { } entry)
        {
            return found;
        }
        using var xml = Open(entry);
        while (xml.Read())
        {
            if (
                xml is { NodeType: XmlNodeType.Element, LocalName: "Relationship" }
                && xml.GetAttribute("Id") is { } id
                && xml.GetAttribute("Target") is { } target
            )
            {
                found[id] = target.StartsWith('/') ? target[1..] : $"xl/{target}";
            }
        }
        return found;
    }

    /// <summary>Texts that cells name by their number.</summary>
    private static List<string> Shared(ZipArchive archive)
    {
        var found = new List<string>();
        if (archive.GetEntry("xl/sharedStrings.xml") is not { } entry)
        {
            return found;
        }
        using var xml = Open(entry);
        var (text, letters) = (new StringBuilder(), 0L);
        while (xml.Read())
        {
            if (xml is { NodeType: XmlNodeType.Element, LocalName: "si" })
            {
                text.Clear();
                if (xml.IsEmptyElement)
                {
                    found.Add("");
                }
            }
            else if (xml is { NodeType: XmlNodeType.EndElement, LocalName: "si" })
            {
                found.Add(text.ToString());
                letters += text.Length + 1;
            }
            else if (xml.NodeType is XmlNodeType.Text or XmlNodeType.SignificantWhitespace or XmlNodeType.Whitespace)
            {
                XmlText.Append(xml, text, CellGrid.MostLetters);
            }
            if (letters > MostShared)
            {
                throw new TooMuchException();
            }
        }
        return found;
    }

    private static IReadOnlyList<IReadOnlyList<string>> Rows(ZipArchiveEntry entry, Lazy<IReadOnlyList<string>> shared)
    {
        using var xml = Open(entry);
        var grid = new CellGrid();
        var (column, type, value, isValue) = (0, "", new StringBuilder(), false);
        while (xml.Read())
        {
            switch (xml.NodeType)
            {
                case XmlNodeType.Element when xml.LocalName == "row":
                    column = -1;
                    if (xml.IsEmptyElement)
                    {
                        grid.EndRow();
                    }
                    break;
                case XmlNodeType.Element when xml.LocalName == "c":
                    column = Column(xml.GetAttribute("r")) ?? column + 1;
                    type = xml.GetAttribute("t") ?? "n";
                    value.Clear();
                    break;
                case XmlNodeType.Element when xml.LocalName is "v" or "t":
                    isValue = !xml.IsEmptyElement;
                    break;
                case XmlNodeType.Text or XmlNodeType.SignificantWhitespace or XmlNodeType.Whitespace when isValue:
                    XmlText.Append(xml, value, CellGrid.MostLetters);
                    break;
                case XmlNodeType.EndElement when xml.LocalName is "v" or "t":
                    isValue = false;
                    break;
                case XmlNodeType.EndElement when xml.LocalName == "c":
                    grid.Put(column, Text(type, value.ToString(), shared).Trim());
                    break;
                case XmlNodeType.EndElement when xml.LocalName == "row":
                    grid.EndRow();
                    break;
            }
        }
        return grid.Rows;
    }

    private static string Text(string type, string stored, Lazy<IReadOnlyList<string>> shared) =>
        type switch
        {
            "s" => int.TryParse(stored, NumberStyles.None, CultureInfo.InvariantCulture, out var at)
            && at < shared.Value.Count
                ? shared.Value[at]
                : "",
            "n" => stored.Length == 0 ? "" : CellValue.OfNumber(stored),
            _ => stored,
        };

    /// <summary>The column of "AB7", from 0.</summary>
    private static int? Column(string? place)
    {
        var letters = place?.TakeWhile(char.IsAsciiLetterUpper).Take(4).ToList() ?? [];
        return letters.Count == 0 ? null : letters.Aggregate(0, (all, l) => all * 26 + (l - 'A' + 1)) - 1;
    }
}
