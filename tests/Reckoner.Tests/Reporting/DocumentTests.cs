using System.Xml.Linq;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Tables;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>Walks in every form of a table: whole outputs at a narrow and at a wide width, and what holds for every one.</summary>
public class DocumentTests
{
    private const string Style =
        "rows per moment\nbase 16\nsubtraction by complement\ncolumn label\ncolumn R\ncolumn borrow\ncolumn why";

    private static Document Narrow(bool oneByOne = false) =>
        Styled.Document(Walks.Of(Walks.At("divide-still-divisor", 4), 13, 3), null, oneByOne);

    private static Document Wide(bool oneByOne = false) =>
        Styled.Document(Walks.Of(Walks.At("multiply-shared-register", 40), 1, 5), null, oneByOne);

    private static Document InStyle(bool oneByOne = false) =>
        Styled.Document(Walks.Of(Walks.At("divide-still-divisor", 4), 13, 3), Styled.Read(Style), oneByOne);

    private static string Pages(Func<Document, string> write, bool oneByOne = false) =>
        string.Join('\n', write(Narrow(oneByOne)), write(InStyle(oneByOne)), write(Wide(oneByOne)));

    [Fact]
    public void Markdown_looks_like_this() =>
        Snapshot.Match(nameof(Markdown_looks_like_this), Pages(Markdown.Of), "md");

    [Fact]
    public void Html_looks_like_this() => Snapshot.Match(nameof(Html_looks_like_this), Pages(Html.Of), "html");

    [Fact]
    public void Latex_looks_like_this() => Snapshot.Match(nameof(Latex_looks_like_this), Pages(Latex.Of), "tex");

    [Fact]
    public void Csv_looks_like_this() =>
        Snapshot.Match(nameof(Csv_looks_like_this), Pages(Csv.Of).Replace("\r\n", "\n"), "csv");

    [Fact]
    public void Prose_looks_like_this() =>
        Snapshot.Match(nameof(Prose_looks_like_this), Pages(d => Prose.Of(d, Vocabulary.English), oneByOne: true));

    [Fact]
    public void Text_of_80_and_of_120_columns_looks_like_this() =>
        Snapshot.Match(
            nameof(Text_of_80_and_of_120_columns_looks_like_this),
            Pages(d => DocumentText.Of(d, 80)) + "\n" + Pages(d => DocumentText.Of(d, 120))
        );

    public static TheoryData<string> Catalogue => [.. Machines.Catalogue];

    private static IEnumerable<Walk> Samples(string machine) =>
        Machines
            .Widths(Machines.Named(machine), 5, 64)
            .TakeLast(2)
            .Select(width => Walks.At(machine, width))
            .Select(datapath => Walk.Of(datapath, SampleOperands.Of(datapath, new Random(1)).First()));

    [Theory]
    [MemberData(nameof(Catalogue))]
    public void No_line_of_text_is_wider_than_the_page(string machine)
    {
        foreach (var document in Samples(machine).Select(w => Styled.Document(w)))
        {
            foreach (var columns in new[] { 60, 80, 120 })
            {
                Assert.All(
                    DocumentText.Of(document, columns).Split('\n'),
                    line =>
                    {
                        Assert.True(line.Length <= columns, $"on {columns} columns:\n{line}");
                        Assert.Equal(line.TrimEnd(), line);
                    }
                );
            }
        }
    }

    /// <summary>A page of HTML is well-formed, each head says its scope, and its cells say what the walk says.</summary>
    [Theory]
    [MemberData(nameof(Catalogue))]
    public void Html_has_heads_with_scope_and_every_register_in_every_row(string machine)
    {
        foreach (var walk in Samples(machine))
        {
            var page = Html.Of(Styled.Document(walk))
                .Replace("<!DOCTYPE html>\n", "")
                .Replace("&nbsp;", " ")
                .Replace("<wbr>", "");
            page = page.Replace("<meta charset=\"utf-8\">", "").Replace("initial-scale=1\">", "initial-scale=1\"/>");
            var table = XElement.Parse(page).Descendants("table").Single();
            Assert.All(
                table.Descendants("th"),
                h => Assert.Contains(h.Attribute("scope")!.Value, new[] { "col", "row" })
            );
            Assert.Equal(walk.Rows.Count, table.Descendants("th").Count(h => h.Attribute("scope")!.Value == "row"));
            var rows = table.Descendants("tr").Skip(1).Select(r => r.Elements().Select(c => c.Value).ToList()).ToList();
            foreach (var (row, cells) in walk.Rows.Zip(rows))
            {
                Assert.All(
                    walk.Datapath.Registers,
                    r => Assert.Contains(Columns.Text(r, row.Registers[r.Index]), cells)
                );
            }
        }
    }

