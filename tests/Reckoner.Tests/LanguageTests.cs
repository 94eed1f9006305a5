using System.Numerics;
using System.Reflection;
using System.Text.RegularExpressions;
using Reckoner.Diagnostics;
using Reckoner.Measuring;
using Reckoner.Reporting;
using Reckoner.Structure;
using Reckoner.Styles;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>Every language says everything that English says, with the same facts, and its sentences are right around any name.</summary>
public partial class LanguageTests
{
    public static TheoryData<string> Others => [.. Vocabulary.Languages.Where(l => l != "en")];

    /// <summary>The table as it is written, key by key.</summary>
    private static Dictionary<string, string> Table(string language) =>
        File.ReadAllLines(Sources.File($"src/Reckoner/Words/{language}.words"))
            .Where(l => !l.StartsWith('#') && l.Contains(" = "))
            .Select(l => l.Split(" = ", 2))
            .ToDictionary(l => l[0], l => l[1]);

    [Fact]
    public void There_is_a_second_language() => Assert.Contains("de", Vocabulary.Languages);

    [Theory]
    [MemberData(nameof(Others))]
    public void Every_text_of_English_is_there(string language)
    {
        var (english, other) = (Table("en"), Table(language));
        Assert.Equal("", string.Join("\n", english.Keys.Except(other.Keys).Select(k => $"{language}.words lacks {k}")));
        Assert.All(other, text => Assert.True(text.Value.Trim().Length > 0, text.Key));
    }

    [Theory]
    [MemberData(nameof(Others))]
    public void Every_text_uses_the_facts_that_English_uses(string language)
    {
        var other = Table(language);
        var differing = Table("en")
            .Where(t => other.ContainsKey(t.Key) && !Facts(t.Value).SetEquals(Facts(other[t.Key])))
            .Select(t => $"{t.Key}: {string.Join(' ', Facts(t.Value))}; {string.Join(' ', Facts(other[t.Key]))}");
        Assert.Equal("", string.Join("\n", differing));
    }

    /// <summary>A program or a page has no options: what the core finds says by facts what each front has its own name for.</summary>
    [Fact]
    public void What_the_core_finds_names_no_option()
    {
        var core = string.Concat(
            Directory
                .EnumerateFiles(Sources.File("src/Reckoner"), "*.cs", SearchOption.AllDirectories)
                .Where(f => Path.GetFileName(f) != "Id.cs")
                .Select(File.ReadAllText)
        );
        var found = typeof(Id)
            .GetFields(BindingFlags.Public | BindingFlags.Static)
            .Where(f => Regex.IsMatch(core, $@"\bId\.{f.Name}\b"))
            .Select(f => ((Id)f.GetValue(null)!).Name)
            .ToList();
        Assert.Contains("widths-turned", found);
        foreach (var language in Vocabulary.Languages)
        {
            var table = Table(language);
            var named = found
                .SelectMany(id => new[] { $"diagnostic.{id}", $"diagnostic.{id}.try" })
                .Where(key => table.TryGetValue(key, out var text) && text.Contains("--", StringComparison.Ordinal));
            Assert.Equal((language, ""), (language, string.Join("; ", named)));
        }
    }

    private static HashSet<string> Facts(string text) => [.. Fact().Matches(text).Select(m => m.Groups[1].Value)];

    /// <summary>Where English chooses a form by a number, so does the other language, between two forms that are both there.</summary>
    [Theory]
    [MemberData(nameof(Others))]
    public void What_English_chooses_by_number_is_chosen(string language)
    {
        var other = Table(language);
        var missing = Table("en")
            .SelectMany(t => Choices(t.Value).Except(Choices(other[t.Key])).Select(c => $"{t.Key}: {c}"));
        Assert.Equal("", string.Join("\n", missing));
        Assert.All(
            other,
            text => Assert.All(Choice().Matches(text.Value), m => Assert.True(m.Groups["one"].Length > 0, text.Key))
        );
    }

    private static IEnumerable<string> Choices(string text) =>
        Choice().Matches(text).Select(m => m.Groups["fact"].Value);

    [Fact]
    public void Numbers_are_grouped_as_the_language_does()
    {
        Assert.Equal("65,536", Vocabulary.English.Text(65_536));
        Assert.Equal("65.536", Vocabulary.Of("de")!.Text(65_536));
        Assert.Equal("4096", Vocabulary.Of("de")!.Text(4096));
    }

    [Fact]
    public void One_and_many_are_told_apart()
    {
        var german = Vocabulary.Of("de")!;
        Assert.Equal("1 Takt", german.Say("walk.cycles", ("count", 1)));
        Assert.Equal("2 Takte", german.Say("walk.cycles", ("count", 2)));
        Assert.Equal("0 Takte", german.Say("walk.cycles", ("count", BigInteger.Zero)));
    }

    private static string Walk(string machine, int width, params IReadOnlyList<BigInteger> operands) =>
        WalkText.Of(Walks.Of(Walks.At(machine, width), operands), Vocabulary.Of("de")!, 80);

    [Fact]
    public void Walks_in_German_look_like_this() =>
        Snapshot.Match(
            nameof(Walks_in_German_look_like_this),
            string.Join(
                '\n',
                Walk("divide-still-divisor", 4, 13, 3),
                Walk("divide-adding-back", 3, 5, 3),
                Walk("multiply-in-steps", 3, 5, 6),
                Walk("multiply-booth", 4, -3, 5),
                Walk("reporting/odd-names", 4, -3, 5)
            )
        );

    [Fact]
    public void Tables_in_German_look_like_this()
    {
        var german = Vocabulary.Of("de")!;
        var datapaths = new[] { "divide-moving-divisor", "divide-still-divisor", "divide-shared-register" }
            .Select(m => Walks.At(m, 3))
            .ToList();
        var walks = datapaths.Select(d => Walks.Of(d, 5, 2)).ToList();
        Snapshot.Match(
            nameof(Tables_in_German_look_like_this),
            string.Join(
                '\n',
                DocumentText.Of(CompareDocument.Of(Comparison.Of(datapaths), walks, HouseStyle.None, german), 80),
                DocumentText.Of(StatesDocument.Of(ControlStates.Of(datapaths[1]), HouseStyle.None, german), 80),
                Prose.Of(WalkDocument.Of(walks[1], HouseStyle.None, german, oneByOne: true).Document!, german)
            )
        );
    }

    [GeneratedRegex(@"\{([a-z]\w*)")]
    private static partial Regex Fact();

    [GeneratedRegex(@"\{(?<fact>\w+):(?<one>[^|{}]*(\{\w+\}[^|{}]*)*)\|(?<many>[^{}]*(\{\w+\}[^{}]*)*)\}")]
    private static partial Regex Choice();
}
