using Reckoner.Binding;
using Reckoner.Running;
using Reckoner.Slips;
using Xunit;

namespace Reckoner.Tests.Slips;

/// <summary>The handbook's table of kinds, against the words and against what the catalogue's machines have.</summary>
public class SlipHandbookTests
{
    private const string Words = "src/Reckoner/Words/en.words";
    private const string Prefix = "slip.";

    private static IReadOnlyList<IReadOnlyList<string>> Table { get; } =
        MarkdownPage.Of("docs/handbook/slips.md").Table("The kinds");

    private static IEnumerable<string> Kinds => Table.Select(row => row[0]);

    [Fact]
    public void Every_kind_that_has_a_sentence_has_a_row()
    {
        var said = File.ReadAllLines(MarkdownPage.FileOf(Words))
            .Where(line => line.StartsWith(Prefix, StringComparison.Ordinal))
            .Select(line => line[Prefix.Length..line.IndexOf(' ')]);
        Assert.Equal(said.Order(), Kinds.Order());
    }

    [Fact]
    public void Every_kind_that_a_machine_of_the_catalogue_has_has_a_row()
    {
        var made = Machines.Catalogue.SelectMany(m => Slip.Of(Machines.Named(m))).Select(s => s.Kind).Distinct();
        Assert.Empty(made.Except(Kinds));
    }

    public static TheoryData<string, string> Examples => [.. Table.Select(row => (row[0], row[2]))];

    /// <summary>It is a slip of that kind, and some operands at a small width show it.</summary>
    [Theory]
    [MemberData(nameof(Examples))]
    public void Its_example_shows_it(string kind, string example)
    {
        var words = example.Split(" --slip ");
        var machine = Machines.Named(words[0]);
        var slip = Slip.Of(machine).Single(s => s.Name == words[1]);
        var width = Machines.Widths(machine, upTo: 4).Last();
        var (right, wrong) = (Machines.Bound(machine, width), Machines.Bound(slip.Machine, width));

        Assert.Equal(kind, slip.Kind);
        Assert.Contains(
            OperandCorners.Of(right).Where(right.IsGiven),
            o => !Walk.Of(right, o).Results.SequenceEqual(Walk.Of(wrong, o).Results)
        );
    }
}
