using System.Numerics;
using Reckoner.Checking;
using Reckoner.Choosing;
using Reckoner.Datapaths;
using Reckoner.Running;
using Reckoner.Slips;
using Xunit;

namespace Reckoner.Tests.Choosing;

/// <summary>Operands chosen for slips, against every slip walked on every operand.</summary>
public class SlipSetsTests
{
    private const long Enough = 20_000_000;

    public static TheoryData<string> Small =>
        ["divide-still-divisor", "divide-non-restoring", "multiply-booth", "multiply-early-out", "root-restoring"];

    private static SlipSets Of(string machine, out Twin twin)
    {
        var datapath = Machines.Bound(
            Machines.Named(machine),
            machine.StartsWith("root", StringComparison.Ordinal) ? 4 : 3
        );
        twin = new Twin(datapath);
        return new SlipSets(Candidates.Of(datapath, InterpretedEngine.Widest, null));
    }

    [Theory]
    [MemberData(nameof(Small))]
    public void The_chosen_operands_expose_every_slip_that_any_operand_exposes(string machine)
    {
        var shown = Of(machine, out var twin).ExposingAll(Enough);

        Assert.Equal(twin.Exposable, shown.Slips.Select(s => s.Slip.Name));
        Assert.Equal(twin.Hidden, shown.Hidden.Select(s => s.Name));
        Assert.All(shown.Slips, s => Assert.Contains(s.Results, r => r is not null));
        AssertWalked(shown, twin);
        Assert.True(shown.IsFewest);
        Assert.Equal(twin.Fewest(twin.Exposed), shown.Chosen.Count);
    }

    [Theory]
    [MemberData(nameof(Small))]
    public void The_results_for_the_chosen_operands_say_which_slip_was_made(string machine)
    {
        var shown = Of(machine, out var twin).TellingApart(Enough);

        AssertWalked(shown, twin);
        Assert.Equal(twin.Exposable, shown.Slips.Select(s => s.Slip.Name));
        Assert.Equal(twin.Hidden, shown.Hidden.Select(s => s.Name));
        // Those that give the same for the chosen operands give the same for all.
        var same = shown
            .Slips.GroupBy(s => Text(s.Results.Zip(shown.Chosen, (wrong, c) => wrong ?? c.Results)))
            .Select(g => string.Join(", ", g.Select(s => s.Slip.Name)))
            .ToList();
        Assert.Equal(twin.Kinds, same);
        Assert.Equal(
            same.Where(s => s.Contains(',', StringComparison.Ordinal)),
            shown.Alike.Select(g => string.Join(", ", g.Select(s => s.Name)))
        );
        Assert.All(shown.Slips, s => Assert.Contains(s.Results, r => r is not null));
        Assert.True(shown.IsFewest);
        Assert.Equal(twin.Fewest(twin.Apart), shown.Chosen.Count);
    }

    [Fact]
    public void With_no_effort_the_chosen_operands_still_do_and_the_bound_is_right()
    {
        var slips = Of("divide-srt-radix-2", out var twin);
        var shown = slips.TellingApart(effort: 0);
        Assert.Equal(
            twin.Kinds.Count,
            shown.Slips.GroupBy(s => Text(s.Results.Zip(shown.Chosen, (wrong, c) => wrong ?? c.Results))).Count()
        );
        Assert.InRange(shown.AtLeast!.Value, 1, slips.TellingApart(Enough).Chosen.Count);
        Assert.InRange(shown.Chosen.Count, slips.TellingApart(Enough).Chosen.Count, 100);
    }

    private static string Text(IEnumerable<IReadOnlyList<BigInteger>> results) =>
        string.Join("; ", results.Select(r => string.Join(' ', r)));

    /// <summary>What is shown of each slip is what its own walk gives, and nothing where that is right.</summary>
    private static void AssertWalked(SlipsShown shown, Twin twin)
    {
        foreach (var slip in shown.Slips)
        {
            foreach (var (wrong, chosen) in slip.Results.Zip(shown.Chosen))
            {
                Assert.Equal(twin.Results(null, chosen.Operands), chosen.Results);
                var walked = twin.Results(slip.Slip.Name, chosen.Operands);
                Assert.Equal(walked.SequenceEqual(chosen.Results) ? null : walked, wrong);
            }
        }
    }

    /// <summary>The results of every slip for every operand inside "given", by plain walks.</summary>
    private sealed class Twin
    {
        private readonly Datapath right;
        private readonly List<(string Name, Datapath Datapath)> slips = [];
        private readonly List<BigInteger[]> given;
        private readonly Dictionary<string, List<string>> results = [];

        public Twin(Datapath right)
        {
            this.right = right;
            given = [.. Binding.OperandCorners.Of(right).Where(right.IsGiven)];
            foreach (var slip in Slip.Of(right.Machine))
            {
                var built = slip.Machine.Built(right.Widths.ToDictionary(w => w.Name, w => w.Value));
                if (
                    built is not null
                    && built
                        .Results.Select(r => (r.Name, r.Width))
                        .SequenceEqual(right.Results.Select(r => (r.Name, r.Width)))
                )
                {
                    slips.Add((slip.Name, built));
                    results[slip.Name] = Walked(built);
                }
            }
            results[""] = Walked(right);
        }

        private List<string> Walked(Datapath datapath) =>
            [.. given.Select(o => string.Join(' ', Walk.Of(datapath, o).Results))];

        public IEnumerable<string> Exposable => slips.Select(s => s.Name).Where(n => !IsSame(n, ""));
        public IEnumerable<string> Hidden => slips.Select(s => s.Name).Where(n => IsSame(n, ""));

        /// <summary>The slips that some operand exposes, those on one line that give the same for all operands.</summary>
        public IReadOnlyList<string> Kinds =>
            [.. Exposable.GroupBy(n => string.Join(';', results[n])).Select(g => string.Join(", ", g))];

        /// <summary>For every slip that any operand exposes, the places of those operands.</summary>
        public IReadOnlyList<HashSet<int>> Exposed => [.. Exposable.Select(n => Differing(n, ""))];

        /// <summary>For every two that differ anywhere, the right machine among them, the places where they do.</summary>
        public IReadOnlyList<HashSet<int>> Apart =>
            [
                .. from one in results.Keys
                from other in results.Keys
                where string.CompareOrdinal(one, other) < 0
                let differing = Differing(one, other)
                where differing.Count > 0
                select differing,
            ];

        public IReadOnlyList<BigInteger> Results(string? slip, IReadOnlyList<BigInteger> operands) =>
            Walk.Of(slip is null ? right : slips.First(s => s.Name == slip).Datapath, operands).Results;

        /// <summary>The smallest number of operands that hit every set, by trying all sets of one, of two, and so on.</summary>
        public int Fewest(IReadOnlyList<HashSet<int>> sets)
        {
            var count = 1;
            while (!IsHit(sets, count, 0))
            {
                count++;
            }
            return count;
        }

        private bool IsHit(IReadOnlyList<HashSet<int>> open, int count, int from) =>
            open.Count == 0
            || (
                count > 0
                && Enumerable
                    .Range(from, given.Count - from)
                    .Any(o => IsHit([.. open.Where(s => !s.Contains(o))], count - 1, o + 1))
            );

        private bool IsSame(string one, string other) => results[one].SequenceEqual(results[other]);

        private HashSet<int> Differing(string one, string other) =>
            [.. Enumerable.Range(0, given.Count).Where(i => results[one][i] != results[other][i])];
    }
}
