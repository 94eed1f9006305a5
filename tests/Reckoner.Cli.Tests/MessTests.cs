using System.IO.Compression;
using System.Text;
using Reckoner.Documents.Marking;
using Reckoner.Marking;
using Reckoner.Tests;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>A term's worth of what students hand in besides: each file is marked or listed with its reason, and none is lost.</summary>
public sealed class MessTests(MarkTests.SheetsMade made) : IClassFixture<MarkTests.SheetsMade>, IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("reckoner-mess-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private string At(string file)
    {
        var path = Path.Combine(folder, file);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        return path;
    }

    private string Sheet(string ending) =>
        Directory.EnumerateFiles(made.At("out/sheets"), $"*.{ending}").Order(StringComparer.Ordinal).First();

    private MarkedClass Marked()
    {
        var marking = new ClassMarking(AnswersReader.Of(File.ReadAllBytes(made.At("out/keep/answers.json")))!);
        marking.Take(HandedFolder.Files(folder, null), TestContext.Current.CancellationToken);
        using var session = new Session(TextWriter.Null, TextWriter.Null);
        return marking.Marked(MarkScheme.FollowThrough, new HashSet<int>(), session.Means);
    }

    /// <summary>Each file beside what is said of it in English; of those that are marked their number of sheets.</summary>
    private static Dictionary<string, string> Said(MarkedClass marked)
    {
        var said = marked.Unmarked.ToDictionary(f => f.Path, f => Words.Vocabulary.English.Text(f.Reason));
        foreach (var file in marked.Sheets.SelectMany(s => s.Files))
        {
            said.Add(file, "marked");
        }
        foreach (var file in marked.PassedOver)
        {
            said.Add(file, "passed over");
        }
        return said;
    }

    /// <summary>Rows that are alike and stand together are written once, and cells as often as a file likes to say.</summary>
    [Fact]
    public void What_an_open_document_repeats_is_read_as_often()
    {
        const string cells =
            "<r><table:table-row table:number-rows-repeated=\"3\"><table:table-cell><text:p>00101</text:p></table:table-cell></table:table-row>"
            + "<table:table-row><table:table-cell table:number-columns-repeated=\"2147483647\"><text:p>1</text:p></table:table-cell><table:table-cell><text:p>2</text:p></table:table-cell></table:table-row>"
            + "<table:table-row table:number-rows-repeated=\"1048570\"><table:table-cell/></table:table-row></r>";
        var bytes = Packed(
            ("META-INF/manifest.xml", "<m/>"u8.ToArray()),
            (
                "content.xml",
                Encoding.UTF8.GetBytes($"<table:table xmlns:table=\"urn:t\" xmlns:text=\"urn:x\">{cells}</table:table>")
            )
        );
        var (text, _) = Documents.HandedIn.HandedReader.Of(new Documents.HandedIn.HandedFile("a.ods", default, bytes));
        Assert.Equal(["00101", "00101", "00101"], text!.Pages[0].Rows.Take(3).Select(r => r.Single()));
        Assert.Equal(400, text.Pages[0].Rows[3].Count);
    }

    private static byte[] Packed(params (string Name, byte[] Bytes)[] files)
    {
        using var stream = new MemoryStream();
        using (var archive = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var (name, bytes) in files)
            {
                using var entry = archive.CreateEntry(name, CompressionLevel.Optimal).Open();
                entry.Write(bytes);
            }
        }
        return stream.ToArray();
    }

    [Fact]
    public void Each_file_is_marked_or_listed_with_its_reason()
    {
        var (xlsx, csv) = (File.ReadAllBytes(Sheet("xlsx")), File.ReadAllBytes(Sheet("csv")));
        var html = File.ReadAllText(Sheet("html"));
        var bomb = Packed(("huge.csv", new byte[60_000_000]));
        var expected = new Dictionary<string, (byte[] Bytes, string Said)>
        {
            ["a/empty.xlsx"] = ([], "It is empty."),
            ["a/blank.txt"] = ("  \r\n\r\n"u8.ToArray(), "Nothing is written in it."),
            ["a/cut.xlsx"] = (xlsx[..(xlsx.Length / 2)], "It is broken, or was cut off."),
            ["a/cut.csv"] = (
                Encoding.UTF8.GetBytes(Encoding.UTF8.GetString(csv)[..^1] + "\r\nquotient,\"4"),
                "From line"
            ),
            ["a/locked.xlsx"] = (
                [0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1],
                "It is locked by a password, or of a form from before 2007"
            ),
            ["a/photo.jpg"] = ([0xFF, 0xD8, 0xFF, 0xE0, 1, 2, 3], "A picture"),
            ["a/photo.heic"] = ([0, 0, 0, 24, .. "ftypheic"u8], "A picture"),
            ["a/scan.csv"] = ("%PDF-1.4\n"u8.ToArray(), "A PDF"),
            ["a/answer.docx"] = (Packed(("word/document.xml", "<w/>"u8.ToArray())), "A document of running text"),
            ["a/packed.rar"] = ("Rar!\u001A\u0007"u8.ToArray(), "Packed in a way that is not read"),
            ["a/program.exe"] = (
                [(byte)'M', (byte)'Z', .. Enumerable.Range(0, 200).Select(i => (byte)(i % 7))],
                "It holds no text."
            ),
            ["a/unknown.csv"] = (
                "name,points\nme,5\n"u8.ToArray(),
                "Neither in it nor in its name stands whose it is."
            ),
            ["a/other.csv"] = ("000-000\r\n\r\nQuestion 1\r\n"u8.ToArray(), "Sheet 000-000 is none of these answers."),
            ["a/other.html"] = (
                Encoding.UTF8.GetBytes(html.Replace("data-sheet=\"", "data-sheet=\"XX", StringComparison.Ordinal)),
                "Sheet XX"
            ),
            ["a/half.html"] = (
                Encoding.UTF8.GetBytes(
                    html.Replace(">{}</script>", ">{\"answers\":</script>", StringComparison.Ordinal)
                ),
                "It is broken, or was cut off."
            ),
            ["a/entities.xlsx"] = (
                Packed(("xl/workbook.xml", "<!DOCTYPE a [<!ENTITY b \"c\">]><workbook>&b;</workbook>"u8.ToArray())),
                "It is broken, or was cut off."
            ),
            ["a/.DS_Store"] = ([1, 2], "passed over"),
            ["a/~$sheet.xlsx"] = ([1, 2], "passed over"),
            ["a/good.data"] = (xlsx, "marked"),
            ["b/good.csv"] = (csv, "marked"),
            ["b/named.CSV"] = (Encoding.UTF8.GetBytes("\uFEFF" + Encoding.UTF8.GetString(csv)), "marked"),
        };
        foreach (var (name, file) in expected)
        {
            File.WriteAllBytes(At(name), file.Bytes);
        }
        File.WriteAllBytes(
            At("all.zip"),
            Packed(
                ("../../etc/out.csv", csv),
                ("C:\\x\\y.xlsx", xlsx),
                ("in.zip", Packed(("deep.csv", csv))),
                ("bomb.zip", bomb),
                ("__MACOSX/._x", [1])
            )
        );
        File.CreateSymbolicLink(At("link.csv"), Sheet("csv"));
        Directory.CreateSymbolicLink(At("round"), folder);
        var said = Said(Marked());
        foreach (var (name, file) in expected)
        {
            Assert.StartsWith(file.Said, said[name], StringComparison.Ordinal);
            said.Remove(name);
        }
        Assert.Equal(
            [
                "all.zip/../../etc/out.csv: marked",
                "all.zip/C:/x/y.xlsx: marked",
                "all.zip/__MACOSX/._x: passed over",
                "all.zip/bomb.zip/huge.csv: It holds more than anybody fills in.",
                "all.zip/in.zip/deep.csv: marked",
                "link.csv: A link, which is not followed.",
                "round: A link, which is not followed.",
            ],
            said.Select(s => $"{s.Key}: {s.Value}").Order(StringComparer.Ordinal)
        );
    }

    /// <summary>
    /// What is drawn from good files by cutting and mixing their bytes ends too, and is accounted for: a workbook that is none any more
    /// is an archive of files.
    /// </summary>
    [Fact]
    public void Broken_bytes_are_no_fault_of_ours()
    {
        var seed = Seeds.Next();
        var random = new Random(seed);
        var originals = new[] { "xlsx", "csv", "html" }.Select(e => File.ReadAllBytes(Sheet(e))).ToList();
        for (var i = 0; i < 60; i++)
        {
            var bytes = originals[i % 3].ToArray();
            for (var j = random.Next(1, 30); j > 0; j--)
            {
                bytes[random.Next(bytes.Length)] = (byte)random.Next(256);
            }
            File.WriteAllBytes(At($"{i}.bin"), i % 2 == 0 ? bytes : bytes[..random.Next(1, bytes.Length)]);
        }
        Seeds.Told(
            seed,
            "bytes",
            () => Assert.Equal(60, Said(Marked()).Keys.Select(k => k.Split('/')[0]).Distinct().Count())
        );
    }

    /// <summary>A million lines take no more memory than one, be they empty or not: the heap is limited to 300 MB.</summary>
    [Fact]
    [Trait("Length", "long")]
    public void A_workbook_of_a_million_lines_is_passed_through()
    {
        Million("full.xlsx", "<row><c t=\"inlineStr\"><is><t>x</t></is></c><c><v>101</v></c></row>");
        Million("empty.xlsx", "<row r=\"9\" spans=\"1:3\"><c r=\"A9\" s=\"1\"/></row>");
        File.WriteAllBytes(At("bomb.zip"), Packed(("huge.csv", new byte[400_000_000])));
        var start = Command.Process("mark", folder, "--answers", made.At("out/keep/answers.json"), "-o", At("marks"));
        start.Environment["DOTNET_GCHeapHardLimit"] = "0x12C00000";
        using var child = Child.Start(start, TimeSpan.FromMinutes(3));
        var run = Command.Of(child.End());
        Assert.Equal((1, ""), (run.Status, run.Errors));
        var look = File.ReadAllText(At("marks/teacher.html"));
        Assert.Contains(
            "<td>full.xlsx</td><td>It holds more than anybody fills in.</td>",
            look,
            StringComparison.Ordinal
        );
        Assert.Contains("<td>empty.xlsx</td><td>Neither in it", look, StringComparison.Ordinal);
    }

    private void Million(string name, string row)
    {
        using var archive = ZipFile.Open(At(name), ZipArchiveMode.Create);
        Put(
            "xl/workbook.xml",
            w => w.Write("<workbook xmlns:r=\"urn:r\"><sheets><sheet name=\"1\" r:id=\"a\"/></sheets></workbook>")
        );
        Put(
            "xl/_rels/workbook.xml.rels",
            w => w.Write("<R><Relationship Id=\"a\" Target=\"worksheets/sheet1.xml\"/></R>")
        );
        Put(
            "xl/worksheets/sheet1.xml",
            w =>
            {
                w.Write("<worksheet><sheetData>");
                for (var i = 0; i < 1_000_000; i++)
                {
                    w.Write(row);
                }
                w.Write("</sheetData></worksheet>");
            }
        );

        void Put(string entry, Action<StreamWriter> write)
        {
            using var writer = new StreamWriter(archive.CreateEntry(entry).Open());
            write(writer);
        }
    }
}
