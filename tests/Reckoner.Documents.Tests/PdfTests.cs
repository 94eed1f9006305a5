using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;
using System.Text.RegularExpressions;
using Reckoner.Drawing;
using Xunit;

namespace Reckoner.Documents.Tests;

public class PdfTests
{
    private static readonly Scene Weave = Figures.Weave("divide-shared-register", 4, 13, 3);

    private static string Read(byte[] pdf, string program, params string[] arguments)
    {
        using var folder = new Folder();
        var file = folder.Write("it.pdf", pdf);
        return Program.Run(
            folder.Path,
            program,
            [.. arguments, file, .. program == "pdftotext" ? ["-"] : (string[])[]]
        );
    }

    [Fact]
    public void The_same_figure_gives_the_same_bytes() =>
        Assert.Equal(PdfWriter.Write([Weave], Palette.Light), PdfWriter.Write([Weave], Palette.Light));

    /// <summary>
    /// A compressed stream ends with the Adler-32 of what it holds (RFC 1950, the sums taken here as section 8.2 defines them), and
    /// the table of objects says where each begins; "qpdf --check" has nothing to say then.
    /// </summary>
    [Fact]
    public void Every_stream_is_complete_and_every_object_where_the_table_says()
    {
        var pdf = HandoutWriter.Write(Handout, Palette.Light);
        var text = Encoding.Latin1.GetString(pdf);
        var streams = Regex.Matches(text, @"<<[^<>]*/Filter/FlateDecode[^<>]*>>\s*stream\n").ToList();
        Assert.NotEmpty(streams);
        foreach (var stream in streams)
        {
            var length = int.Parse(Regex.Match(stream.Value, @"/Length (\d+)").Groups[1].Value, null);
            var packed = pdf.AsSpan(stream.Index + stream.Length, length).ToArray();
            Assert.StartsWith(
                "endstream",
                text[(stream.Index + stream.Length + length)..].TrimStart(),
                StringComparison.Ordinal
            );
            using var inflate = new DeflateStream(new MemoryStream(packed[2..^4]), CompressionMode.Decompress);
            using var held = new MemoryStream();
            inflate.CopyTo(held);
            var bytes = held.ToArray();
            var a = bytes.Aggregate(1L, (sum, b) => (sum + b) % 65521);
            var b = bytes.Aggregate((A: 1L, B: 0L), (s, one) => ((s.A + one) % 65521, (s.B + s.A + one) % 65521)).B;
            Assert.Equal((uint)((b << 16) | a), BinaryPrimitives.ReadUInt32BigEndian(packed.AsSpan()[^4..]));
        }
        var place = int.Parse(Regex.Match(text, @"startxref\s+(\d+)").Groups[1].Value, null);
        Assert.Equal("xref", text[place..(place + 4)]);
        var objects = Regex.Matches(text[place..], @"(\d{10}) \d{5} ([fn])").Select((m, i) => (Number: i, m)).ToList();
        Assert.All(
            objects.Where(o => o.m.Groups[2].Value == "n"),
            o =>
                Assert.StartsWith(
                    $"{o.Number} 0 obj",
                    text[int.Parse(o.m.Groups[1].Value, null)..],
                    StringComparison.Ordinal
                )
        );
    }

    /// <summary>What Poppler's pdftotext finds in it: words, and the digits of a row beside each other.</summary>
    [Fact]
    public void Text_can_be_selected()
    {
        var text = Read(PdfWriter.Write([Weave], Palette.Light), "pdftotext", "-layout");
        Assert.Contains("Division: quotient and remainder in one register", text, StringComparison.Ordinal);
        Assert.Contains("quotient = 4", text, StringComparison.Ordinal);
        var digits = text.Split('\n').Select(l => l.Replace(" ", "", StringComparison.Ordinal)).ToList();
        Assert.Contains("3000010010011", digits);
    }

    [Fact]
    public void Outlines_leave_no_text() =>
        Assert.Equal(
            "",
            Read(PdfWriter.Write([Weave], Palette.Light, TextForm.Outlines), "pdftotext").Trim('\f', '\n')
        );

    [Fact]
    public void A_figure_is_tagged_and_described()
    {
        var pdf = PdfWriter.Write([Weave], Palette.Dark);
        Assert.StartsWith("Document\n  Figure:", Read(pdf, "pdfinfo", "-struct"), StringComparison.Ordinal);
        var info = Read(pdf, "pdfinfo").Split('\n');
        Assert.Contains(
            info,
            l => l.StartsWith("Tagged:", StringComparison.Ordinal) && l.EndsWith("yes", StringComparison.Ordinal)
        );
        Assert.Contains("Title:           Division: quotient and remainder in one register", info);
        // The description as the file has it, in UTF-16.
        var described = Encoding.Latin1.GetString(pdf);
        Assert.Contains("/Alt", described, StringComparison.Ordinal);
        Assert.Contains("/Lang(en)", described, StringComparison.Ordinal);
    }

