using System.Numerics;
using Reckoner.Checking;
using Reckoner.Choosing;
using Reckoner.Running;
using Reckoner.Slips;
using Xunit;

namespace Reckoner.Tests.Choosing;

/// <summary>What is counted for all cases at once is counted off the walk of each once more, place by place.</summary>
public class CaseWorkTests
{
    /// <summary>Machines that add, subtract, negate, take magnitudes, in every cycle or where a decision says so.</summary>
    public static TheoryData<string, int> Machines_ =>
        new()
        {
            { "divide-still-divisor", 4 },
            { "divide-non-restoring", 4 },
            { "divide-signed-truncating", 4 },
            { "multiply-booth", 4 },
            { "multiply-booth-radix-4", 4 },
            { "multiply-early-out", 4 },
            { "multiply-shared-register", 4 },
            { "root-restoring", 4 },
        };

    private static Candidates All(string machine, int width) =>
        Candidates.Of(Machines.Bound(Machines.Named(machine), width), InterpretedEngine.Widest, null);

    [Theory]
    [MemberData(nameof(Machines_))]
    public void Carries_are_those_of_the_walk(string machine, int width)
    {
        var candidates = All(machine, width);
        var work = new CaseWork(candidates);
        var carried = false;
        foreach (var index in candidates.Chosen)
        {
            var sums = Walk.Of(candidates.Datapath, candidates.Table.Cases[index])
                .Rows.SelectMany(r => r.Moments)
                .SelectMany(m => m.Happenings)
                .OfType<Summed>()
                .ToList();
            Assert.Equal(Count(sums), work.Carries(index));
            Assert.Equal(Longest(sums), work.LongestCarry(index));
            carried |= work.LongestCarry(index) > 1;
        }
        Assert.True(carried);
    }

    internal static int Count(IEnumerable<Summed> sums) => sums.Sum(s => Carries(s).Count(c => c));

    internal static int Longest(IEnumerable<Summed> sums) =>
        sums.Select(s => Longest(Carries(s))).DefaultIfEmpty().Max();

    internal static int Digits(Walk walk) =>
        walk
            .Datapath.Operands.Zip(walk.Operands, (o, b) => o.Number(b))
            .Concat(walk.Datapath.Results.Zip(walk.Results, (r, b) => r.Number(b)))
            .Sum(n => $"{BigInteger.Abs(n)}".Length);

    /// <summary>Digit by digit, as at school.</summary>
    private static List<bool> Carries(Summed sum)
    {
        var (carries, carry) = (new List<bool>(), 0);
        for (var place = 0; place < sum.Width; place++)
        {
            var (a, b) = ((int)((sum.Left >> place) & 1), (int)((sum.Right >> place) & 1));
            carry = sum.Subtracts ? (a - b - carry < 0 ? 1 : 0) : (a + b + carry) / 2;
            carries.Add(carry == 1);
        }
        return carries;
    }

    private static int Longest(List<bool> carries)
    {
        var (longest, run) = (0, 0);
        foreach (var carry in carries)
        {
            run = carry ? run + 1 : 0;
            longest = Math.Max(longest, run);
        }
        return longest;
    }

    [Theory]
    [MemberData(nameof(Machines_))]
    public void Shortcuts_are_those_of_the_numbers(string machine, int width)
    {
        var candidates = All(machine, width);
        var work = new CaseWork(candidates);
        var met = new HashSet<Shortcut>();
        foreach (var index in candidates.Chosen)
        {
            var chosen = work.Decisions.At(index);
            var byNumbers = Shortcuts.Of(candidates.Datapath, chosen.Operands, chosen.Results).ToList();
            var byGates = Shortcuts.All.Where(s => s != Shortcut.SlipUnseen && work.Has(s, index));
            Assert.Equal(byNumbers.Order(), byGates.Order());
            Assert.Equal(byNumbers.Select(Shortcuts.Shortness).DefaultIfEmpty().Max(), work.Shortness(index));
            met.UnionWith(byNumbers);
        }
        Assert.Contains(Shortcut.PowerOfTwo, met);
        Assert.Contains(Shortcut.SmallOperand, met);
        Assert.Contains(Shortcut.SmallResult, met);
        Assert.Equal(candidates.Datapath.Operands.Count > 1, met.Contains(Shortcut.EqualOperands));
    }

    [Theory]
    [MemberData(nameof(Machines_))]
    public void Digits_are_those_of_the_numbers_as_they_are_written(string machine, int width)
    {
        var candidates = All(machine, width);
        var work = new CaseWork(candidates);
        foreach (var index in candidates.Chosen)
        {
            Assert.Equal(Digits(Walk.Of(candidates.Datapath, candidates.Table.Cases[index])), work.Digits(index));
        }
    }

    /// <summary>Every slip is walked with some operands, and what differs is counted.</summary>
    [Theory]
    [InlineData("divide-still-divisor", 5)]
    [InlineData("multiply-booth", 4)]
    public void Exposed_slips_are_those_whose_walks_end_otherwise(string machine, int width)
    {
        var candidates = All(machine, width);
        var work = new CaseWork(candidates);
        var built = SlipStudy.Built(candidates.Datapath);
        var chosen = candidates.Chosen.ToList();
        foreach (var index in chosen.Where((_, i) => i % 37 == 5))
        {
            var operands = candidates.Table.Cases[index];
            var right = Walk.Of(candidates.Datapath, operands).Results;
            Assert.Equal(
                built.Count(b => !Walk.Of(b.Datapath, operands).Results.SequenceEqual(right)),
                work.Exposed(index)
            );
        }
        Assert.Equal(chosen.Max(work.Exposed), work.MostExposed);
        Assert.Contains(chosen, i => work.Has(Shortcut.SlipUnseen, i));
    }

    /// <summary>The same cycles in another order are the same; one that decides otherwise is not.</summary>
    [Fact]
    public void What_is_decided_is_compared_cycle_by_cycle_in_any_order()
    {
        var candidates = All("multiply-booth", 4);
        var work = new CaseWork(candidates);
        string Cycles(int index)
        {
            var decisions = work.Decisions.At(index).Decisions;
            var cycles = Enumerable
                .Range(0, decisions[0].Outcomes.Count)
                .Select(c => string.Join(' ', decisions.Select(d => d.Outcomes[c])));
            return string.Join('|', cycles.Order(StringComparer.Ordinal));
        }
        var byTable = candidates.Chosen.GroupBy(work.Decided).Select(g => string.Join(' ', g));
        var byText = candidates.Chosen.GroupBy(Cycles).Select(g => string.Join(' ', g));
        Assert.Equal(byText, byTable);
    }
}
