namespace Reckoner.Tests;

/// <summary>A list of tests/cases/published: its source in words, then a table.</summary>
internal static class PublishedList
{
    /// <summary>The rows below the heading, cell by cell.</summary>
    public static IReadOnlyList<IReadOnlyList<string>> Rows(string name) =>
        [
            .. CaseFiles
                .Read("published", name + ".list")
                .Split('\n')
                .Where(line => line.StartsWith('|'))
                .Skip(2)
                .Select(line => line.Trim('|').Split('|').Select(cell => cell.Trim()).ToList()),
        ];
}
