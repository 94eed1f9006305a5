using Reckoner.Checking;
using Reckoner.Slips;
using Xunit;

namespace Reckoner.Tests;

/// <summary>Slips that are tried a few at a time show what they show all together.</summary>
public class SlipTablesTests
{
    [Theory]
    [InlineData("divide-still-divisor", 1)]
    [InlineData("divide-still-divisor", 7)]
    [InlineData("multiply-booth", 10)]
    public void In_whatever_number_they_are_tried_they_show_the_same(string machine, int atOnce)
    {
        var all = Shown(machine, 512);
        Assert.InRange(all.Count, 10, 500);
        Assert.Equal(all, Shown(machine, atOnce));
    }

    private static List<string> Shown(string machine, int atOnce)
    {
        var datapath = Walks.At(machine, 3);
        var tables = new SlipTables(datapath, InterpretedEngine.Widest, null, withConditions: true, atOnce);
        var slips = Slip.Of(datapath.Machine);
        var shown = new List<string>();
        for (var at = 0; at < slips.Count; )
        {
            var tried = tables.Try(slips, ref at, Pace.Alone);
            Assert.InRange(tried.Count, 0, atOnce);
            shown.AddRange(
                tried.Select(t =>
                    $"{t.Slip.Name} {t.Exposed} {string.Join(' ', t.Smallest ?? [])} {t.SameGates} {string.Join(" | ", t.Fitting)}"
                )
            );
        }
        return shown;
    }
}
