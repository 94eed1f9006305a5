using System.Text;
using Reckoner.Diagnostics;
using Reckoner.Reporting;
using Reckoner.Sheets;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests.Sheets;

/// <summary>Class lists as spreadsheets and registries write them.</summary>
public class ClassListTests
{
    private static readonly string[] Identifiers = ["id", "student number"];
    private static readonly string[] Names = ["name"];

    private static readonly Dictionary<SheetForm, IReadOnlyList<string>> Forms = new()
    {
        [SheetForm.Usual] = ["usual"],
        [SheetForm.Large] = ["large", "18 pt"],
        [SheetForm.Read] = ["reader"],
    };

    private static (IReadOnlyList<Student>? Students, IReadOnlyList<Diagnostic> Found) Read(byte[] bytes)
    {
        var source = new Source("class.csv", ListText.Of(bytes));
        var report = new Report(source);
        return (ClassList.Read(source, new ClassHeads(Identifiers, Names, ["form"]), Forms, report), report.InOrder());
    }

    private static IReadOnlyList<Student> Students(string text) => Students(Encoding.UTF8.GetBytes(text));

    private static IReadOnlyList<Student> Students(byte[] bytes)
    {
        var (students, found) = Read(bytes);
        Assert.Empty(found);
        return students!;
    }

    public static TheoryData<string> Encodings =>
        ["utf-8", "utf-8 with a mark", "utf-16", "utf-16 turned", "utf-16 without a mark", "windows-1252"];

    [Theory]
    [MemberData(nameof(Encodings))]
    public void A_list_is_read_in_any_encoding(string encoding)
    {
        const string Text = "id;name\r\nm1;Zoë Müller\r\nm2;€uro “Ž” Šá\r\n";
        var bytes = encoding switch
        {
            "utf-8" => Encoding.UTF8.GetBytes(Text),
            "utf-8 with a mark" => [.. Encoding.UTF8.Preamble, .. Encoding.UTF8.GetBytes(Text)],
            "utf-16" => [.. Encoding.Unicode.Preamble, .. Encoding.Unicode.GetBytes(Text)],
            "utf-16 turned" => [.. Encoding.BigEndianUnicode.Preamble, .. Encoding.BigEndianUnicode.GetBytes(Text)],
            "utf-16 without a mark" => Encoding.Unicode.GetBytes(Text),
            _ => CodePagesEncodingProvider.Instance.GetEncoding(1252)!.GetBytes(Text),
        };
        Assert.Equal(
            [new Student("m1", "Zoë Müller", SheetForm.Usual), new Student("m2", "€uro “Ž” Šá", SheetForm.Usual)],
            Students(bytes)
        );
    }

    [Fact]
    public void A_list_may_say_in_which_form_a_sheet_is_printed()
    {
        var forms = Students("form,id,mail\n,a,x\nLARGE,b,y\n18 pt,c,\nreader,d,\nusual,e,\n").Select(s => s.Form);
        Assert.Equal([SheetForm.Usual, SheetForm.Large, SheetForm.Large, SheetForm.Read, SheetForm.Usual], forms);
        var (none, found) = Read(Encoding.UTF8.GetBytes("id,form\na,large\nb,huge\n"));
        Assert.Null(none);
        Assert.Equal((Id.ClassForm, 3), (found[0].Id, found[0].Source!.LineOf(found[0].Span.Start)));
    }

    /// <summary>Every byte of Windows-1252, against the table of the runtime.</summary>
    [Fact]
    public void Every_byte_is_the_letter_that_windows_takes_it_for()
    {
        byte[] bytes = [.. Enumerable.Range(0x20, 0xE0).Select(b => (byte)b)];
        Assert.Equal(CodePagesEncodingProvider.Instance.GetEncoding(1252)!.GetString(bytes), ListText.Of(bytes));
    }

    [Theory]
    [InlineData("id,name\na,\"Doe, Jo\"\n", "Doe, Jo")]
    [InlineData("id;name\na;Doe, Jo\n", "Doe, Jo")]
    [InlineData("id\tname\na\tDoe; Jo\n", "Doe; Jo")]
    [InlineData("name,id\n\"Jo \"\"J\"\" Doe\",a\n", "Jo \"J\" Doe")]
    [InlineData("sep=;\nid;name\na;Jo\n", "Jo")]
    [InlineData("Name,mail,ID\n Jo  Doe ,x@y, a \n", "Jo Doe")]
    [InlineData("\n\nid,name\n\n,\na,Jo\n,,,\n\n", "Jo")]
    [InlineData("mail,Student Number,name\nx,a,=1+1\n", "=1+1")]
    [InlineData("id,name\ra,Jo\r", "Jo")]
    [InlineData("id\na\n", "")]
    public void Separators_quotes_blanks_and_empty_lines_do_not_matter(string text, string name) =>
        Assert.Equal([new Student("a", name, SheetForm.Usual)], Students(text));

    [Theory]
    [InlineData("", "class.csv names nobody.")]
    [InlineData("id,name\n\n", "class.csv names nobody.")]
    [InlineData(
        "who,name\na,Jo\n",
        "No column of this class list is known to tell students apart; there are: who, name."
    )]
    [InlineData("id,name\na,Jo\nb,Bo\na,Al\n", "a stands on line 2 already.")]
    [InlineData("id,name\n,Jo\n", "This line has nothing in the column id, so nobody knows whose it is.")]
    public void What_is_wrong_is_said_in_a_sentence(string text, string said)
    {
        var (students, found) = Read(Encoding.UTF8.GetBytes(text));
        Assert.Null(students);
        Assert.Contains(said, Said(found), StringComparison.Ordinal);
    }

    private static string Said(IReadOnlyList<Diagnostic> found) =>
        string.Join(
            ' ',
            DiagnosticText.Of([Assert.Single(found)], Vocabulary.English, 400).Split('\n').Select(l => l.Trim())
        );

    [Theory]
    [InlineData(5000, "")]
    [InlineData(5001, "This class list has 5001 students; sheets are made for at most 5000 at once.")]
    [InlineData(10000, "This class list has 10000 students; sheets are made for at most 5000 at once.")]
    public void A_list_that_is_too_long_is_not_cut(int count, string said)
    {
        var text = "id\n" + string.Concat(Enumerable.Range(0, count).Select(i => $"s{i}\n"));
        var (students, found) = Read(Encoding.UTF8.GetBytes(text));
        Assert.Equal(said.Length == 0, students?.Count == count);
        if (said.Length > 0)
        {
            Assert.Contains(said, Said(found).Replace(",", "", StringComparison.Ordinal), StringComparison.Ordinal);
        }
    }

    /// <summary>A quote that is never closed makes all that follows one cell: what is told is the quote, not how many columns there are.</summary>
    [Fact]
    public void A_quote_that_is_left_open_is_told()
    {
        var rest = string.Concat(Enumerable.Range(0, 40).Select(i => $"s{i},Name\n"));
        var (students, found) = Read(Encoding.UTF8.GetBytes($"id,name\na,\"Jo\n{rest}"));
        Assert.Null(students);
        Assert.Equal(Id.ClassQuote, Assert.Single(found).Id);
    }

    [Fact]
    public void A_cell_that_is_no_name_any_more_is_told()
    {
        var (students, found) = Read(Encoding.UTF8.GetBytes($"id,name\na,{new string('x', 5_000)}\n"));
        Assert.Null(students);
        Assert.Equal(Id.ClassTooWide, Assert.Single(found).Id);
    }
}
