using System.Numerics;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Datapaths;
using Reckoner.Measuring;
using Reckoner.Numbers;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Structure;
using Reckoner.Styles;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Documents.Tests;

/// <summary>Our pages of tables in a browser, judged by axe: WCAG 2, levels A and AA, and the common practice that it knows.</summary>
public class HtmlTests
{
    private static Datapath At(string name, int width)
    {
        var machine = Machine.Read(MachineCatalogue.Find(name)!, MachineCatalogue.Find);
        return machine.At(new Dictionary<string, BigInteger> { [machine.Widths.First().Name.Text] = width }).Datapath!;
    }

    private static Walk Walk(string name, int width) =>
        Running.Walk.Of(At(name, width), [Bits.Wrap(13, width), Bits.Wrap(3, width)]);

    [Theory]
    [InlineData("divide-still-divisor", 4)]
    [InlineData("multiply-shared-register", 64)]
    public async Task Axe_finds_nothing_in_a_walk(string machine, int width) =>
        Assert.Equal(
            "",
            await Axe.Found(
                Html.Of(WalkDocument.Of(Walk(machine, width), HouseStyle.None, Vocabulary.English, false).Document!)
            )
        );

    [Fact]
    public async Task Axe_finds_nothing_in_machines_side_by_side()
    {
        List<Walk> walks = [Walk("divide-moving-divisor", 4), Walk("divide-shared-register", 4)];
        var comparison = Comparison.Of([.. walks.Select(w => w.Datapath)]);
        Assert.Equal(
            "",
            await Axe.Found(Html.Of(CompareDocument.Of(comparison, walks, HouseStyle.None, Vocabulary.English)))
        );
    }

    [Fact]
    public async Task Axe_finds_nothing_in_a_state_table() =>
        Assert.Equal(
            "",
            await Axe.Found(
                Html.Of(
                    StatesDocument.Of(ControlStates.Of(At("divide-early-out", 8)), HouseStyle.None, Vocabulary.English)
                )
            )
        );

    /// <summary>The check itself, on a page that is wrong on purpose.</summary>
    [Fact]
    public async Task A_page_without_a_language_is_found_wanting() =>
        Assert.StartsWith(
            "html-has-lang",
            await Axe.Found(
                Html.Of(
                        StatesDocument.Of(
                            ControlStates.Of(At("multiply-booth", 4)),
                            HouseStyle.None,
                            Vocabulary.English
                        )
                    )
                    .Replace(" lang=\"en\"", "", StringComparison.Ordinal)
            )
        );
}
