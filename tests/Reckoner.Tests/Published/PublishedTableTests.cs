using Xunit;

namespace Reckoner.Tests;

/// <summary>
/// Each table of tests/cases/published, and of tests/cases/mistakes for mistaken machines, was printed outside this project; its
/// source stands in the file.
/// </summary>
public class PublishedTableTests
{
    private const string Ending = ".table";

    public static TheoryData<string, string> Tables { get; } = [.. TablesOf("published"), .. TablesOf("mistakes")];

    private static IEnumerable<(string Folder, string Table)> TablesOf(string folder) =>
        CaseFiles.Names(folder, Ending).Select(name => (folder, name));

    private static string Text(string folder, string table) => CaseFiles.Read(folder, table + Ending);

    [Theory]
    [MemberData(nameof(Tables))]
    public void A_walk_gives_every_register_as_published(string folder, string table) =>
        Assert.Empty(PublishedTable.Read(Text(folder, table)).Differences());

    [Theory]
    [MemberData(nameof(Tables))]
    public void A_table_with_its_last_digit_changed_is_seen_to_differ(string folder, string table)
    {
        var text = Text(folder, table);
        var last = text.LastIndexOfAny(['0', '1']);
        var changed = text.Remove(last, 1).Insert(last, text[last] == '0' ? "1" : "0");
        Assert.Single(PublishedTable.Read(changed).Differences());
    }

    [Fact]
    public void Fourteen_tables_are_compared() => Assert.Equal(14, Tables.Count);
}
