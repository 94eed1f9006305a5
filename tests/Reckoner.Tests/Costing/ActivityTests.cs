using System.Numerics;
using Reckoner.Costing;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Questions;
using Xunit;

namespace Reckoner.Tests;

/// <summary>What changes in a machine while it works, and its cycles on average.</summary>
public class ActivityTests
{
    /// <summary>
    /// From the rows of every walk alone: registers between edges; the adder takes the upper half of R and D once in every cycle.
    /// </summary>
    [Fact]
    public void A_divider_changes_what_its_walks_say()
    {
        const int N = 3;
        var datapath = Walks.At("divide-still-divisor", N);
        var (registers, inputs, walks) = (new long[3], 0L, 0);
        for (var a = 0; a < 1 << N; a++)
        {
            for (var b = 1; b < 1 << N; b++)
            {
                walks++;
                var rows = Walks.Of(datapath, a, b).Rows;
                foreach (var (before, after) in rows.Zip(rows.Skip(1)))
                {
                    for (var i = 0; i < registers.Length; i++)
                    {
                        registers[i] += Ones(before.Registers[i] ^ after.Registers[i]);
                    }
                }
                // The last row is the end; what stood before each cycle is what the adder took.
                var taken = rows.SkipLast(1).ToList();
                inputs += taken
                    .Zip(taken.Skip(1))
                    .Sum(p =>
                        Ones((p.First.Registers[0] >> N) ^ (p.Second.Registers[0] >> N))
                        + Ones(p.First.Registers[1] ^ p.Second.Registers[1])
                    );
            }
        }
        var found = Activity.Of(datapath)!;
        Assert.Equal((walks, true), (found.Operations, found.IsAll));
        Assert.Equal(
            [.. registers.Append(inputs).Select(t => Rational.Ratio(t, walks))],
            found.Toggles.Select(t => t.Average)
        );
        Assert.Equal(["R", "D", "Q", "alu"], found.Toggles.Select(t => t.Register?.Name ?? t.Unit!.Name!));
    }

    /// <summary>The comparator takes R and D whenever the loop asks: before every cycle and, unless its bound is met, at the end.</summary>
    [Fact]
    public void What_a_loop_asks_of_a_unit_is_counted()
    {
        const int N = 3;
        var datapath = Walks.At("divide-repeated-subtraction", N);
        var (inputs, walks) = (0L, 0);
        for (var a = 0; a < 1 << N; a++)
        {
            for (var b = 1; b < 1 << N; b++)
            {
                walks++;
                var asked = Walks.Of(datapath, a, b).Rows.Take((1 << N) - 1).Select(r => r.Registers[0]).ToList();
                inputs += asked.Zip(asked.Skip(1)).Sum(p => Ones(p.First ^ p.Second));
            }
        }
        var comparator = Activity.Of(datapath)!.Toggles.Single(t => t.Unit?.Kind == UnitKind.Comparator);
        Assert.Equal(Rational.Ratio(inputs, walks), comparator.Average);
        Assert.True(inputs > 0);
    }

    private static long Ones(BigInteger bits) => BitOperations.PopCount((ulong)bits);

    /// <summary>Once by walks, once by gates; and a sample of all operands comes near.</summary>
    [Fact]
    public void Cycles_on_average_are_the_same_by_walks_and_by_gates()
    {
        var datapath = Walks.At("multiply-early-out", 5);
        var byWalks = Activity.Of(datapath)!;
        var byGates = Assert.Single(new CostQuestion([datapath]).Ask().Data!).AverageCycles;
        Assert.Equal(byWalks.AverageCycles, byGates);
        Assert.True(byWalks.LeastCycles < byGates && byGates < byWalks.MostCycles);
        var drawn = Activity.Of(datapath, 4_000, seed: 7)!;
        Assert.False(drawn.IsAll);
        Assert.True(Rational.Abs(drawn.AverageCycles - byGates!.Value) < Rational.Ratio(1, 10));
        Assert.Null(Assert.Single(new CostQuestion([Walks.At("divide-still-divisor", 4)]).Ask().Data!).AverageCycles);
    }
}