    [Fact]
    public void Pages_are_as_large_as_their_scenes()
    {
        var info = Read(PdfWriter.Write([Weave, Weave], Palette.Grey), "pdfinfo");
        Assert.Contains("Pages:           2\n", info, StringComparison.Ordinal);
        var size = FormattableString.Invariant(
            $"Page size:       {Weave.Width * 0.75:0.###} x {Weave.Height * 0.75:0.###} pts"
        );
        Assert.Contains(size, info, StringComparison.Ordinal);
    }

    private static readonly Handout Handout = new(
        "Dividing by hand",
        "en",
        [
            new Heading(1, "Dividing by hand"),
            new Paragraph([
                new Run("The divisor stays where it is, and "),
                new Run("R", Face.Bold),
                new Run(" moves."),
            ]),
            new Listing(
                [
                    [new Run("subtract")],
                    [new Run("decide")],
                ],
                IsNumbered: true
            ),
            new Verbatim(["R := shl(R, 0)"]),
            new Grid(
                "What each cycle does",
                ["cycle", "R"],
                [
                    ["1", "0001"],
                    ["2", "0011"],
                ]
            )
            {
                Face = Face.Mono,
            },
            new Picture(Weave),
            new PageEnd(),
            new Heading(2, "Your turn"),
        ]
    );

    /// <summary>The tags of ISO 32000-1, 14.8.4, as Poppler reads them.</summary>
    [Fact]
    public void A_handout_is_tagged_in_reading_order()
    {
        var tags = Read(HandoutWriter.Write(Handout, Palette.Light), "pdfinfo", "-struct")
            .Split('\n', StringSplitOptions.RemoveEmptyEntries)
            .Where(l => !l.Contains('/', StringComparison.Ordinal))
            .Select(l => l.Split('(')[0].TrimEnd(' ', ':'));
        string[] expected =
        [
            "Document",
            "  H1",
            "  P",
            "  L",
            "    LI",
            "      Lbl",
            "      LBody",
            "    LI",
            "      Lbl",
            "      LBody",
            "  P",
            "  Table",
            "    Caption",
            "    TR",
            "      TH",
            "      TH",
            "    TR",
            "      TD",
            "      TD",
            "    TR",
            "      TD",
            "      TD",
            "  Figure",
            "  H2",
        ];
        Assert.Equal(string.Join('\n', expected), string.Join('\n', tags));
    }

    [Fact]
    public void A_handout_reads_as_it_was_written()
    {
        var text = Read(HandoutWriter.Write(Handout, Palette.Light), "pdftotext", "-layout");
        string[] expected =
        [
            "Dividing by hand",
            "The divisor stays where it is, and R moves.",
            "1. subtract",
            "2. decide",
            "R := shl(R, 0)",
            "What each cycle does",
            "cycle R",
            "1 0001",
            "2 0011",
        ];
        var lines = text.Split('\n').Select(l => string.Join(' ', l.Split(' ', StringSplitOptions.RemoveEmptyEntries)));
        Assert.Equal(expected, lines.Where(l => l.Length > 0).Take(expected.Length));
    }

    /// <summary>A table longer than a page goes on with its head; paragraphs break where the line ends and nothing is lost.</summary>
    [Fact]
    public void What_is_longer_than_a_page_goes_on_with_nothing_lost()
    {
        var words = string.Join(' ', Enumerable.Range(0, 900).Select(i => $"word{i}"));
        var rows = Enumerable.Range(0, 90).Select(i => (IReadOnlyList<string>)[$"row{i}", words[..60]]).ToList();
        var much = new Handout("Long", "en", [Paragraph.Of(words), new Grid(null, ["first", "second"], rows)]);
        var text = Read(HandoutWriter.Write(much, Palette.Light), "pdftotext");
        var found = text.Split([' ', '\n', '\f'], StringSplitOptions.RemoveEmptyEntries).ToList();
        Assert.Equal(words.Split(' '), found.Where(w => w.StartsWith("word", StringComparison.Ordinal)).Take(900));
        Assert.Equal(90, found.Count(w => w.StartsWith("row", StringComparison.Ordinal)));
        Assert.InRange(found.Count(w => w == "first"), 3, 9);
    }

    /// <summary>Its heading and the text behind it go with it, and no page stays empty.</summary>
    [Theory]
    [InlineData(1000, "p p")]
    [InlineData(1500, "p w w")]
    public void A_figure_that_nobody_could_read_has_its_page_turned(double width, string expected)
    {
        var figure = new Picture(Weave with { Width = width, Height = 400 });
        var handout = new Handout(
            "Wide",
            "en",
            [
                Paragraph.Of("Before."),
                new Heading(2, "A figure"),
                figure,
                Paragraph.Of("Behind."),
                new PageEnd(),
                figure,
            ]
        );
        var sizes = Regex
            .Matches(
                Read(HandoutWriter.Write(handout, Palette.Light), "pdfinfo", "-l", "9"),
                @"size: +([\d.]+) x ([\d.]+)"
            )
            .Select(m =>
                double.Parse(m.Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture)
                > double.Parse(m.Groups[2].Value, System.Globalization.CultureInfo.InvariantCulture)
                    ? "w"
                    : "p"
            );
        Assert.Equal(expected, string.Join(' ', sizes));
    }

