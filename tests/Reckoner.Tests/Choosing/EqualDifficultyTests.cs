using System.Numerics;
using Reckoner.Checking;
using Reckoner.Choosing;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Running;
using Xunit;

namespace Reckoner.Tests.Choosing;

public class EqualDifficultyTests
{
    private static Candidates All(string machine, int width) =>
        Candidates.Of(Machines.Bound(Machines.Named(machine), width), InterpretedEngine.Widest, null);

    /// <summary>The bits with a name by which these machines decide; what they decide by without one is told in the walk.</summary>
    private static readonly string[] DecidedBits = ["borrow", "negative"];

    /// <summary>Cycles, and how often each decision came out how, read off the walk.</summary>
    private static string Difficulty(Datapath datapath, IReadOnlyList<BigInteger> operands)
    {
        var walk = Walk.Of(datapath, operands);
        var named = walk
            .Rows.SelectMany(r => r.Moments.TakeLast(1).SelectMany(m => m.Values))
            .Where(v => DecidedBits.Contains(v.Wire.Name))
            .Select(v => $"{v.Wire.Name} is {v.Bits}");
        var tested = walk
            .Rows.SelectMany(r => r.Moments)
            .SelectMany(m => m.Happenings.OfType<Tested>())
            .Select(t => $"{Notation.Printer.Text(t.Value.Written!)} is {t.Bits}");
        var counts = named.Concat(tested).CountBy(t => t).OrderBy(t => t.Key, StringComparer.Ordinal);
        return $"{walk.Cycles}: {string.Join(", ", counts)}";
    }

    [Theory]
    [InlineData("divide-still-divisor", 5, 6)]
    [InlineData("divide-non-restoring", 5, 8)]
    [InlineData("multiply-early-out", 5, 10)]
    [InlineData("multiply-shared-register", 5, 12)]
    [InlineData("root-restoring", 8, 12)]
    public void Operands_drawn_together_are_different_and_as_difficult_by_their_walks(
        string machine,
        int width,
        int count
    )
    {
        var candidates = All(machine, width);
        var seed = Seeds.Next();
        Seeds.Told(
            seed,
            machine,
            () =>
            {
                var draw = new EqualDifficulty(candidates).Draw(count, (ulong)seed, mayRepeat: false)!;
                Assert.Equal(count, draw.Drawn.Count);
                Assert.Equal(count, draw.Drawn.Select(d => string.Join(' ', d.Operands)).Distinct().Count());
                Assert.Single(draw.Drawn.Select(d => Difficulty(candidates.Datapath, d.Operands)).Distinct());
                Assert.True(draw.NoneTrivial);
                Assert.All(draw.Drawn, d => Assert.DoesNotContain(d.Operands, o => o.IsZero || o.IsOne));
            }
        );
    }

    /// <summary>Operands are of one class exactly when their walks are as difficult: nothing is lumped together, nothing split.</summary>
    [Theory]
    [InlineData("divide-still-divisor")]
    [InlineData("multiply-early-out")]
    [InlineData("divide-non-restoring")]
    public void Classes_are_those_of_the_walks(string machine)
    {
        var candidates = All(machine, 4);
        var byWalk = candidates
            .Chosen.GroupBy(i => Difficulty(candidates.Datapath, candidates.Table.Cases[i]))
            .Select(g => string.Join(' ', g));
        Assert.Equal(byWalk, new EqualDifficulty(candidates).All.Select(c => string.Join(' ', c.Members)));
    }

    [Fact]
    public void A_seed_draws_the_same_operands_again()
    {
        string Drawn(ulong seed) =>
            string.Join(
                "; ",
                new EqualDifficulty(All("divide-still-divisor", 5))
                    .Draw(4, seed, mayRepeat: false)!
                    .Drawn.Select(d => string.Join('/', d.Operands))
            );
        Assert.Equal(Drawn(1), Drawn(1));
        Assert.True(Enumerable.Range(1, 20).Select(s => Drawn((ulong)s)).Distinct().Count() > 10);
    }

    [Fact]
    public void Too_few_are_neither_mixed_nor_repeated_unasked()
    {
        var classes = new EqualDifficulty(All("divide-still-divisor", 4));
        var largest = classes.All.Max(c => c.Size);
        Assert.Equal(largest, classes.Draw(largest, 1, mayRepeat: false)!.Drawn.Count);
        var draw = classes.Draw(largest + 1, 1, mayRepeat: false)!;
        Assert.Empty(draw.Drawn);
        Assert.Equal(largest, draw.Class.Size);
    }

    [Fact]
    public void Where_repeats_are_allowed_all_come_once_before_any_comes_again()
    {
        var classes = new EqualDifficulty(All("divide-still-divisor", 4));
        var size = classes.Largest!.Size;
        var drawn = classes
            .Draw(size + 3, 1, mayRepeat: true)!
            .Drawn.Select(d => string.Join('/', d.Operands))
            .ToList();
        Assert.Equal(size + 3, drawn.Count);
        Assert.Equal(size, drawn.Take(size).Distinct().Count());
        Assert.Equal(drawn.Take(3), drawn.Skip(size));
    }

    /// <summary>The offer of a neighbouring class can be taken: its condition is read, and shows that class and nothing else.</summary>
    [Theory]
    [InlineData("divide-still-divisor")]
    [InlineData("divide-non-restoring")]
    [InlineData("divide-srt-radix-2")]
    [InlineData("multiply-booth")]
    [InlineData("multiply-booth-radix-4")]
    [InlineData("multiply-early-out")]
    [InlineData("divide-signed-truncating")]
    public void The_condition_of_a_class_shows_that_class_alone(string machine)
    {
        var candidates = All(machine, 4);
        foreach (var one in new EqualDifficulty(candidates).All)
        {
            var report = new Report(null);
            var condition = one.Condition(candidates.Datapath.MayStopEarly);
            var shown = candidates.Showing(condition, report);
            Assert.True(shown is not null, $"{condition}: {string.Join(", ", report.InOrder().Select(d => d.Id))}");
            Assert.True(one.Members.SequenceEqual(shown.Chosen), condition);
        }
    }

    [Fact]
    public void The_ways_on_are_there()
    {
        var candidates = All("divide-still-divisor", 4).Showing("remainder = 0", new Report(null))!;
        var classes = new EqualDifficulty(candidates);
        var count = classes.Largest!.Size + 1;
        var ways = classes.Ways(count);

        var wider = All("divide-still-divisor", (int)ways.Wider!.Value.Widths[0].Value);
        var there = new EqualDifficulty(wider.Showing("remainder = 0", new Report(null))!);
        Assert.Equal(there.Largest!.Size, ways.Wider.Value.Size);
        Assert.Equal(count, there.Draw(count, 1, mayRepeat: false)!.Drawn.Count);
        Assert.NotEqual(classes.Largest, ways.Neighbour);
        Assert.Equal(
            classes.All.Where(c => c != classes.Largest).Min(c => c.Distance(classes.Largest)),
            ways.Neighbour!.Distance(classes.Largest)
        );
    }
}
