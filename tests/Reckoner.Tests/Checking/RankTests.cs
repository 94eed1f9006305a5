using System.Numerics;
using Reckoner.Binding;
using Reckoner.Checking;
using Reckoner.Choosing;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Slips;
using Xunit;

namespace Reckoner.Tests.Checking;

/// <summary>One order says which operands are small, in every engine and every list.</summary>
public class RankTests
{
    [Fact]
    public void Pairs_of_two_signed_bits_stand_in_the_order_of_the_handbook()
    {
        int[] numbers = [-2, -1, 0, 1];
        var pairs =
            from first in numbers
            from second in numbers
            orderby Rank.OfNumbers([first, second])
            select $"{first},{second}";

        Assert.Equal(
            "0,0 1,0 0,1 -1,0 0,-1 1,1 -2,0 -1,1 1,-1 0,-2 -1,-1 -2,1 1,-2 -2,-1 -1,-2 -2,-2",
            string.Join(' ', pairs)
        );
    }

    [Fact]
    public void Operands_in_one_word_stand_in_the_same_order()
    {
        const int seed = 20;
        var random = new Random(seed);
        for (var i = 0; i < 30; i++)
        {
            var operands = Enumerable
                .Range(0, random.Next(1, 5))
                .Select(o => new Operand($"x{o}", null, Size.Of(random.Next(1, 4)), random.Next(2) == 0, o))
                .ToList();
            var order = new PackedOrder(operands);
            var all = Enumerable.Range(0, 1 << operands.Sum(o => o.Width)).Select(p => (uint)p).ToList();

            Assert.All(all, packed => Assert.Equal(packed, order.Packed(order.Ranked(packed))));
            Assert.Equal(
                all.OrderBy(packed => Rank.Of(operands, Unpacked(operands, packed))),
                all.OrderBy(order.Ranked)
            );
        }
    }

    private static BigInteger[] Unpacked(IReadOnlyList<Operand> operands, uint packed)
    {
        var low = 0;
        return
        [
            .. operands.Select(o => (BigInteger)((packed >> ((low += o.Width) - o.Width)) & ((1u << o.Width) - 1))),
        ];
    }

    /// <summary>
    /// The law fails for -1, 1 and for 1, -1 alone, and the slip that never stores the product shows for these too: of equal
    /// magnitudes and as many negatives, the one whose second operand is positive is shown.
    /// </summary>
    [Fact]
    public void Every_engine_and_every_list_shows_the_same_of_two_that_are_equally_far_from_0()
    {
        var datapath = Machines.Bound(
            """
            machine apart
            width n = 3 in 2..4
            operand a : signed n
            operand b : signed n
            register A : signed n loads a
            register B : signed n loads b
            register F : 1 loads 0
            step look
              if (A = 1 and B = -1) or (A = -1 and B = 1)
                F[0] <- 1
              end
            result far = F
            law far = 0

            """
        );
        IReadOnlyList<BigInteger> shown = [7, 1];

        foreach (var use in Enum.GetValues<OracleUse>())
        {
            var run = new CheckRun(CheckProgram.Of(datapath, null, use), InterpretedEngine.Widest);
            run.Run(0, new CaseSpace(datapath.Operands).Steps, TestContext.Current.CancellationToken);
            Assert.Equal((BigInteger)2, run.Counts[0].Failures);
            Assert.Equal(shown, run.Counts[0].Smallest!.Operands);
        }
        var words = new WordCheck(datapath, null);
        Assert.Equal(
            shown,
            words.Run(0, words.Space.Steps, stop: TestContext.Current.CancellationToken).Counts[0].Smallest!.Operands
        );
        foreach (var cases in new[] { OperandCorners.Of(datapath), [.. OperandCorners.Of(datapath).Reverse()] })
        {
            Assert.Equal(shown, words.Run(cases, words.Nothing)[0].Smallest!.Operands);
            var sampled = new CheckRun(CheckProgram.Of(datapath, null, OracleUse.Written), InterpretedEngine.Widest);
            sampled.Run(cases);
            Assert.Equal(shown, sampled.Counts[0].Smallest!.Operands);
            var study = SlipStudy.Of(datapath, InterpretedEngine.Widest, cases, withConditions: false);
            Assert.Equal(shown, study.Slips.Single(s => s.Slip.Name == "write-left-out-F-0").Smallest);
        }
        var exhausted = SlipStudy.Of(datapath, InterpretedEngine.Widest, sample: null, withConditions: false);
        Assert.Equal(shown, exhausted.Slips.Single(s => s.Slip.Name == "write-left-out-F-0").Smallest);
        var chosen = Candidates.Of(datapath, InterpretedEngine.Widest, null).Showing("far = 1", new(null))!;
        Assert.Equal([shown, [1, 7]], chosen.Chosen.Select(i => (IReadOnlyList<BigInteger>)chosen.Table.Cases[i]));
    }
}
