using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Xml;
using Reckoner.Documents.Lessons;
using Reckoner.Sheets;
using Reckoner.Words;

namespace Reckoner.Documents.Packs;

/// <summary>
/// A sheet as a workbook to fill in (Office Open XML, ECMA-376), a worksheet for each question. Every cell is text, so no zero of
/// digits is lost and nothing is a formula; what is given is protected without a password, what is open is not.
/// </summary>
internal static class SheetWorkbook
{
    private const string Main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    private const string Relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

    /// <summary>The styles below, in their order.</summary>
    private enum Look
    {
        Plain,
        Head,
        Digits,
        Open,
    }

    private const string Styles = $"""
        <?xml version="1.0" encoding="UTF-8" standalone="yes"?>
        <styleSheet xmlns="{Main}"><fonts count="3"><font><sz val="11"/><name val="Calibri"/></font><font><b/><sz val="11"/><name val="Calibri"/></font><font><sz val="11"/><name val="Courier New"/></font></fonts><fills count="3"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill><fill><patternFill patternType="solid"><fgColor rgb="FFF6F3EC"/></patternFill></fill></fills><borders count="2"><border/><border><left style="thin"/><right style="thin"/><top style="thin"/><bottom style="thin"/></border></borders><cellStyleXfs count="1"><xf/></cellStyleXfs><cellXfs count="4"><xf numFmtId="49" fontId="0" fillId="0" borderId="0" applyNumberFormat="1"/><xf numFmtId="49" fontId="1" fillId="0" borderId="0" applyNumberFormat="1" applyFont="1"/><xf numFmtId="49" fontId="2" fillId="0" borderId="0" applyNumberFormat="1" applyFont="1"/><xf numFmtId="49" fontId="2" fillId="2" borderId="1" applyNumberFormat="1" applyFont="1" applyFill="1" applyBorder="1" applyProtection="1"><protection locked="0"/></xf></cellXfs></styleSheet>
        """;

    private static readonly string LargeStyles = Styles.Replace(
        "sz val=\"11\"",
        "sz val=\"18\"",
        StringComparison.Ordinal
    );

    /// <summary>Files in an archive must say when they were made; ours are made of their content alone.</summary>
    private static readonly DateTimeOffset Always = new(2000, 1, 1, 0, 0, 0, TimeSpan.Zero);

    public static byte[] Write(SheetOf sheet, IReadOnlyList<AskedQuestion> questions, Vocabulary words)
    {
        using var stream = new MemoryStream();
        using (var archive = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            var count = questions.Count;
            Put(archive, "[Content_Types].xml", ContentTypes(count));
            Put(
                archive,
                "_rels/.rels",
                $"<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\"><Relationship Id=\"r1\" Type=\"{Relations}/officeDocument\" Target=\"xl/workbook.xml\"/></Relationships>"
            );
            Put(archive, "xl/workbook.xml", Workbook(questions));
            Put(archive, "xl/_rels/workbook.xml.rels", Rels(count));
            Put(archive, "xl/styles.xml", sheet.Form == SheetForm.Large ? LargeStyles : Styles);
            for (var i = 0; i < count; i++)
            {
                var rows = SheetCells.Of(questions[i], words).ToList();
                Put(archive, $"xl/worksheets/sheet{i + 1}.xml", Worksheet(rows, $"{sheet.Number}"));
            }
        }
        return stream.ToArray();
    }

    private static void Put(ZipArchive archive, string name, string text)
    {
        var entry = archive.CreateEntry(name, CompressionLevel.Fastest);
        entry.LastWriteTime = Always;
        using var writer = new StreamWriter(entry.Open(), new UTF8Encoding(encoderShouldEmitUTF8Identifier: false));
        writer.Write(text);
    }

    private static string ContentTypes(int count)
    {
        const string Type = "application/vnd.openxmlformats-officedocument.spreadsheetml";
        var sheets = string.Concat(
            Enumerable
                .Range(1, count)
                .Select(i =>
                    $"<Override PartName=\"/xl/worksheets/sheet{i}.xml\" ContentType=\"{Type}.worksheet+xml\"/>"
                )
        );
        return "<Types xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\">"
            + "<Default Extension=\"rels\" ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/>"
            + "<Default Extension=\"xml\" ContentType=\"application/xml\"/>"
            + $"<Override PartName=\"/xl/workbook.xml\" ContentType=\"{Type}.sheet.main+xml\"/>"
            + $"<Override PartName=\"/xl/styles.xml\" ContentType=\"{Type}.styles+xml\"/>{sheets}</Types>";
    }

