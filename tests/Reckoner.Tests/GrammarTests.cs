using Reckoner.Catalogue;
using Reckoner.Diagnostics;
using Reckoner.Notation;
using Xunit;

namespace Reckoner.Tests;

/// <summary>The grammar of the handbook is the language: the parser's comments say the same, and its sentences are those read.</summary>
public sealed class GrammarTests
{
    private static readonly MarkdownPage Page = MarkdownPage.Of("docs/handbook/notation.md");
    private static readonly Grammar Handbook = Grammar.Read(
        string.Concat(Page.Blocks.Where(b => b.Kind == "ebnf").Select(b => b.Text))
    );

    private static IReadOnlySet<string> Reserved =>
        Page.Table("Reserved words").SelectMany(row => row[1].Split(' ')).ToHashSet();

    public static IEnumerable<TheoryDataRow<string>> Catalogue =>
        MachineCatalogue.Names.Select(name => new TheoryDataRow<string>(name));

    [Fact]
    public void The_parser_states_the_productions_of_the_handbook()
    {
        var sources = Directory
            .GetFiles(MarkdownPage.FileOf("src/Reckoner/Notation"), "Parser*.cs")
            .Select(File.ReadAllText);
        var stated = Grammar.OfComments(sources).Written.Values.Order(StringComparer.Ordinal);
        Assert.Equal(Handbook.Written.Values.Order(StringComparer.Ordinal), stated);
    }

    [Fact]
    public void Every_name_in_the_grammar_has_a_production()
    {
        Assert.Empty(Handbook.References.Except(Handbook.Rules.Keys));
        Assert.Empty(Handbook.Rules.Keys.Except(Handbook.References).Except(["description"]));
    }

    [Fact]
    public void Every_class_of_words_is_explained()
    {
        var explained = Page.Table("Words").Select(row => row[0]).ToHashSet();
        var used = Handbook.Written.Values.SelectMany(w => w.Split(' ')).Where(w => char.IsUpper(w[0])).ToHashSet();
        Assert.Equal(used, explained);
    }

    [Theory]
    [MemberData(nameof(Catalogue))]
    public void A_machine_of_the_catalogue_reads_by_the_grammar(string name) =>
        Assert.Null(GrammarReader.WhereItStops(MachineCatalogue.Find(name)!.Text, Handbook, Reserved));

    [Fact]
    public void So_do_the_machines_of_the_handbook() =>
        Assert.All(
            MarkdownPage.Read.SelectMany(p => p.Blocks).Where(b => b.Kind == "machine"),
            block => Assert.Null(GrammarReader.WhereItStops(block.Text, Handbook, Reserved))
        );

    [Theory]
    [InlineData("width n = 8 in 2..", "width n = 8 in 2 . .")]
    [InlineData("A <- 0 and 1 or 1", "or")]
    [InlineData("if A = B = C\nend", "=")]
    [InlineData("law a:b = 1", ":")]
    [InlineData("register last : n loads 0", "last")]
    [InlineData("let sum carry = A + B", "carry")]
    public void A_sentence_that_is_none_does_not(string sentence, string expected)
    {
        var schedule =
            sentence.StartsWith("A ") || sentence.StartsWith("if") || sentence.StartsWith("let") ? "step s\n" : "";
        var stops = GrammarReader.WhereItStops($"machine m\n{schedule}{sentence}\n", Handbook, Reserved);
        Assert.NotNull(stops);
        Assert.Contains(expected.Split(' ')[^1], stops);
    }

    [Fact]
    public void What_the_grammar_makes_the_parser_reads()
    {
        var seed = Environment.TickCount;
        var read = 0;
        for (var i = 0; i < 2000; i++)
        {
            var text = new GrammarSpeaker(Handbook, new Random(seed + i)).Description();
            var (_, found) = Parser.Read(new Source("spoken", text));
            // 2n^2 is a sentence that could be read in two ways, which no grammar says.
            if (found.Any(d => d.Id == Id.PowerUnclear))
            {
                continue;
            }
            read++;
            var refused = found.Select(d => $"{d.Id} in line {d.Line}").ToList();
            Assert.True(refused.Count == 0, $"seed {seed + i}: {string.Join(", ", refused)}\n{text}");
        }
        Assert.True(read > 1000, $"only {read} of the texts could be used");
    }

    [Fact]
    public void The_reserved_words_are_those_that_are_refused_as_names()
    {
        var asked = Handbook
            .Words.Concat(Reserved)
            .Concat(["divisor", "quotient", "carry", "digit", "count", "unless"])
            .Distinct();
        var refused = asked.Where(word =>
            Parser
                .Read(new Source("reserved", $"machine m\nwidth n = 8 in 1..9\nregister {word} : n loads 0\n"))
                .Diagnostics.Any(d => d.Id == Id.ReservedWord)
        );
        Assert.Equal(Reserved.Order(StringComparer.Ordinal), refused.Order(StringComparer.Ordinal));
    }
}
