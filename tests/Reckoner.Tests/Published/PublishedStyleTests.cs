using System.Numerics;
using Reckoner.Reporting;
using Reckoner.Tables;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>
/// Tables printed outside this project come out row by row and column by column in the style made for them. Each file of
/// tests/cases/styles names its source, the style of examples/styles, the machine, width and operands; "." stands where the
/// publication prints nothing.
/// </summary>
public class PublishedStyleTests
{
    private const string Folder = "styles";

    public static TheoryData<string> Tables => [.. CaseFiles.Names(Folder, ".table")];

    private static string Text(string table) => CaseFiles.Read(Folder, table + ".table");

    /// <summary>Head and rows as published and as made; what is not printed is left out of both.</summary>
    private static (List<string> Published, List<string> Made) Both(string text)
    {
        var lines = text.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        var head = lines.TakeWhile(l => l[0] != '|').Select(l => l.Split(' ', 2)).ToDictionary(l => l[0], l => l[1]);
        Assert.True(head["source"].Length > 20);
        var published = lines.Where(l => l[0] == '|').Where((_, i) => i != 1).Select(Cells).ToList();
        var walk = Walks.Of(
            Walks.At(head["machine"], int.Parse(head["width"])),
            [.. head["operands"].Split(' ').Select(BigInteger.Parse)]
        );
        var grid = WalkDocument
            .Of(walk, Styled.Example(head["style"]), Vocabulary.English, oneByOne: false)
            .Document!.Grids.Single();
        List<List<string>> made =
        [
            [.. grid.Columns.Select(Marks.Head)],
            .. grid.Rows.Select(r =>
                Marks.Cells(grid, r).Select(c => string.Join("; ", c.Lines.Select(l => l.ToString()))).ToList()
            ),
        ];
        Assert.Equal(published.Count, made.Count);
        return (
            [.. published.Select(row => string.Join(" | ", row))],
            [.. published.Zip(made, (p, m) => string.Join(" | ", p.Zip(m, (a, b) => a == "." ? "." : b)))]
        );
    }

    private static List<string> Cells(string line) => [.. line.Trim().Trim('|').Split('|').Select(c => c.Trim())];

    [Theory]
    [MemberData(nameof(Tables))]
    public void A_published_table_comes_out_under_its_style(string table)
    {
        var (published, made) = Both(Text(table));
        Assert.Equal(published, made);
    }

    [Theory]
    [MemberData(nameof(Tables))]
    public void A_table_with_its_last_digit_changed_is_seen_to_differ(string table)
    {
        var text = Text(table);
        var last = text.LastIndexOfAny(['0', '1']);
        var (published, made) = Both(text.Remove(last, 1).Insert(last, text[last] == '0' ? "1" : "0"));
        Assert.NotEqual(published, made);
    }

    [Fact]
    public void The_tables_cover_four_publications() =>
        Assert.Equal(["2.1", "2.12", "2.2", "2.5"], Tables.Select(t => ((string)t.Data).Split('-')[0]).Distinct());
}
