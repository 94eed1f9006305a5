using System.IO.Compression;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>The column by which a gradebook knows students, instead of the one by which the sheets were made.</summary>
public sealed partial class MarkTests
{
    private string Grades(string name, string text)
    {
        File.WriteAllText(made.At(name), text);
        return made.At(name);
    }

    private const string Gradebook =
        "id;Name;e-mail\ns001;Ada;00101\ns002;Bo;b@example.org\ns003;Cem;=1+1\ns004;Dora;d@example.org\ns005;Emil;e@example.org\n";

    [Fact]
    public void Marks_have_the_column_of_a_gradebook_and_those_set_by_hand_stay_whatever_it_is()
    {
        HandIn("s001", "html");
        string[] byMail = ["--class", Grades("grades.csv", Gradebook), "--key", "e-mail"];
        Assert.Equal(0, Mark(byMail).Status);
        var lines = File.ReadAllLines(At("marks/marks.csv"));
        Assert.StartsWith("e-mail,", lines[0], StringComparison.Ordinal);
        Assert.Equal(
            ["00101", "b@example.org", "'=1+1", "d@example.org", "e@example.org"],
            lines.Skip(1).Select(l => l.Split(',')[0])
        );
        Assert.DoesNotContain("s001", File.ReadAllText(At("marks/marks.csv")), StringComparison.Ordinal);

        // In the workbook it is a text: a cell without a number in it.
        using (var workbook = ZipFile.OpenRead(At("marks/marks.xlsx")))
        {
            using var sheet = workbook
                .Entries.First(e => e.FullName.EndsWith("sheet1.xml", StringComparison.Ordinal))
                .Open();
            var cell = XDocument
                .Load(sheet)
                .Descendants()
                .Where(e => e.Name.LocalName == "row")
                .ElementAt(1)
                .Elements()
                .First();
            Assert.Equal(("inlineStr", "00101"), (cell.Attribute("t")!.Value, cell.Value));
        }

        // Set by hand under one column, asked for with another, and with the first again.
        ChangeMarks(t => t.Replace(",18,18,6,3,", ",18,18,6,2.5,", StringComparison.Ordinal));
        Assert.Equal(0, Mark().Status);
        Assert.Equal("17.5 18 6 2.5 2 1 2 2 2", Marks()["s001"]);
        Assert.Equal(0, Mark(byMail).Status);
        Assert.Equal("17.5 18 6 2.5 2 1 2 2 2", Marks()["00101"]);
        // What a spreadsheet made of it is nobody's, and nothing is guessed.
        ChangeMarks(t => t.Replace("\r\n00101,", "\r\n101,", StringComparison.Ordinal));
        Assert.Equal(2, Mark(byMail).Status);
    }

    [Theory]
    [InlineData("id;Name\ns001;Ada\n", "This class list has no column e-mail; there are: id, Name.")]
    [InlineData("who;e-mail\ns001;Ada\n", "This class list has no column id; there are: who, e-mail.")]
    [InlineData("id;e-mail\ns001;a\ns002;a\n", "stands nothing for s002, or the same as for somebody else (a).")]
    [InlineData("id;e-mail\ns001;a\ns002;\n", "stands nothing for s002, or the same as for somebody else ().")]
    [InlineData("id;e-mail\ns001;a\n", "s002 has a sheet and does not stand in")]
    [InlineData("id;e-mail\n", "names nobody.")]
    public void A_column_that_does_not_tell_these_students_apart_is_refused(string list, string said)
    {
        var refused = Mark("--class", Grades("odd.csv", list), "--key", "e-mail");
        Assert.Equal(2, refused.Status);
        Assert.Contains(said, Regex.Replace(refused.Errors, @"\s+", " "), StringComparison.Ordinal);
        Assert.False(Directory.Exists(At("marks")));
    }

    [Fact]
    public void A_column_needs_its_list_and_the_list_its_column()
    {
        Assert.Contains("option-alone", Mark("--key", "e-mail").Errors, StringComparison.Ordinal);
        Assert.Contains(
            "option-alone",
            Mark("--class", Grades("grades.csv", Gradebook)).Errors,
            StringComparison.Ordinal
        );
    }
}
