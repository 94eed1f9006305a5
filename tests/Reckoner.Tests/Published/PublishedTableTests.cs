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

    private static PublishedTable Table(string folder, string table) => PublishedTable.Read(Text(folder, table));

    public static TheoryData<string, string> RightTables { get; } =
    [.. Tables.Where(t => Table(t.Data.Item1, t.Data.Item2).FirstWrong is null).Select(t => t.Data)];

    [Theory]
    [MemberData(nameof(RightTables))]
    public void A_walk_gives_every_register_as_published(string folder, string table) =>
        Assert.Empty(Table(folder, table).Differences());

    /// <summary>The rows before the one named are the machine's own, so they are not told.</summary>
    [Fact]
    public void A_published_table_that_is_wrong_is_not_the_walk_and_its_first_wrong_row_is_named()
    {
        var wrong = Tables.Select(t => Table(t.Data.Item1, t.Data.Item2)).Where(t => t.FirstWrong is not null);
        var only = Assert.Single(wrong);
        Assert.Equal(only.FirstWrong, only.Differences()[0]);
    }

    [Theory]
    [MemberData(nameof(RightTables))]
    public void A_table_with_its_last_digit_changed_is_seen_to_differ(string folder, string table)
    {
        var text = Text(folder, table);
        var last = text.LastIndexOfAny(['0', '1']);
        var changed = text.Remove(last, 1).Insert(last, text[last] == '0' ? "1" : "0");
        Assert.Single(PublishedTable.Read(changed).Differences());
    }

    [Fact]
    public void Thirty_eight_tables_are_compared() => Assert.Equal(38, Tables.Count);
}
