using Xunit;

namespace Reckoner.Cli.Tests;

public class HelpTests
{
    private const int Columns = 80;

    public static TheoryData<string> Verbs => [.. Verb.All.Select(v => v.Name)];

    private static void CheckPage(Command help)
    {
        Assert.Equal((0, ""), (help.Status, help.Errors));
        Assert.EndsWith("\n", help.Output, StringComparison.Ordinal);
        Assert.All(
            help.Output.Split('\n'),
            line =>
            {
                Assert.True(line.Length <= Columns, line);
                Assert.Equal(line.TrimEnd(), line);
            }
        );
    }

    [Fact]
    public void Help_names_every_verb()
    {
        var help = Command.Run("--help");
        CheckPage(help);
        Assert.All(
            Verb.All,
            verb =>
                Assert.Contains($"\n   {$"{verb.Name} {verb.Usage}".TrimEnd()} ", help.Output, StringComparison.Ordinal)
        );
    }

    [Theory]
    [MemberData(nameof(Verbs))]
    public void Help_of_a_verb_shows_how_it_is_called_and_every_option(string verb)
    {
        var help = Command.Run(verb, "--help");
        CheckPage(help);
        Assert.Contains($"\nreckoner {verb}", help.Output, StringComparison.Ordinal);
        var options = Verb.All.Single(v => v.Name == verb).Options;
        Assert.All(options, o => Assert.Contains($"\n   {o.Name}", help.Output, StringComparison.Ordinal));
    }

    /// <summary>Each example of the general help is run as it stands there.</summary>
    [Fact]
    public void The_examples_of_the_help_do_what_they_say()
    {
        var examples = Command
            .Run("--help")
            .Output.Split('\n')
            .Where(l => l.StartsWith("   reckoner ", StringComparison.Ordinal))
            .Select(l => l.Trim().Split("   ")[0]["reckoner ".Length..])
            .ToList();
        Assert.NotEmpty(examples);
        Assert.All(examples, e => Assert.Equal((0, ""), (Command.Line(e).Status, Command.Line(e).Errors)));
    }

    [Theory]
    [InlineData("")]
    [InlineData("-h")]
    [InlineData("help")]
    [InlineData("help --language en")]
    public void Help_is_asked_for_in_several_ways(string line) =>
        Assert.Equal(Command.Run("--help"), Command.Line(line));

    /// <summary>Every word that it says it explains, in both languages: verbs, topics, and options by their names alone.</summary>
    [Fact]
    public void Every_word_is_explained()
    {
        Assert.All(
            from word in HelpTopic.Words
            from language in Reckoner.Words.Vocabulary.Languages
            select (word, language),
            asked => CheckPage(Command.Run("help", asked.word, "--language", asked.language))
        );

        Assert.Equal(Command.Run("slips", "-h"), Command.Run("slips", "--help"));
        Assert.Equal(Command.Run("slips", "--help"), Command.Run("help", "slips"));
    }

    [Fact]
    public void A_word_that_is_not_known_is_told_with_those_near_it()
    {
        var (status, output, errors) = Command.Line("help sampel");
        Assert.Equal((2, ""), (status, output));
        Assert.Contains("sampel", errors, StringComparison.Ordinal);
        Assert.Contains("Near: sample", errors, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--width 8")]
    [InlineData("--width 8 walk divide-still-divisor 29 6")]
    public void A_line_without_a_verb_in_front_asks_for_nothing(string line)
    {
        var (status, output, errors) = Command.Line(line);
        Assert.Equal((2, ""), (status, output));
        Assert.Contains("verb-missing", errors, StringComparison.Ordinal);
        Assert.All(Verb.All, verb => Assert.Contains(verb.Name, errors, StringComparison.Ordinal));
    }
}
