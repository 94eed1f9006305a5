using System.Text.RegularExpressions;
using Reckoner.Reporting;
using Reckoner.Tables;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>The styles that come with Reckoner, each on every machine that the handbook names beside it.</summary>
public partial class WorkedStyleTests
{
    /// <summary>"| `STYLE` | ... | `MACHINE`, `MACHINE` |" below "Worked styles".</summary>
    private static IEnumerable<(string Style, string Machine)> Named() =>
        from line in File.ReadAllText(Sources.File("docs/handbook/tables.md")).Split('\n')
        where line.StartsWith("| `", StringComparison.Ordinal)
        let cells = line.Split('|', StringSplitOptions.TrimEntries)
        where Styled.Examples.Contains(cells[1].Trim('`'))
        from Match machine in Quoted().Matches(cells[4])
        select (cells[1].Trim('`'), machine.Groups[1].Value);

    public static TheoryData<string, string> Pairs => [.. Named()];

    [Fact]
    public void Every_style_names_a_machine() =>
        Assert.Equal(Styled.Examples, Named().Select(n => n.Style).Distinct().Order(StringComparer.Ordinal));

    [Theory]
    [MemberData(nameof(Pairs))]
    public void A_style_fits_the_machines_that_are_named_beside_it(string style, string machine)
    {
        var datapath = Walks.At(machine);
        foreach (var operands in SampleOperands.Of(datapath, new Random(1)).Where(datapath.IsGiven).Take(20))
        {
            var walk = Running.Walk.Of(datapath, operands);
            var (document, found) = WalkDocument.Of(walk, Styled.Example(style), Vocabulary.English, oneByOne: false);
            Assert.Equal([], found.Select(f => f.Id.Name));
            var grid = document!.Grids.Single();
            var label = grid.Columns.ToList().FindIndex(c => c.Role == ColumnRole.Label);
            // A row for each round needs no label.
            Assert.All(grid.Rows, r => Assert.False(r.Cells[Math.Max(label, 0)].IsEmpty));
        }
    }

    /// <summary>Of the dividers in steps each way to go on is met, by its label.</summary>
    [Theory]
    [InlineData("divide-moving-divisor-in-steps")]
    [InlineData("divide-shift-subtract-restore")]
    [InlineData("divide-shared-register-in-steps")]
    [InlineData("divide-adding-back")]
    public void A_decision_is_told_by_the_way_it_falls(string machine)
    {
        var walk = Walks.Of(Walks.At(machine, 4), 7, 2);
        var grid = Styled.Document(walk, Styled.Example("iteration-step-quotient")).Grids.Single();
        var steps = grid.Rows.Select(r => $"{r.Cells[1]}"[..2]).Where(s => s is "2a" or "2b").ToList();
        Assert.Equal(["2b", "2b", "2a", "2a"], steps.TakeLast(4));
    }

    [GeneratedRegex("`([^`]+)`")]
    private static partial Regex Quoted();
}
