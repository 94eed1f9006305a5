using System.Text.RegularExpressions;
using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Xunit;

namespace Reckoner.Tests;

/// <summary>The machines drawn by lot keep every rule, and use all that the notation has.</summary>
public partial class GeneratedMachinesTests
{
    private const int Count = 800;

    /// <summary>So often at least each word and sign of the notation is used in so many machines.</summary>
    private const int Least = 20;

    private static readonly Lazy<IReadOnlyList<RandomMachine>> Drawn = new(() =>
        [.. Enumerable.Range(1, Count).Select(RandomMachine.Of)]
    );

    [Fact]
    public void All_of_them_are_accepted_at_their_usual_widths()
    {
        var refused = Drawn.Value.Select(Refusal).Where(said => said.Length > 0).ToList();
        Assert.True(refused.Count == 0, $"{refused.Count} of {Count} refused: {string.Join('\n', refused.Take(5))}");
    }

    /// <summary>How many those tests look at; that all are accepted is what the first of them says.</summary>
    [Fact]
    public void The_handbook_says_how_many() =>
        Assert.Equal(
            [$"{Count}", $"{Count}", $"{Least}"],
            MarkdownPage.Of("docs/handbook/promises.md").Table("Machines drawn by lot").Select(row => row[1])
        );

    private static string Refusal(RandomMachine drawn, int index)
    {
        var (datapath, found) = Machines.Of(drawn.Text, [.. drawn.Beside]).At();
        return datapath is not null
            ? ""
            : string.Join(' ', found.Where(d => d.Severity == Severity.Error).Select(d => $"{d.Id} in line {d.Line}"))
                + $" (seed {index + 1})";
    }

    /// <summary>The words and signs of the grammar, those that stand in sentences of the handbook, and the functions.</summary>
    private static IEnumerable<string> Notation =>
        Grammar
            .Read(
                string.Join(
                    '\n',
                    MarkdownPage.Of("docs/handbook/notation.md").Blocks.Where(b => b.Kind == "ebnf").Select(b => b.Text)
                )
            )
            .Terminals.Concat(Operations.FunctionNames)
            .Concat(Functions.Names)
            .Distinct();

    [Fact]
    public void Every_word_and_sign_of_the_notation_is_used_often()
    {
        var used = Used(Drawn.Value);
        var rare = Notation.Where(word => used.GetValueOrDefault(word) < Least);
        Assert.Equal([], rare.Select(word => $"{word}: {used.GetValueOrDefault(word)}"));
    }

    /// <summary>In how many machines each word or sign stands outside comments and quotes.</summary>
    private static Dictionary<string, int> Used(IEnumerable<RandomMachine> machines) =>
        machines
            .SelectMany(m => Token().Matches(Bare().Replace(m.Whole, " ")).Select(t => t.Value).Distinct())
            .CountBy(word => word)
            .ToDictionary();

    /// <summary>What an author may do and no single word shows.</summary>
    public static TheoryData<string, string> Shapes =>
        new()
        {
            { "a step without a statement", @"^step .*\n(?=step|end|result|meaning|\n)" },
            { "a step with hold or a note alone", @"^step .*\n(hold|note .*)\n(?=step|end|result|\n)" },
            { "ten moments or more in a step", @"^(then\n(?:(?!step|end\n|repeat).*\n)*?){10}" },
            { "no register", @"\A(?![\s\S]*\nregister )" },
            { "no operand", @"\A(?![\s\S]*\noperand )" },
            { "two loops or more", @"^repeat [\s\S]*^repeat " },
            { "a loop of no round", "^repeat 0\n" },
            { "a loop that may stop early", "^repeat at most " },
            { "steps inside a loop", @"^repeat .*\nstep " },
            { "several width symbols", @"^width .*\nwidth " },
            { "a width of 32 bits or more", "^width n = ([4-9][0-9]|3[2-9]) " },
            { "a width of 1 bit", "^width n = [0-9]+ in 1[.]" },
            { "a signed register", "^register .* : signed " },
            { "a name of another alphabet", "größe" },
            { "two targets joined", @"^[^\s<]+:[^\s<]+ <- " },
            { "some places written", @"^[^\s<:]+\[[^\]]+\] <- " },
            { "a chain of else if", @"^else if [\s\S]*?^else if " },
            { "else", "^else\n" },
            { "else hold", "^else: hold\n" },
            { "a case on numbers below 0", "^-[0-9]+(, -?[0-9]+)*:" },
            { "a pattern with x", "^0b[01]*x" },
            { "several labels for an arm", "^(0b[01x]+|-?[0-9]+), " },
            { "a named unit used", " via " },
            { "a table of two indices", "^table .*, j" },
            { "a meaning that ends", " until " },
            { "a phrase in another language", "\" de \"" },
            { "a comment", " -- " },
        };

    [Theory]
    [MemberData(nameof(Shapes))]
    public void Every_shape_of_a_machine_occurs(string what, string pattern)
    {
        var found = Drawn.Value.Count(m => Regex.IsMatch(m.Whole, pattern, RegexOptions.Multiline));
        Assert.True(found >= Least / 10, $"{what}: {found} of {Count}");
    }

    [GeneratedRegex(@"[\p{L}\d_]+|<-|<=|>=|<>|\.\.|[^\s]")]
    private static partial Regex Token();

    /// <summary>What is no notation: phrases, and comments to the end of the line.</summary>
    [GeneratedRegex("\"[^\"]*\"|--.*")]
    private static partial Regex Bare();
}
