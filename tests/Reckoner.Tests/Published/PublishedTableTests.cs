using Xunit;

namespace Reckoner.Tests;

/// <summary>Each file of tests/cases/published is a table printed outside this project; its source stands in the file.</summary>
public class PublishedTableTests
{
    private const string Folder = "published";

    public static TheoryData<string> Tables => [.. CaseFiles.Names(Folder, ".table")];

    private static string Text(string table) => CaseFiles.Read(Folder, table + ".table");

    [Theory]
    [MemberData(nameof(Tables))]
    public void A_walk_gives_every_register_as_published(string table) =>
        Assert.Empty(PublishedTable.Read(Text(table)).Differences());

    [Theory]
    [MemberData(nameof(Tables))]
    public void A_table_with_its_last_digit_changed_is_seen_to_differ(string table)
    {
        var text = Text(table);
        var last = text.LastIndexOfAny(['0', '1']);
        var changed = text.Remove(last, 1).Insert(last, text[last] == '0' ? "1" : "0");
        Assert.Single(PublishedTable.Read(changed).Differences());
    }

    [Fact]
    public void Nine_tables_are_compared() => Assert.Equal(9, Tables.Count);
}
