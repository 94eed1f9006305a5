using System.Numerics;
using System.Text.RegularExpressions;
using Reckoner.Catalogue;
using Reckoner.Notation;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>What readers of German are shown is German: the catalogue's phrases and names, every sentence, every number's form.</summary>
public partial class GermanTests
{
    private static readonly Vocabulary German = Vocabulary.Of("de")!;

    public static TheoryData<string> Catalogue => [.. MachineCatalogue.Names];

    private static IEnumerable<object> Nodes(string machine) =>
        TreeText.Nodes(Parser.Read(MachineCatalogue.Find(machine)!).Description);

    /// <summary>Names that readers are shown in sentences and tables; those of registers and wires are signs like the text's.</summary>
    private static IEnumerable<Declared> Shown(string machine) =>
        Nodes(machine)
            .Select(n =>
                n switch
                {
                    OperandLine o => o.Name,
                    ResultLine r => r.Name,
                    StepBlock s => s.Name,
                    _ => null,
                }
            )
            .OfType<Declared>();

    [Theory]
    [MemberData(nameof(Catalogue))]
    public void Every_phrase_of_the_catalogue_is_there_in_German(string machine)
    {
        var phrases = Nodes(machine).OfType<Phrase>().Where(p => Word().IsMatch(p.Text)).ToList();
        Assert.NotEmpty(phrases);
        Assert.Equal([], phrases.Where(p => !p.Others.Any(o => o.Language == "de")).Select(p => p.Text));
        Assert.Equal([], Shown(machine).Where(n => !n.Others.Any(o => o.Language == "de")).Select(n => n.Text));
    }

    [Fact]
    public void Every_family_of_the_catalogue_has_words()
    {
        foreach (var language in Vocabulary.Languages)
        {
            var words = Vocabulary.Of(language)!;
            Assert.All(MachineCatalogue.Entries, e => Assert.True(words.Knows($"family.{e.Family}"), e.Family));
        }
    }

    /// <summary>Words that only English texts and phrases have, or names that are shown in German as something else.</summary>
    private static readonly Lazy<HashSet<string>> EnglishOnly = new(() =>
    {
        var phrases = MachineCatalogue.Names.SelectMany(Nodes).OfType<Phrase>().ToList();
        var names = MachineCatalogue.Names.SelectMany(Shown).ToList();
        var english = Said(Vocabulary.English)
            .Concat(phrases.Select(p => p.Text))
            .Concat(names.Where(n => n.Others.Count > 0).Select(n => n.Text));
        var german = Said(German)
            .Concat(phrases.Select(p => p.In("de")))
            .Concat(names.Select(n => n.In("de")))
            .Concat(MachineCatalogue.Names.SelectMany(Nodes).SelectMany(Signs))
            // A condition without words of its own is shown as it is written.
            .Append("and or xor not when else");
        return [.. english.SelectMany(Split).Except(german.SelectMany(Split))];
    });

    private static IEnumerable<string> Said(Vocabulary words) =>
        words.Keys.Where(k => !k.StartsWith("help.") && !k.StartsWith("diagnostic.")).Select(k => words.Template(k));

    /// <summary>Names that stand in the reasons as they stand in the text.</summary>
    private static IEnumerable<string> Signs(object node) =>
        node switch
        {
            RegisterLine r => [r.Name.Text],
            PartLine p => [p.Name.Text],
            MeaningLine m => [m.Name.Text],
            LetLine l => [l.Name.Text, l.Second?.Text ?? ""],
            LetCase l => [l.Name.Text],
            ConstantLine c => [c.Name.Text],
            TableBlock t => [t.Name.Text, .. t.Indices.Select(i => i.Name.Text)],
            _ => [],
        };

    private static IEnumerable<string> Split(string text) => Word().Matches(text).Select(m => m.Value);

    [Theory]
    [MemberData(nameof(Catalogue))]
    public void No_English_word_is_left_in_what_German_readers_are_shown(string name)
    {
        var datapath = Walks.At(name);
        var operands = SampleOperands.Of(datapath, new Random(1)).First(o => datapath.IsGiven(o));
        var walk = Walk.Of(datapath, operands);
        var shown = new List<string>
        {
            WalkText.Of(walk, German, 80),
            Prose.Of(WalkDocument.Of(walk, HouseStyle.None, German, oneByOne: true).Document!, German),
            DocumentText.Of(
                CompareDocument.Of(Measuring.Comparison.Of([datapath]), [walk], HouseStyle.None, German),
                80
            ),
        };
        var left = shown.SelectMany(Split).Where(EnglishOnly.Value.Contains).Distinct().Except(name.Split('-'));
        Assert.Equal([], left);
    }

    /// <summary>Every sentence that chooses a form by a number, with nothing, one, two and five.</summary>
    [Fact]
    public void Numbers_take_the_right_forms() =>
        Snapshot.Match(
            nameof(Numbers_take_the_right_forms),
            string.Concat(
                German
                    .Keys.Where(k => Chosen().IsMatch(German.Template(k)))
                    .Order(StringComparer.Ordinal)
                    .Select(k => $"{k}\n{string.Concat(new[] { 0, 1, 2, 5 }.Select(n => $"  {With(k, n)}\n"))}")
            )
        );

    /// <summary>The number where a form is chosen by it, and the names of all other facts.</summary>
    private static string With(string key, BigInteger number)
    {
        var template = German.Template(key);
        var chosen = Chosen().Matches(template).Select(m => m.Groups[1].Value).ToHashSet();
        var facts = Fact()
            .Matches(template)
            .Select(m => m.Groups[1].Value)
            .Distinct()
            .Select(f => new Diagnostics.Fact(f, chosen.Contains(f) ? number : $"<{f}>"));
        return German.Say(key, [.. facts]);
    }

    [GeneratedRegex(@"\p{L}{3,}")]
    private static partial Regex Word();

    [GeneratedRegex(@"\{(\w+):")]
    private static partial Regex Chosen();

    [GeneratedRegex(@"\{([a-z]\w*)")]
    private static partial Regex Fact();
}
