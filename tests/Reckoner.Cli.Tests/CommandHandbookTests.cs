using System.Reflection;
using Reckoner.Tests;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>The handbook's page about the command says what the command's own tables say.</summary>
public sealed class CommandHandbookTests
{
    private static readonly MarkdownPage Page = MarkdownPage.Of("docs/handbook/command.md");

    [Fact]
    public void Every_verb_stands_in_the_table()
    {
        var shown = Page.Table("Verbs").Select(row => row[0]);
        Assert.Equal(Verb.All.Select(v => $"{v.Name} {v.Usage}".TrimEnd()), shown);
    }

    [Fact]
    public void Every_option_stands_in_the_table_with_the_verbs_that_take_it()
    {
        var shown = Page.Table("Options").Select(row => $"{row[0]}: {row[1]}");
        var known = Verb
            .All.SelectMany(v => v.Options)
            .Distinct()
            .Select(o =>
                $"{(o.Name + " " + Value(o)).TrimEnd()}: {string.Join(", ", Verb.All.Where(v => v.Options.Contains(o)).Select(v => v.Name))}"
            );
        Assert.Equal(known.Order(StringComparer.Ordinal), shown.Order(StringComparer.Ordinal));
    }

    private static string? Value(Option option) =>
        option == Option.Format ? string.Join('|', Verb.All.SelectMany(v => v.Formats).Distinct()) : option.Example;

    [Fact]
    public void The_forms_of_each_verb_stand_in_the_table()
    {
        var shown = Page.Table("Forms").Select(row => $"{row[0]}: {row[1]}");
        var known = Verb
            .All.Where(v => v.Options.Contains(Option.Format))
            .GroupBy(v => Coded(v.Formats))
            .Select(g => $"{Coded(g.Select(v => v.Name))}: {g.Key}");
        Assert.Equal(known, shown);

        static string Coded(IEnumerable<string> words) => string.Join(", ", words);
    }

    [Fact]
    public void Every_exit_status_stands_in_the_table()
    {
        var known = typeof(Exit)
            .GetFields(BindingFlags.Static | BindingFlags.Public)
            .Select(f => $"{f.GetRawConstantValue()}");
        Assert.Equal(known, Page.Table("Exit statuses").Select(row => row[0]));
    }

    [Theory]
    [InlineData("list")]
    [InlineData("show")]
    [InlineData("walk")]
    [InlineData("check")]
    [InlineData("idle")]
    [InlineData("slips")]
    [InlineData("operands")]
    [InlineData("compare")]
    [InlineData("states")]
    [InlineData("cost")]
    [InlineData("prove")]
    [InlineData("guess")]
    [InlineData("verify")]
    [InlineData("why")]
    public void The_fields_of_a_document_are_those_in_the_table(string verb) => AssertFields(verb);

    /// <summary>Those that take longer to be made.</summary>
    [Theory]
    [InlineData("refine")]
    [InlineData("answers")]
    [InlineData("checkpoint")]
    [Trait("Length", "long")]
    public void The_fields_of_a_longer_document_are_those_in_the_table(string kind) => AssertFields(kind);

    /// <summary>Parts added up are a check, and have its schema.</summary>
    [Fact]
    [Trait("Length", "long")]
    public void Parts_that_are_added_up_are_a_check() => Schemas.Validate("check", FiledDocuments.Sums());

    private static void AssertFields(string verb)
    {
        var documents = JsonFields.Documents(verb).ToList();
        Assert.Equal(
            JsonFields.Of(documents).Order(StringComparer.Ordinal),
            Page.Table($"Fields of {verb}").Select(row => $"{row[0]}: {row[1]}").Order(StringComparer.Ordinal)
        );
        Schemas.Check(Page, verb, documents);
    }

    [Fact]
    public void The_facts_of_an_event_are_those_in_the_table() =>
        Assert.Equal(
            JsonFields.FactsOf(JsonFields.Documents("walk")).Order(StringComparer.Ordinal),
            Page.Table("Facts of an event").Select(row => $"{row[0]} {row[1]}: {row[2]}").Order(StringComparer.Ordinal)
        );
}
