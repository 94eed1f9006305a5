using System.Numerics;
using System.Runtime.CompilerServices;
using Reckoner.Checking;
using Reckoner.Choosing;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Running;
using Reckoner.Slips;
using Xunit;

namespace Reckoner.Tests.Choosing;

public class EqualDifficultyTests
{
    private static Candidates All(string machine, int width) =>
        Candidates.Of(Machines.Bound(Machines.Named(machine), width), InterpretedEngine.Widest, null);

    /// <summary>The bits with a name by which these machines decide; what they decide by without one is told in the walk.</summary>
    private static readonly string[] DecidedBits = ["borrow", "negative"];

    /// <summary>
    /// What makes operands equal, read off walks: cycles, what each of them decides, carries by their bands, digits, slips whose
    /// walks end otherwise.
    /// </summary>
    private static string Difficulty(Candidates candidates, IReadOnlyList<BigInteger> operands, int mostExposed)
    {
        var datapath = candidates.Datapath;
        var walk = Walk.Of(datapath, operands);
        var cycles = walk.Rows.Select(r => string.Join(", ", Named(r).Concat(Asked(r)))).Where(t => t.Length > 0);
        var sums = walk.Rows.SelectMany(r => r.Moments).SelectMany(m => m.Happenings).OfType<Summed>().ToList();
        var widest = sums.Select(s => s.Width).DefaultIfEmpty(1).Max();
        var exposed = Exposed(datapath, walk);
        return $"{walk.Cycles}: {string.Join(" | ", cycles.Order(StringComparer.Ordinal))}; "
            + $"{(widest - CaseWorkTests.Longest(sums)) / 2} {CaseWorkTests.Count(sums) / widest} "
            + $"{CaseWorkTests.Digits(walk) / 2} {(mostExposed - exposed) / 2}";
    }

    private static IEnumerable<string> Named(Row row) =>
        row
            .Moments.TakeLast(1)
            .SelectMany(m => m.Values)
            .Where(v => DecidedBits.Contains(v.Wire.Name))
            .Select(v => $"{v.Wire.Name} is {v.Bits}");

    /// <summary>Whether a round is the last comes out alike for all operands.</summary>
    private static IEnumerable<string> Asked(Row row) =>
        row
            .Moments.SelectMany(m => m.Happenings.OfType<Tested>())
            .Select(t => $"{Notation.Printer.Text(t.Value.Written!)} is {t.Bits}")
            .Where(t => !t.Contains("last", StringComparison.Ordinal));

    private static readonly ConditionalWeakTable<Datapath, IReadOnlyList<Datapath>> Slipped = [];

    private static int Exposed(Datapath datapath, Walk right) =>
        Slipped
            .GetValue(datapath, d => [.. SlipStudy.Built(d).Select(b => b.Datapath)])
            .Count(slipped => !Walk.Of(slipped, right.Operands).Results.SequenceEqual(right.Results));