    /// <summary>Read back by RFC 4180: as many fields in each record, line ends CR LF, every register with all its zeros.</summary>
    [Theory]
    [MemberData(nameof(Catalogue))]
    public void Csv_read_back_gives_every_register_with_its_zeros(string machine)
    {
        foreach (var walk in Samples(machine))
        {
            var records = CsvReader.Read(Csv.Of(Styled.Document(walk)));
            Assert.Single(records.Select(r => r.Count).Distinct());
            Assert.Equal(walk.Rows.Count + 1, records.Count);
            foreach (var (row, cells) in walk.Rows.Zip(records.Skip(1)))
            {
                Assert.All(
                    walk.Datapath.Registers,
                    r => Assert.Contains("0b" + Numbers.Bits.Text(row.Registers[r.Index], r.Width), cells)
                );
            }
        }
    }

    [Theory]
    [InlineData("=1+1")]
    [InlineData("+1")]
    [InlineData("-A")]
    [InlineData("@x")]
    public void Text_that_begins_like_a_formula_never_becomes_one_in_a_spreadsheet(string text)
    {
        var style = Styled.Read($"label \"{text}\"\ncolumn label \"{text}\"\ncolumn Q base 10");
        var records = CsvReader.Read(
            Csv.Of(Styled.Document(Walks.Of(Walks.At("divide-still-divisor", 4), 13, 3), style))
        );
        Assert.Equal("'" + text, records[0][0]);
        Assert.All(records.Skip(2), r => Assert.Equal("'" + text, r[0]));
    }

    /// <summary>A number with its sign is a number, and nothing else begins with one.</summary>
    [Fact]
    public void A_negative_number_stays_a_number() => Assert.Equal("-3", Csv.Plain(Cell.Of(Run.Number(-3))));

    [Fact]
    public void Fields_with_commas_quotes_and_line_ends_stand_in_quotes()
    {
        var grid = new Grid(
            "g",
            "g",
            [new("a,b", ColumnRole.Label)],
            [new([Cell.Of("say \"x\"")]), new([Cell.Of("1\n2")])]
        );
        Assert.Equal(
            "\"a,b\"\r\n\"say \"\"x\"\"\"\r\n\"1\n2\"\r\n",
            Csv.Of(new Document("d", "en", "t", null, [grid]))
        );
    }

    [Fact]
    public void Signs_that_mean_something_in_a_format_are_taken_literally()
    {
        const string Odd = @"a|b*c_d`e[f]<g>#~\ {h} $i &j %k ^l ""m"" --n";
        var grid = new Grid(
            "g",
            Odd,
            [new(Odd, ColumnRole.Label)],
            [new([new([Content.Phrase(Odd), Run.Formula(Odd)])])]
        );
        var document = new Document(
            "d",
            "en",
            Odd,
            Odd,
            [grid, new Pairs([new Pair(Content.Phrase(Odd), (Content)Run.Formula(Odd))])]
        );
        Snapshot.Match(
            nameof(Signs_that_mean_something_in_a_format_are_taken_literally),
            string.Join("\n", Markdown.Of(document), Html.Of(document), Latex.Of(document))
        );
    }

    /// <summary>CommonMark 0.31, 4.1 and 5.2: such a line would be a rule, the underline of a head, or an item of a list.</summary>
    [Theory]
    [InlineData("- taken from a list", @"\- taken from a list")]
    [InlineData("+ 1", @"\+ 1")]
    [InlineData("=", @"\=")]
    [InlineData("1. first", @"1\. first")]
    [InlineData("2) second", @"2\) second")]
    [InlineData("3 cycles", "3 cycles")]
    public void A_line_of_markdown_is_not_taken_for_a_list(string subtitle, string written) =>
        Assert.Equal($"# t\n\n{written}\n", Markdown.Of(new Document("d", "en", "t", subtitle, [])));

    [Theory]
    [InlineData("-30 = 5 * -6", "minus 30 equals 5 times minus 6")]
    [InlineData("-row - 2 < -(a - 1)", "minus row minus 2 is less than minus (a minus 1)")]
    [InlineData("carry-save", "carry-save")]
    public void Prose_says_a_minus_before_a_value_as_a_word(string formula, string said) =>
        Assert.Equal(
            $"t.\n\n{said}.\n",
            Prose.Of(new Document("d", "en", "t", null, [new Paragraph(Run.Formula(formula))]), Vocabulary.English)
        );

    [Fact]
    public void Prose_says_one_event_a_line_and_no_digits_together()
    {
        foreach (var line in Prose.Of(Narrow(oneByOne: true), Vocabulary.English).Split('\n').Skip(1))
        {
            Assert.DoesNotMatch("[01][01]", line.Replace("13", ""));
            Assert.DoesNotMatch(@" [-+*=<>~] ", line);
        }
    }
}
