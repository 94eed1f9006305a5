using System.Numerics;
using Reckoner.Measuring;
using Reckoner.Numbers;
using Reckoner.Reporting;
using Reckoner.Styles;
using Reckoner.Tables;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>Machines side by side.</summary>
public class CompareTests
{
    private static readonly string[] Dividers =
    [
        "divide-moving-divisor",
        "divide-still-divisor",
        "divide-shared-register",
    ];

    private static Document Of(int width, IReadOnlyList<string> machines, params IReadOnlyList<BigInteger> operands)
    {
        var datapaths = machines.Select(m => Walks.At(m, width)).ToList();
        var walks = operands.Count == 0 ? [] : datapaths.Select(d => Walks.Of(d, operands)).ToList();
        return CompareDocument.Of(Comparison.Of(datapaths), walks, HouseStyle.None, Vocabulary.English);
    }

    private static string Pages(Func<Document, string> write) =>
        string.Join(
            '\n',
            write(Of(4, Dividers, 7, 2)),
            write(Of(8, [.. Dividers, "divide-shift-first", "divide-adding-back"], 200, 7)),
            write(Of(4, ["multiply-moving-multiplicand", "multiply-booth-radix-4"])),
            write(Of(4, ["divide-early-out", "divide-srt-radix-2"], 13, 3))
        );

    [Fact]
    public void On_80_columns_it_looks_like_this() =>
        Snapshot.Match(nameof(On_80_columns_it_looks_like_this), Pages(d => DocumentText.Of(d, 80)));

    [Fact]
    public void On_120_columns_it_looks_like_this() =>
        Snapshot.Match(nameof(On_120_columns_it_looks_like_this), Pages(d => DocumentText.Of(d, 120)));

    [Fact]
    public void In_other_forms_it_looks_like_this()
    {
        var document = Of(4, Dividers, 7, 2);
        Snapshot.Match(
            nameof(In_other_forms_it_looks_like_this),
            string.Join(
                '\n',
                Markdown.Of(document),
                Latex.Of(document),
                Csv.Of(document).Replace("\r\n", "\n"),
                Prose.Of(document, Vocabulary.English)
            )
        );
    }

    /// <summary>
    /// The widths that the three versions of the divider have in Patterson and Hennessy, Computer Organization and Design,
    /// section 3.4 (from memory): remainder 2n in all; divisor 2n, n, n; quotient n, n, none; adder 2n, n, n.
    /// </summary>
    [Theory]
    [InlineData(8)]
    [InlineData(32)]
    public void The_three_dividers_have_the_widths_of_the_textbook(int n)
    {
        var comparison = Comparison.Of([.. Dividers.Select(m => Walks.At(m, n))]);
        Assert.Equal([5 * n, 4 * n, 3 * n], comparison.Versions.Select(v => v.RegisterBits.Count));
        Assert.Equal(
            [2 * n, n, n],
            comparison.Versions.Select(v => Comparison.BitsOf(v, Datapaths.UnitKind.Adder).Count)
        );
    }

    [Fact]
    public void A_version_is_compared_with_the_nearest_one_it_descends_from()
    {
        var comparison = Comparison.Of([Walks.At(Dividers[0], 4), Walks.At(Dividers[2], 4)]);
        Assert.Equal(comparison.Versions[0], comparison.Followed(comparison.Versions[1]));
        Assert.Null(comparison.Followed(comparison.Versions[0]));
    }

    /// <summary>A mark stands where the bits are others than those in the nearest cell to the left that has any, and only there.</summary>
    [Fact]
    public void What_differs_is_marked_and_nothing_else()
    {
        var grid = Of(4, Dividers, 7, 2).Grids.Single(g => g.Name == "walks");
        Assert.NotEmpty(grid.Rows);
        foreach (var row in grid.Rows)
        {
            var shown = row.Cells.Skip(2).Where(c => !c.IsEmpty).ToList();
            var texts = shown.Select(c => c.Lines[0].ToString().Replace(" ", "")).ToList();
            Assert.Equal(texts.Select((t, i) => i > 0 && t != texts[i - 1]), shown.Select(c => c.IsMarked));
        }
    }

    public static TheoryData<string> Catalogue => [.. Machines.Catalogue];

    /// <summary>Every state of every walk stands somewhere, however its loops and steps lie.</summary>
    [Theory]
    [MemberData(nameof(Catalogue))]
    public void A_machine_beside_itself_shows_its_last_registers_and_no_difference(string machine)
    {
        var datapath = Walks.At(machine, Machines.Widths(Machines.Named(machine), 5).Last());
        var walk = Running.Walk.Of(datapath, SampleOperands.Of(datapath, new Random(1)).First());
        var document = CompareDocument.Of(
            Comparison.Of([datapath, datapath]),
            [walk, walk],
            HouseStyle.None,
            Vocabulary.English
        );
        var rows = document.Grids.Single(g => g.Name == "walks").Rows;
        Assert.DoesNotContain(rows, r => r.Cells.Any(c => c.IsMarked));
        var last = rows.TakeLast(datapath.Registers.Count)
            .Select(r => (r.Cells[1].Lines[0].ToString(), r.Cells[2].Lines[0].ToString().Replace(" ", "")));
        Assert.Equal(
            datapath.Registers.Select(r => (r.Name, Bits.Text(walk.Rows[^1].Registers[r.Index], r.Width))),
            last
        );
        Assert.All(DocumentText.Of(document, 80).Split('\n'), line => Assert.True(line.Length <= 80, line));
    }
}
