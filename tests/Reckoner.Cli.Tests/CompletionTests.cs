using Reckoner.Catalogue;
using Reckoner.Slips;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>How words go on, asked as scripts of shells ask it.</summary>
public sealed class CompletionTests
{
    private static IReadOnlyList<string> After(string line) =>
        [.. Completing.Of(line, Vocabulary.English).Select(c => c.Text)];

    [Fact]
    public void Verbs_options_machines_and_slips_come_from_their_tables()
    {
        Assert.Equal(Verb.All.Select(v => v.Name), After("reckoner "));
        Assert.All(
            Verb.All,
            verb =>
                Assert.Equal(
                    verb.Options.Select(o => o.Name),
                    After($"reckoner {verb.Name} --")
                        .Concat(verb.Options.Where(o => o.Name == "-o").Select(o => o.Name))
                        .OrderBy(n => Place(verb, n))
                )
        );
        Assert.Equal(MachineCatalogue.Names.Order(), After("reckoner walk ").Order());
        var machine = Reckon.Machine("divide-still-divisor");
        Assert.Equal(
            Slip.Of(machine).Select(s => s.Name).Intersect(After("reckoner check divide-still-divisor --slip ")),
            After("reckoner check divide-still-divisor --slip ")
        );

        static int Place(Verb verb, string name) => verb.Options.Select(o => o.Name).ToList().IndexOf(name);
    }

    [Theory]
    [InlineData("reckoner wal", "walk")]
    [InlineData("reckoner walk divide-still", "divide-still-divisor")]
    [InlineData("./reckoner walk divide-still-divisor divid", "dividend=")]
    [InlineData("reckoner walk divide-still-divisor dividend=29 di", "divisor=")]
    [InlineData("reckoner draw divide-still-divisor we", "weave")]
    [InlineData("reckoner walk divide-still-divisor --format=cs", "--format=csv")]
    [InlineData("reckoner walk divide-still-divisor --width 5 --wi", "")]
    [InlineData("reckoner draw --size 16:", "16:9")]
    [InlineData("reckoner hdl divide-still-divisor --leave-out c", "control")]
    [InlineData("reckoner cost divide-still-divisor divide-moving-divisor-", "divide-moving-divisor-in-steps")]
    [InlineData("reckoner walk divide-still-divisor --style n", "none")]
    [InlineData("reckoner mark --scheme per-ro", "per-row")]
    [InlineData("reckoner completions f", "fish")]
    [InlineData("reckoner --vers", "--version")]
    [InlineData("reckoner show 'divide-still", "divide-still-divisor")]
    // Files are the shell's own business, and so is what makes no sense.
    [InlineData("reckoner verify ", "")]
    [InlineData("reckoner walk ./mi", "")]
    [InlineData("reckoner wlak ", "")]
    [InlineData("reckoner", "")]
    [InlineData("", "")]
    public void A_word_goes_on(string line, string words) =>
        Assert.Equal(words.Length == 0 ? [] : words.Split(' '), After(line));

    /// <summary>Whatever is offered behind an option of a few words is taken.</summary>
    [Theory]
    [InlineData("cost divide-still-divisor --width 3 --adder")]
    [InlineData("walk divide-still-divisor --width 3 5 2 --reasons")]
    [InlineData("operands divide-still-divisor --width 4 --count 2 --allow")]
    [InlineData("check divide-still-divisor --width 2 --slip")]
    [InlineData("show divide-still-divisor --width 3 --dump")]
    public void What_is_offered_is_taken(string line) =>
        Assert.All(
            After($"reckoner {line} "),
            value => Assert.NotEqual((2, ""), (Command.Line($"{line} {value}").Status, ""))
        );

    [Fact]
    public void A_shell_that_is_not_known_is_told()
    {
        var (status, output, errors) = Command.Line("completions bsh");
        Assert.Equal((2, ""), (status, output));
        Assert.Contains("Near: bash", errors, StringComparison.Ordinal);
    }

    /// <summary>Titles are those of the language that is asked for, and never end a line.</summary>
    [Fact]
    public void What_a_word_is_stands_behind_a_tab()
    {
        var lines = Command.Run("completions", "fish", "--line", "reckoner walk divide-", "--language", "de").Output;
        Assert.All(lines.TrimEnd('\n').Split('\n'), line => Assert.Equal(2, line.Split('\t').Length));
        Assert.Contains("divide-still-divisor\tDivision: der Rest", lines, StringComparison.Ordinal);
    }

    [Fact]
    public void The_version_is_that_of_the_one_place_and_of_the_change_log()
    {
        var props = File.ReadAllText(Path.Combine(WorkFolder.Repository, "Directory.Build.props"));
        var number = props.Split("<Version>")[1].Split('<')[0];
        Assert.Equal(number, ProductVersion.Number);
        Assert.Equal(
            new Command(0, $"reckoner {number}, for descriptions of edition 1\n", ""),
            Command.Run("--version")
        );
        var log = File.ReadLines(Path.Combine(WorkFolder.Repository, "CHANGELOG.md"));
        Assert.Equal($"## {number}", log.First(l => l.StartsWith("## ", StringComparison.Ordinal)));
    }
}
