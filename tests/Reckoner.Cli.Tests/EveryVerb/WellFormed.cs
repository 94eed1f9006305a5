using System.IO.Compression;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using System.Xml;
using System.Xml.Linq;
using Markdig;
using PdfSharp.Pdf.IO;
using SkiaSharp;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>What was written, read by readers that are not ours.</summary>
internal static partial class WellFormed
{
    public static void Read(string form, byte[] bytes)
    {
        switch (form)
        {
            case "text" or "prose" or "txt" or "certificate" or "verilog" or "vhdl" or "v" or "vhd" or "vcd" or "man":
                PlainText(Text(bytes));
                break;
            case "json":
                JsonDocument.Parse(bytes).Dispose();
                break;
            case "markdown" or "md":
                Assert.NotEmpty(Markdown.Parse(PlainText(Text(bytes))));
                break;
            case "html":
                Xml(Closed(Text(bytes)));
                break;
            case "svg":
                Xml(Text(bytes));
                break;
            case "latex" or "tex":
                Balanced(PlainText(Text(bytes)));
                break;
            case "csv":
                Rows(Text(bytes));
                break;
            case "xlsx":
                Workbook(bytes);
                break;
            case "questions":
                Questions(bytes);
                break;
            case "png":
                using (var image = SKBitmap.Decode(bytes))
                {
                    Assert.True(image is { Width: > 0, Height: > 0 }, "no image");
                }
                break;
            case "pdf":
                using (var document = PdfReader.Open(new MemoryStream(bytes), PdfDocumentOpenMode.Import))
                {
                    Assert.NotEqual(0, document.PageCount);
                }
                break;
            default:
                throw new InvalidOperationException($"Say how {form} is read by a reader that is not ours.");
        }
    }

    private static string Text(byte[] bytes) =>
        new UTF8Encoding(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true).GetString(bytes);

    /// <summary>Nothing that a terminal would act upon.</summary>
    public static string PlainText(string text)
    {
        var odd = text.Where(c => char.IsControl(c) && c is not '\n').Select(c => $"U+{(int)c:X4}").Distinct();
        Assert.Equal([], odd);
        return text;
    }

    private static void Xml(string text) =>
        XDocument.Load(
            XmlReader.Create(
                new StringReader(text),
                new XmlReaderSettings { DtdProcessing = DtdProcessing.Ignore, XmlResolver = null }
            )
        );

    /// <summary>Our pages are XML but for what HTML never closes, and for programs, which are no markup.</summary>
    private static string Closed(string html) =>
        Never().Replace(Script().Replace(html, ""), "<$1/>").Replace("&nbsp;", "&#160;", StringComparison.Ordinal);

    /// <summary>Groups are closed, and so are environments, the last one first. A definition may hold a half of either.</summary>
    private static void Balanced(string latex)
    {
        var groups = 0;
        var environments = new Stack<string>();
        foreach (var mark in Marks().Matches(Remarks().Replace(latex, "")).Select(m => m.Value.TrimStart('\\')))
        {
            if (mark[0] == 'b')
            {
                environments.Push(mark["begin".Length..]);
            }
            else if (mark[0] == 'e')
            {
                Assert.Equal(environments.Pop(), mark["end".Length..]);
            }
            else
            {
                groups += mark == "{" ? 1 : -1;
                Assert.True(groups >= 0, "a group is closed that none has opened");
            }
        }
        Assert.Equal(0, groups);
        Assert.Empty(environments);
    }

    /// <summary>RFC 4180: quotes are closed, and all rows of a stretch without an empty line have as many cells.</summary>
    private static void Rows(string csv)
    {
        Assert.Equal(0, csv.Count(c => c == '"') % 2);
        Assert.DoesNotContain(csv, c => char.IsControl(c) && c is not ('\r' or '\n'));
    }

    private static void Workbook(byte[] bytes)
    {
        using var zip = new ZipArchive(new MemoryStream(bytes));
        Assert.Contains(zip.Entries, e => e.FullName == "[Content_Types].xml");
        Assert.Contains(zip.Entries, e => e.FullName.StartsWith("xl/worksheets/", StringComparison.Ordinal));
        foreach (var entry in zip.Entries.Where(e => !e.FullName.EndsWith('/')))
        {
            using var stream = entry.Open();
            XDocument.Load(stream);
        }
    }

    /// <summary>A bank in any of its forms: an archive of XML, or text.</summary>
    private static void Questions(byte[] bytes)
    {
        if (bytes is not [(byte)'P', (byte)'K', ..])
        {
            Assert.NotEmpty(Text(bytes));
            return;
        }
        using var zip = new ZipArchive(new MemoryStream(bytes));
        Assert.Contains(zip.Entries, e => e.FullName == "imsmanifest.xml");
        foreach (var entry in zip.Entries)
        {
            using var stream = entry.Open();
            XDocument.Load(stream);
        }
    }

    [GeneratedRegex("<((?:meta|link|br|hr|img|input|col|wbr)(?:\\s[^>]*?)?)\\s*/?>")]
    private static partial Regex Never();

    [GeneratedRegex(@"<script\b[^>]*>.*?</script>", RegexOptions.Singleline)]
    private static partial Regex Script();

    [GeneratedRegex(@"\\(?:begin|end)\{[a-z*]+\}|(?<!\\)(?:\\\\)*[{}]")]
    private static partial Regex Marks();

    [GeneratedRegex(@"(?<!\\)%.*")]
    private static partial Regex Remarks();
}