    /// <summary>Neither the first nor the last line of a paragraph stands alone on its page, wherever the paragraph begins.</summary>
    [Fact]
    public void No_line_of_a_paragraph_stands_alone()
    {
        var words = string.Join(' ', Enumerable.Range(0, 60).Select(i => $"word{i}"));
        for (var above = 25; above < 40; above++)
        {
            var much = new Handout(
                "Long",
                "en",
                [new Verbatim([.. Enumerable.Repeat("x", above)]), Paragraph.Of(words)]
            );
            var pages = Read(HandoutWriter.Write(much, Palette.Light), "pdftotext", "-layout")
                .Split('\f')
                .Select(p => p.Split('\n').Count(l => l.Contains("word", StringComparison.Ordinal)))
                .Where(lines => lines > 0)
                .ToList();
            Assert.True(pages.Sum() > 5);
            Assert.DoesNotContain(1, pages);
        }
    }

    /// <summary>A table goes to the next page rather than be parted, and takes along what is said below it.</summary>
    [Fact]
    public void A_table_that_a_page_has_room_for_stays_whole()
    {
        var rows = Enumerable.Range(0, 12).Select(i => (IReadOnlyList<string>)[$"row{i}", "x"]).ToList();
        foreach (var above in new[] { 5, 22, 30, 40 })
        {
            var much = new Handout(
                "Table",
                "en",
                [
                    new Verbatim([.. Enumerable.Repeat("x", above)]),
                    new Grid("A table", ["first", "second"], rows),
                    Paragraph.Of("below") with
                    {
                        IsBelow = true,
                    },
                ]
            );
            var pages = Read(HandoutWriter.Write(much, Palette.Light), "pdftotext", "-layout").Split('\f');
            var page = Assert.Single(pages, p => p.Contains("row0", StringComparison.Ordinal));
            Assert.Equal(12, Regex.Count(page, @"\brow\d"));
            Assert.Contains("below", page, StringComparison.Ordinal);
        }
    }

    /// <summary>A key has its rows where the paper to be filled in has its own, whatever is written into them.</summary>
    [Theory]
    [InlineData("0010 0110", true)]
    [InlineData("17", false)]
    public void A_key_has_its_rows_where_the_paper_has_them(string text, bool isBoxed)
    {
        var rows = Enumerable.Repeat<IReadOnlyList<string>>(["line", text], 90).ToList();
        var places = Enumerable.Repeat<IReadOnlySet<int>>(new HashSet<int> { 1 }, 90).ToList();
        var reasons = new Remarks("why", [.. Enumerable.Repeat(string.Join(' ', Enumerable.Repeat("since", 40)), 90)]);
        var written = new[] { false, true }
            .Select(isFilled =>
            {
                var grid = new Grid(null, ["cycle", "R"], rows)
                {
                    Filling = new Filling(isBoxed ? new HashSet<int> { 1 } : [], places, isFilled),
                    Remarks = isBoxed ? reasons : null,
                };
                var pages = Read(
                    HandoutWriter.Write(new Handout("T", "en", [grid]), Palette.Light),
                    "pdftotext",
                    "-layout"
                );
                return (
                    Lines: pages.Split('\f').Select(p => Regex.Count(p, @"\bline\b")),
                    Filled: pages.Contains(isBoxed ? "since" : text, StringComparison.Ordinal)
                );
            })
            .ToList();
        Assert.Equal([false, true], written.Select(w => w.Filled));
        Assert.Equal(90, written[0].Lines.Sum());
        Assert.Equal(written[0].Lines, written[1].Lines);
    }

    /// <summary>Lines to write on are on the page of what they are for, all of them, wherever that comes to stand.</summary>
    [Fact]
    public void Lines_to_write_on_stay_with_their_question()
    {
        const double Bottom = (1122.5 - 76) * 0.75;
        const double Lines = 5 * 34 * 0.75;
        for (var above = 30; above < 46; above++)
        {
            var handout = new Handout(
                "Room",
                "en",
                [new Verbatim([.. Enumerable.Repeat("x", above)]), Paragraph.Of("question"), new Room(5)]
            );
            var words = Read(HandoutWriter.Write(handout, Palette.Light), "pdftotext", "-bbox");
            var lowest = Regex.Match(words, "yMax=\"([0-9.]+)\">question<").Groups[1].Value;
            var bottom = double.Parse(lowest, System.Globalization.CultureInfo.InvariantCulture);
            Assert.InRange(bottom + Lines, Lines, Bottom);
        }
    }

    /// <summary>Greek letters, signs of formulas and Latin letters of all Europe are there to be read and copied.</summary>
    [Fact]
    public void Letters_that_the_text_font_lacks_are_written()
    {
        const string Words = "α ≤ Ω in Łódź: ⌊2ⁿ⌋ ∈ ℕ";
        var handout = new Handout("Letters", "en", [Paragraph.Of(Words)]);
        Assert.Contains(
            Words,
            Read(HandoutWriter.Write(handout, Palette.Light), "pdftotext", "-layout"),
            StringComparison.Ordinal
        );
    }
}