    [Theory]
    [InlineData("divide-still-divisor", 6, 30)]
    [InlineData("divide-non-restoring", 6, 20)]
    [InlineData("multiply-early-out", 6, 20)]
    [InlineData("multiply-shared-register", 6, 30)]
    [InlineData("root-restoring", 8, 30)]
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
                var draw = new EqualDifficulty(candidates).Draw(count, (ulong)seed)!;
                Assert.Equal(count, draw.Drawn.Count);
                Assert.Equal(count, draw.Drawn.Select(d => string.Join(' ', d.Operands)).Distinct().Count());
                var most = draw.Class!.Work.Exposed!.Value.Most;
                Assert.Single(draw.Drawn.Select(d => Difficulty(candidates, d.Operands, most)).Distinct());
                Assert.All(draw.Drawn, d => Assert.Empty(Shortcuts.Of(candidates.Datapath, d.Operands, d.Results)));
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
        var most = new CaseWork(candidates).MostExposed!.Value;
        var byWalk = candidates
            .Chosen.GroupBy(i => Difficulty(candidates, candidates.Table.Cases[i], most))
            .Select(g => string.Join(' ', g));
        var all = new EqualDifficulty(candidates, new EqualAllowed(false, false, Shortcuts.All)).All;
        Assert.Equal(byWalk, all.Select(c => string.Join(' ', c.Members)));
    }

    [Fact]
    public void A_seed_draws_the_same_operands_again()
    {
        var classes = new EqualDifficulty(All("divide-still-divisor", 6));
        string Drawn(ulong seed) => Written(classes.Draw(4, seed)!);
        Assert.Equal(Drawn(1), Drawn(1));
        Assert.True(Enumerable.Range(1, 20).Select(s => Drawn((ulong)s)).Distinct().Count() > 10);
    }

    private static string Written(EqualDraw draw) =>
        string.Join("; ", draw.Drawn.Select(d => string.Join('/', d.Operands)));

    [Fact]
    public void A_second_draw_is_as_hard_and_shares_nothing_with_the_first()
    {
        var classes = new EqualDifficulty(All("divide-still-divisor", 6));
        var (first, second) = (classes.Draw(12, 7)!, classes.Draw(12, 7, again: 1)!);
        Assert.Equal(first.Class, second.Class);
        Assert.Equal(12, second.Drawn.Count);
        Assert.Empty(Written(first).Split("; ").Intersect(Written(second).Split("; ")));
        var size = classes.Largest!.Size;
        var none = classes.Draw(size - 2, 7, again: 1)!;
        Assert.Empty(none.Drawn);
        Assert.Equal(2, none.Left);
    }

    [Fact]
    public void Too_few_are_neither_mixed_nor_repeated_unasked()
    {
        var classes = new EqualDifficulty(All("divide-still-divisor", 5));
        var largest = classes.All.Max(c => c.Size);
        Assert.Equal(largest, classes.Draw(largest, 1)!.Drawn.Count);
        var draw = classes.Draw(largest + 1, 1)!;
        Assert.Empty(draw.Drawn);
        Assert.Equal(largest, draw.Class!.Size);
    }

    [Fact]
    public void Where_repeats_are_allowed_all_come_once_before_any_comes_again()
    {
        var classes = new EqualDifficulty(All("divide-still-divisor", 5), new EqualAllowed(true, false, []));
        var size = classes.Largest!.Size;
        var drawn = classes.Draw(size + 3, 1)!.Drawn.Select(d => string.Join('/', d.Operands)).ToList();
        Assert.Equal(size + 3, drawn.Count);
        Assert.Equal(size, drawn.Take(size).Distinct().Count());
        Assert.Equal(drawn.Take(3), drawn.Skip(size));
    }

    [Fact]
    public void Where_neighbours_are_allowed_the_nearest_class_helps_out_and_is_told()
    {
        var classes = new EqualDifficulty(All("divide-still-divisor", 5), new EqualAllowed(false, true, []));
        var size = classes.Largest!.Size;
        var nearest = classes.Nearest(classes.Largest).First();
        var draw = classes.Draw(size + 1, 1)!;
        Assert.Equal([(nearest, 1)], draw.Neighbours);
        Assert.Equal(size + 1, Written(draw).Split("; ").Distinct().Count());
        Assert.All(
            draw.Drawn,
            d => Assert.Empty(Shortcuts.Of(All("divide-still-divisor", 5).Datapath, d.Operands, d.Results))
        );
    }

    [Fact]
    public void A_shortcut_is_left_out_unless_it_is_allowed()
    {
        var candidates = All("divide-still-divisor", 4).Showing("quotient = 1", new Report(null))!;
        var none = new EqualDifficulty(candidates).Draw(2, 1)!;
        Assert.Null(none.Class);
        Assert.Empty(none.Drawn);
        var allowed = new EqualDifficulty(
            candidates,
            new EqualAllowed(false, false, [Shortcut.SmallResult, Shortcut.SlipUnseen])
        );
        Assert.All(
            allowed.Draw(2, 1)!.Drawn,
            d => Assert.Equal([Shortcut.SmallResult], Shortcuts.Of(candidates.Datapath, d.Operands, d.Results))
        );
        Assert.Equal(2, allowed.Draw(2, 1)!.Drawn.Count);
    }

    /// <summary>The condition of a class is read, and all its operands show it.</summary>
    [Theory]
    [InlineData("divide-still-divisor")]
    [InlineData("divide-non-restoring")]
    [InlineData("divide-srt-radix-2")]
    [InlineData("multiply-booth")]
    [InlineData("multiply-booth-radix-4")]
    [InlineData("multiply-early-out")]
    [InlineData("divide-signed-truncating")]
    public void The_operands_of_a_class_show_its_condition(string machine)
    {
        var candidates = All(machine, 4);
        var tables = new DecisionTables(candidates);
        foreach (var one in new EqualDifficulty(candidates, new EqualAllowed(false, false, Shortcuts.All)).All)
        {
            var report = new Report(null);
            var condition = one.Condition(candidates.Datapath.MayStopEarly);
            var shown = candidates.Showing(condition, report);
            Assert.True(shown is not null, $"{condition}: {string.Join(", ", report.InOrder().Select(d => d.Id))}");
            Assert.Empty(one.Members.Except(shown.Chosen));
            Assert.All(shown.Chosen, i => Assert.Equal(one.Cycles, tables.Cycles(i)));
        }
    }

    [Fact]
    public void The_ways_on_are_there()
    {
        var candidates = All("divide-still-divisor", 4).Showing("remainder = 0", new Report(null))!;
        var classes = new EqualDifficulty(candidates);
        var count = 5;
        var ways = classes.Ways(classes.Largest, count);

        var wider = All("divide-still-divisor", (int)ways.Wider!.Value.Widths[0].Value);
        var there = new EqualDifficulty(wider.Showing("remainder = 0", new Report(null))!);
        Assert.Equal(there.Largest!.Size, ways.Wider.Value.Size);
        Assert.Equal(count, there.Draw(count, 1)!.Drawn.Count);
        Assert.NotEqual(classes.Largest, ways.Neighbour);
        Assert.Equal(
            classes.All.Where(c => c != classes.Largest).Min(c => c.Distance(classes.Largest!)),
            ways.Neighbour!.Distance(classes.Largest!)
        );
        var all = new EqualDifficulty(candidates, new EqualAllowed(false, false, Shortcuts.All));
        Assert.Equal(all.Largest!.Size, ways.WithShortcuts);
    }

    /// <summary>The longest carry or borrow is counted in walks apart from the gates that operands are drawn by.</summary>
    [Theory]
    [InlineData("divide-still-divisor", 4)]
    [InlineData("multiply-booth", 4)]
    [InlineData("divide-signed-floored", 4)]
    [InlineData("root-restoring", 6)]
    public void The_longest_carry_in_a_walk_is_that_of_the_gates(string machine, int width)
    {
        var candidates = All(machine, width);
        var work = new CaseWork(candidates);
        var longest = candidates
            .Chosen.Select(i => (Gates: work.LongestCarry(i), Walk: Longest(candidates.Table.Cases[i])))
            .ToList();
        Assert.True(longest.Select(l => l.Gates).Distinct().Count() > 2);
        Assert.All(longest, l => Assert.Equal(l.Gates, l.Walk));

        int Longest(IReadOnlyList<BigInteger> operands) =>
            UnusedMeasures.LongestOf(Walk.Of(candidates.Datapath, operands)) ?? 0;
    }

    /// <summary>
    /// 250 students and one machine: what was not looked at may differ, and how far is told; what was looked at differs by no more
    /// than is said, and nobody has a shortcut.
    /// </summary>
    [Theory]
    [InlineData("divide-still-divisor", 8)]
    [InlineData("multiply-booth", 8)]
    [InlineData("divide-non-restoring", 9)]
    [Trait("Length", "long")]
    public void Two_hundred_and_fifty_are_equal(string machine, int width)
    {
        var candidates = All(machine, width);
        var draw = new EqualDifficulty(candidates).Draw(250, 1)!;
        var walks = draw.Drawn.Select(d => Walk.Of(candidates.Datapath, d.Operands)).ToList();
        Assert.Equal(250, walks.Count);
        Assert.Equal(Extent.Of(walks.Select(Ones)), draw.Unused!.Ones);
        Assert.Equal(Extent.Of(walks.Select(Changes)), draw.Unused.Changes);
        var exposed = Extent.Of(walks.Select(w => Exposed(candidates.Datapath, w)));
        Assert.InRange(exposed.Most - exposed.Least, 0, 1);
        Assert.All(walks, w => Assert.Empty(Shortcuts.Of(candidates.Datapath, w.Operands, w.Results)));
        TestContext.Current.TestOutputHelper?.WriteLine(
            $"{machine} {width}: ones {draw.Unused.Ones}, changes {draw.Unused.Changes}, slips {exposed}"
        );
    }

    /// <summary>As they stand in the rows, bit by bit.</summary>
    private static int Ones(Walk walk) =>
        walk.Rows.Skip(1).Sum(r => r.Registers.Sum(b => Bits(walk.Datapath, b).Count(c => c == '1')));

    private static int Changes(Walk walk) =>
        walk
            .Rows.Skip(1)
            .Zip(walk.Rows)
            .Sum(r =>
                r.First.Registers.Zip(r.Second.Registers)
                    .Sum(p =>
                        Bits(walk.Datapath, p.First).Zip(Bits(walk.Datapath, p.Second)).Count(c => c.First != c.Second)
                    )
            );

    private static string Bits(Datapath datapath, BigInteger bits) =>
        Numbers.Bits.Text(bits, datapath.Registers.Max(r => r.Width));
}
