using System.Text.RegularExpressions;
using Reckoner.Catalogue;
using Reckoner.Diagnostics;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>The message table against the program: every text that is asked for is there, and every one there is asked for.</summary>
public partial class WordTests
{
    private static readonly string Program = string.Concat(
        Directory
            .EnumerateFiles(Path.Combine(WorkFolder.Repository, "src"), "*", SearchOption.AllDirectories)
            .Where(f => f.EndsWith(".cs", StringComparison.Ordinal) || f.EndsWith(".razor", StringComparison.Ordinal))
            .Select(File.ReadAllText)
    );

    private static readonly string[] Literals =
    [
        .. Quoted().Matches(Program).Select(m => m.Groups[1].Value).Distinct(),
    ];

    /// <summary>Keys that are put together from the tables of diagnostics, verbs and options.</summary>
    private static IReadOnlyList<string> FromTables =>
        [
            .. Id.All.SelectMany(id => new[] { $"diagnostic.{id.Name}", $"diagnostic.{id.Name}.try" }),
            .. Verb.All.SelectMany(v => new[] { $"help.{v.Name}", $"help.{v.Name}.short" }),
            .. Verb.All.SelectMany(v => v.Options).Distinct().Select(o => $"help.option.{o.Name.TrimStart('-')}"),
            .. MachineCatalogue.Entries.Select(e => $"family.{e.Family}").Distinct(),
            .. HelpTopic.All.Select(t => $"help.topic.{t.Name}"),
            .. Enumerable.Range(1, 3).SelectMany(i => new[] { $"help.example.{i}", $"help.example.{i}.said" }),
            .. File.ReadLines(Path.Combine(WorkFolder.Repository, "src", "Reckoner.Page", "State", "tours.txt"))
                .Select(tour => tour.Split(' ')[0]),
        ];

    /// <summary>Beginnings that the program puts a literal behind, and ends it puts behind that.</summary>
    private static readonly string[] Beginnings =
    [
        "a-",
        "form.",
        "formula.",
        "check.",
        "check.section.",
        "help.verbs.",
        "help.options.",
        "slip.",
        "lesson.made-",
        "page.read-",
        "walk.undefined.",
    ];
    private static readonly string[] Ends = ["", ".fail"];

    public static TheoryData<string> Languages => [.. Vocabulary.Languages];

    /// <summary>A literal whose first word begins keys of the table is a key itself, unless it is the beginning of one.</summary>
    [Theory]
    [MemberData(nameof(Languages))]
    public void Every_key_that_the_program_asks_for_is_in_the_table(string language)
    {
        var words = Vocabulary.Of(language)!;
        var groups = words.Keys.Where(k => k.Contains('.')).Select(k => k.Split('.')[0]).ToHashSet();
        var asked = Literals
            .Where(l => Key().IsMatch(l) && groups.Contains(l.Split('.')[0]) && !IsNameOfFile(l))
            .Concat(FromTables)
            .ToList();
        Assert.True(asked.Count > 200, $"{asked.Count} keys found");
        var missing = asked.Where(key => !words.Knows(key));
        Assert.Equal("", string.Join(" ", missing));
    }

    /// <summary>A lesson's tables are written to walk.tex, the site has a site.css.</summary>
    private static bool IsNameOfFile(string literal) => Path.GetExtension(literal) is ".tex" or ".css" or ".html";

    [Theory]
    [MemberData(nameof(Languages))]
    public void Every_key_of_the_table_is_asked_for(string language)
    {
        const string NameOfTheLanguage = "language";
        // Stands in the page's start file; a test there compares it.
        const string WithoutScripts = "page.no-script";
        Assert.All(Beginnings, b => Assert.True(Literals.Contains(b) || Program.Contains($"$\"{b}{{"), b));
        var composed =
            from beginning in Beginnings
            from literal in Literals.Concat(Literals.Select(l => l.Split('.')[0])).Distinct()
            from end in Ends
            select beginning + literal + end;
        var asked = Literals
            .Concat(FromTables)
            .Concat(composed)
            .Append(NameOfTheLanguage)
            .Append(WithoutScripts)
            .ToHashSet();
        var idle = Vocabulary.Of(language)!.Keys.Where(key => !asked.Contains(key));
        Assert.Equal("", string.Join(" ", idle));
    }

    [GeneratedRegex("\"([a-z][a-z0-9.-]*)\"")]
    private static partial Regex Quoted();

    [GeneratedRegex(@"^[a-z]+(\.[a-z0-9-]+)+$")]
    private static partial Regex Key();
}
