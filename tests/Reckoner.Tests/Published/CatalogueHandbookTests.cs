using Reckoner.Catalogue;
using Xunit;

namespace Reckoner.Tests;

/// <summary>What the handbook's page on the catalogue says in tables, against the machines.</summary>
public class CatalogueHandbookTests
{
    private const string Page = "docs/handbook/catalogue.md";

    /// <summary>The aim for a description that is to be read aloud.</summary>
    private const int Aim = 40;

    [Fact]
    public void Descriptions_of_more_lines_than_the_aim_are_told_with_the_reason()
    {
        var longer = MachineCatalogue
            .Entries.Select(e => (e.Name, Lines: e.Source.Text.Split('\n').Count(l => l.Trim().Length > 0)))
            .Where(e => e.Lines > Aim)
            .OrderByDescending(e => e.Lines)
            .ThenBy(e => e.Name, StringComparer.Ordinal)
            .Select(e => $"{e.Name} {e.Lines}");
        var told = MarkdownPage.Of(Page).Table("How long a description is");
        Assert.Equal(longer, told.Select(row => $"{row[0]} {row[1]}"));
        Assert.All(told, row => Assert.NotEqual("", row[2]));
    }

    /// <summary>4195835 / 3145727 at 24 bits by both tables: row, digit and partial remainder of every cycle.</summary>
    [Fact]
    public void The_two_tables_part_in_the_cycle_that_the_page_names()
    {
        var dividend = Mantissa.Of(4195835);
        var divisor = Mantissa.Of(3145727);
        Assert.Equal((8391670, 12582908), (dividend.In(24), divisor.In(24)));
        var sound = Told(SelectionRun.Of(SelectionRun.Sound, dividend, divisor, 13, 24));
        var faulty = Told(SelectionRun.Of(SelectionRun.Faulty, dividend, divisor, 13, 24));
        var expected = sound.Zip(faulty, (a, b) => $"{a} {b}").Select((told, i) => $"{i + 1} {told}").ToList();
        var rows = MarkdownPage.Of(Page).Table("The table with five empty cells");
        Assert.Equal(expected, rows.Select(row => string.Join(' ', row)));

        var first = sound.Zip(faulty).ToList().FindIndex(pair => pair.First != pair.Second) + 1;
        Assert.Equal(9, first);
        Assert.Contains(
            $"In cycle {first} the two part: row 31 ",
            MarkdownPage.Of(Page).Text,
            StringComparison.Ordinal
        );
    }

    private static List<string> Told(SelectionRun run)
    {
        var partial = run.Walk.Datapath.Meanings.Single();
        var rows = run.Walk.Rows.Where(r => r.Repeat == 1);
        return
        [
            .. run.Selections.Zip(
                rows,
                (s, row) => $"{s.Row} {s.Digit} {partial.Say(Execution.NumberWords.Over(row.Registers))}"
            ),
        ];
    }
}
