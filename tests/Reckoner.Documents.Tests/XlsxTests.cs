using System.IO.Compression;
using System.Xml.Linq;
using Reckoner.Tables;
using Xunit;

namespace Reckoner.Documents.Tests;

/// <summary>Workbooks, read as what they are: a zip of XML (ECMA-376, Office Open XML).</summary>
public class XlsxTests
{
    private static readonly XNamespace Main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";

    private static readonly Tables.Grid Sample = new(
        "first",
        "caption",
        [new GridColumn("=head", ColumnRole.Label), new GridColumn("Q", ColumnRole.Digits, OnWires: true)],
        [
            new GridRow([Cell.Of("=1+1"), Cell.Of(new Words.Run(Words.RunKind.Digits, "0000 0011", 2))]),
            new GridRow([Cell.Of("@x"), Cell.Of(Words.Run.Number(-7))], Stored: false),
            new GridRow([new Cell([Words.Content.Phrase("a"), Words.Content.Phrase("b & <c>")]), Cell.Empty]),
        ]
    );

    private static Dictionary<string, XDocument> Parts(params IReadOnlyList<Tables.Grid> grids)
    {
        var bytes = XlsxWriter.Write(new Document("d", "en", "title", null, [.. grids]));
        using var zip = new ZipArchive(new MemoryStream(bytes));
        return zip
            .Entries.Where(e => e.FullName.EndsWith(".xml", StringComparison.Ordinal))
            .ToDictionary(e => e.FullName, e => XDocument.Load(e.Open()));
    }

    private static XDocument Sheet(Dictionary<string, XDocument> parts, int number) =>
        parts[$"xl/worksheets/sheet{number}.xml"];

    private static List<List<string>> Cells(XDocument sheet) =>
        [
            .. sheet
                .Descendants(Main + "row")
                .Select(r =>
                    r.Elements(Main + "c")
                        .Select(c => string.Concat(c.Descendants(Main + "t").Select(t => t.Value)))
                        .ToList()
                ),
        ];

    [Fact]
    public void Cells_are_the_texts_of_the_table()
    {
        var rows = Cells(Sheet(Parts(Sample), 1));
        Assert.Equal(["=head", "Q ~"], rows[0]);
        Assert.Equal(["=1+1", "0000 0011"], rows[1]);
        Assert.Equal(["@x ~", "-7"], rows[2]);
        Assert.Equal(["a; b & <c>", ""], rows[3]);
    }

    [Fact]
    public void A_cycle_is_a_number_in_its_label_and_a_count_where_it_stands_alone()
    {
        var counted = Sample with
        {
            Columns = [new GridColumn("cycle", ColumnRole.Label), new GridColumn("cycles", ColumnRole.Short)],
            Rows =
            [
                new GridRow([Cell.Of("load"), Cell.Of("0011")]) { Cycle = 0 },
                new GridRow([Cell.Of("12"), Cell.Of(Words.Run.Number(-7))]) { Cycle = 12 },
                new GridRow([Cell.Of("13"), Cell.Of(Words.Run.Number(System.Numerics.BigInteger.Pow(10, 20)))])
                {
                    Cycle = 12,
                },
            ],
        };
        var rows = Sheet(Parts(counted), 1)
            .Descendants(Main + "row")
            .Select(r => string.Join(' ', r.Elements(Main + "c").Select(c => c.Element(Main + "v")?.Value ?? "text")));
        Assert.Equal(["text text", "text text", "12 -7", "text text"], rows);
    }

    [Fact]
    public void Digits_and_words_are_text_and_nothing_is_a_formula()
    {
        var sheet = Sheet(Parts(Sample), 1);
        Assert.Empty(sheet.Descendants(Main + "f"));
        Assert.Empty(sheet.Descendants(Main + "v"));
        Assert.NotEmpty(sheet.Descendants(Main + "c"));
        Assert.All(
            sheet.Descendants(Main + "c").Where(c => c.HasElements),
            c => Assert.Equal("inlineStr", c.Attribute("t")!.Value)
        );
    }

    [Fact]
    public void The_head_stays_when_one_scrolls()
    {
        var pane = Sheet(Parts(Sample), 1).Descendants(Main + "pane").Single();
        Assert.Equal(("frozen", "1"), (pane.Attribute("state")!.Value, pane.Attribute("ySplit")!.Value));
    }

    [Fact]
    public void Each_table_has_a_sheet_of_its_name()
    {
        var parts = Parts(Sample, Sample with { Name = "second" });
        Assert.Equal(
            ["first", "second"],
            parts["xl/workbook.xml"].Descendants(Main + "sheet").Select(s => s.Attribute("name")!.Value)
        );
        Assert.Equal(4, Cells(Sheet(parts, 2)).Count);
    }
}