    private static string Workbook(IReadOnlyList<AskedQuestion> questions) =>
        $"<workbook xmlns=\"{Main}\" xmlns:r=\"{Relations}\"><sheets>"
        + string.Concat(
            questions.Select((q, i) => $"<sheet name=\"{q.Question.Number}\" sheetId=\"{i + 1}\" r:id=\"r{i + 1}\"/>")
        )
        + "</sheets></workbook>";

    private static string Rels(int count) =>
        "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\">"
        + string.Concat(
            Enumerable
                .Range(1, count)
                .Select(i =>
                    $"<Relationship Id=\"r{i}\" Type=\"{Relations}/worksheet\" Target=\"worksheets/sheet{i}.xml\"/>"
                )
        )
        + $"<Relationship Id=\"r{count + 1}\" Type=\"{Relations}/styles\" Target=\"styles.xml\"/></Relationships>";

    private static string Worksheet(IReadOnlyList<IReadOnlyList<SheetCell>> rows, string number)
    {
        var text = new StringBuilder();
        using (var xml = XmlWriter.Create(text, new XmlWriterSettings { OmitXmlDeclaration = true }))
        {
            xml.WriteStartElement("worksheet", Main);
            xml.WriteStartElement("cols", Main);
            for (var i = 0; i < rows.Max(r => r.Count); i++)
            {
                xml.WriteStartElement("col", Main);
                xml.WriteAttributeString("min", Invariant(i + 1));
                xml.WriteAttributeString("max", Invariant(i + 1));
                xml.WriteAttributeString("width", Invariant(i == 0 ? 18 : 26));
                xml.WriteAttributeString("customWidth", "1");
                xml.WriteEndElement();
            }
            xml.WriteEndElement();
            xml.WriteStartElement("sheetData", Main);
            Row(xml, 1, [new SheetCell(number, IsHead: true)]);
            for (var r = 0; r < rows.Count; r++)
            {
                Row(xml, r + 2, rows[r]);
            }
            xml.WriteEndElement();
            xml.WriteStartElement("sheetProtection", Main);
            xml.WriteAttributeString("sheet", "1");
            xml.WriteAttributeString("formatColumns", "0");
            xml.WriteEndElement();
            xml.WriteEndElement();
        }
        return text.ToString();
    }

    private static void Row(XmlWriter xml, int number, IReadOnlyList<SheetCell> cells)
    {
        xml.WriteStartElement("row", Main);
        xml.WriteAttributeString("r", Invariant(number));
        for (var i = 0; i < cells.Count; i++)
        {
            var cell = cells[i];
            xml.WriteStartElement("c", Main);
            xml.WriteAttributeString("r", $"{Column(i)}{Invariant(number)}");
            xml.WriteAttributeString("s", Invariant((int)LookOf(cell)));
            if (cell.Text.Length > 0)
            {
                xml.WriteAttributeString("t", "inlineStr");
                xml.WriteStartElement("is", Main);
                xml.WriteStartElement("t", Main);
                xml.WriteAttributeString("xml", "space", null, "preserve");
                xml.WriteString(cell.Text);
                xml.WriteEndElement();
                xml.WriteEndElement();
            }
            xml.WriteEndElement();
        }
        xml.WriteEndElement();
    }

    private static Look LookOf(SheetCell cell) =>
        cell.IsOpen ? Look.Open
        : cell.IsHead ? Look.Head
        : cell.IsDigits ? Look.Digits
        : Look.Plain;

    /// <summary>A to Z, then AA.</summary>
    private static string Column(int index) =>
        index < 26 ? ((char)('A' + index)).ToString() : Column(index / 26 - 1) + Column(index % 26);

    private static string Invariant(int number) => number.ToString(CultureInfo.InvariantCulture);
}
