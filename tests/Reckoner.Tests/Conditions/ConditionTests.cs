using System.Numerics;
using Reckoner.Checking;
using Reckoner.Choosing;
using Reckoner.Diagnostics;
using Reckoner.Running;
using Xunit;

namespace Reckoner.Tests.Conditions;

/// <summary>Conditions against walks: for every operand at 4 bits a condition is so where a plain reading of the walk says so.</summary>
public class ConditionTests
{
    private const string Division = "divide-still-divisor";
    private const string Booth = "multiply-booth";
    private const string Early = "multiply-early-out";
    private const string Signed = "divide-non-restoring";

    private static readonly Dictionary<(string Machine, string Condition), Func<Seen, bool>> Meanings = new()
    {
        [(Division, "quotient > divisor > remainder")] = w =>
            w["quotient"] > w["divisor"] && w["divisor"] > w["remainder"],
        [(Division, "dividend / remainder = 2")] = w => w["remainder"] != 0 && w["dividend"] == 2 * w["remainder"],
        [(Division, "2^floor(log2(divisor)) <> divisor")] = w => !w["divisor"].IsPowerOfTwo,
        [(Division, "2^(floor(log2(divisor)) + 1) > dividend + 1")] = w =>
            BigInteger.Pow(2, (int)BigInteger.Log2(w["divisor"]) + 1) > w["dividend"] + 1,
        [(Division, "divisor^floor(log2(divisor)) = 16")] = w => w["divisor"] == 4,
        [(Division, "2^(quotient - divisor) = 1/4")] = w => w["quotient"] - w["divisor"] == -2,
        [(Division, "(remainder - 2)^remainder < 0")] = w => w["remainder"] == 1,
        [(Division, "2^(dividend / 2) = 8")] = w => w["dividend"] == 6,
        [(Division, "floor(dividend / divisor)^2 = 9")] = w => w["quotient"] == 3,
        [(Division, "remainder is odd")] = w => !w["remainder"].IsEven,
        [(Division, "quotient + divisor is even")] = w => (w["quotient"] + w["divisor"]).IsEven,
        [(Division, "operands have at most 1 digit")] = w => w["dividend"] < 10 && w["divisor"] < 10,
        [(Division, "dividend has exactly 2 digits")] = w => w["dividend"] >= 10,
        [(Division, "results have at least 2 digits")] = w => w["quotient"] >= 10 && w["remainder"] >= 10,
        [(Division, "borrow happens")] = w => w.Bits("borrow").Contains(true),
        [(Division, "not borrow never happens")] = w => !w.Bits("borrow").Contains(false),
        [(Division, "not borrow happens exactly twice")] = w => w.Bits("borrow").Count(b => !b) == 2,
        [(Division, "borrow happens at least 4 times")] = w => w.Bits("borrow").Count(b => b) >= 4,
        [(Division, "borrow happens at most n times")] = w => w.Bits("borrow").Count(b => b) <= 4,
        [(Division, "borrow happens at most 99 times")] = _ => true,
        [(Division, "not borrow happens 99 times")] = _ => false,
        [(Division, "borrow always happens")] = w => w.Bits("borrow").All(b => b),
        [(Division, "borrow happens the first time")] = w => w.Bits("borrow")[0],
        [(Division, "not borrow happens the last time")] = w => !w.Bits("borrow")[^1],
        [(Division, "not borrow happens in cycle 3")] = w => !w.Bits("borrow")[2],
        [(Division, "not borrow happens in cycle 9")] = _ => false,
        [(Division, "not borrow happens in the last cycle")] = w => !w.Bits("borrow")[^1],
        [(Division, "not borrow happens right after borrow")] = w =>
            Pairs(w.Bits("borrow")).Any(p => p is (true, false)),
        [(Division, "borrow happens right after not borrow")] = w =>
            Pairs(w.Bits("borrow")).Any(p => p is (false, true)),
        [(Division, "not borrow goes both ways")] = w => w.Bits("borrow").Distinct().Count() == 2,
        [(Division, "every outcome happens")] = w => w.Bits("borrow").Distinct().Count() == 2,
        [(Division, "no two cycles alike")] = w => w.Rows.Distinct().Count() == w.Rows.Count,
        [(Division, "slip guard-dropped-not-last is exposed")] = w => w["remainder"] != 0,
        [(Division, "slip guard-dropped-not-last stays hidden")] = w => w["remainder"] == 0,
        [(Division, "(remainder = 0 and not borrow happens) or not (divisor <> 3)")] = w =>
            (w["remainder"] == 0 && w.Bits("borrow").Contains(false)) || w["divisor"] == 3,
        [(Signed, "A < 0 happens")] = w => w.Walk.Rows[^2].Registers[0] >= 16,
        [(Signed, "negative happens twice")] = w => w.Bits("negative").Count(b => b) == 2,
        [(Booth, "Q[0]:before = 0b01 happens at least twice")] = w => w.Digits.Count(d => d == 1) >= 2,
        [(Booth, "Q[0]:before = 0b10 goes both ways")] = w => w.Digits.Contains(2) && w.Digits.Any(d => d != 2),
        [(Booth, "Q[0]:before = else always happens")] = w => w.Digits.All(d => d is 0 or 3),
        [(Booth, "every outcome happens")] = w =>
            w.Digits.Contains(1) && w.Digits.Contains(2) && w.Digits.Any(d => d is 0 or 3),
        [(Booth, "product < 0 and operands have exactly 1 digit")] = w => w["product"] < 0,
        [(Early, "at most 2 cycles")] = w => w.Walk.Cycles <= 2,
        [(Early, "exactly 0 cycles or takes at least n cycles")] = w => w.Walk.Cycles is 0 or 4,
        [(Early, "Q[0] happens in the last cycle")] = w => w["multiplier"] != 0,
        [(Early, "Q[0] always happens")] = w => w["multiplier"] is var m && m > 0 && (m & (m + 1)) == 0,
        [(Early, "no two cycles alike")] = w => w.Rows.Distinct().Count() == w.Rows.Count,
        [("root-restoring", "borrow happens the last time and radicand is odd")] = w =>
            w["root"].IsEven && !w["radicand"].IsEven,
    };

    public static TheoryData<string, string> Conditions
    {
        get
        {
            var data = new TheoryData<string, string>();
            foreach (var (machine, condition) in Meanings.Keys)
            {
                data.Add(machine, condition);
            }
            return data;
        }
    }

    [Theory]
    [MemberData(nameof(Conditions))]
    public void A_condition_is_so_where_the_walk_shows_it(string machine, string condition)
    {
        var datapath = Machines.Bound(Machines.Named(machine), ("n", 4));
        var report = new Report(null);
        var chosen = Candidates.Of(datapath, InterpretedEngine.Widest, null).Showing(condition, report);
        Assert.Empty(report.InOrder());

        var shown = chosen!.Chosen.Select(i => string.Join(' ', chosen.Table.Cases[i])).ToHashSet();
        var wrong = chosen
            .Table.Cases.Select(c => new Seen(Walk.Of(datapath, c)))
            .Where(w => w.Walk.IsGiven)
            .Where(w => Meanings[(machine, condition)](w) != shown.Contains(w.Told))
            .Select(w => w.Told);
        Assert.Equal("", string.Join("; ", wrong.Take(5)));
    }

    /// <summary>What fits is taken at any width, and what does not is said.</summary>
    [Theory]
    [InlineData(6, "2^floor(log2(divisor)) <> divisor", true)]
    [InlineData(32, "2^ceil(log2(divisor)) >= divisor", true)]
    [InlineData(6, "2^quotient > dividend", true)]
    [InlineData(8, "2^quotient > dividend", true)]
    [InlineData(16, "2^quotient > dividend", false)]
    [InlineData(8, "3^quotient > dividend", false)]
    [InlineData(6, "2^(quotient * divisor) > 1", false)]
    [InlineData(6, "quotient^20 > 1", true)]
    [InlineData(6, "quotient^200 > 1", false)]
    public void A_formula_is_taken_where_its_bits_fit(int width, string condition, bool isTaken)
    {
        var datapath = Machines.Bound(Machines.Named(Division), ("n", width));
        BigInteger[][] sample =
        [
            [3, 2],
            [5, 3],
        ];
        var report = new Report(null);
        var chosen = Candidates.Of(datapath, InterpretedEngine.Widest, sample).Showing(condition, report);
        Assert.Equal(isTaken, chosen is not null);
        Assert.Equal(isTaken ? [] : [Id.ConditionTooLarge], report.InOrder().Select(d => d.Id));
    }

    private static IEnumerable<(bool, bool)> Pairs(IReadOnlyList<bool> bits) => bits.Zip(bits.Skip(1));

    /// <summary>A walk as a reader sees it.</summary>
    private sealed record Seen(Walk Walk)
    {
        public string Told => string.Join(' ', Walk.Operands);

        public BigInteger this[string name] =>
            Walk.Datapath.Operands.FirstOrDefault(o => o.Name == name) is { } operand
                ? operand.Number(Walk.Operands[operand.Index])
                : Walk
                    .Datapath.Results.Zip(Walk.Results)
                    .Where(r => r.First.Name == name)
                    .Select(r => r.First.Number(r.Second))
                    .Single();

        /// <summary>A named bit in every cycle that has it.</summary>
        public IReadOnlyList<bool> Bits(string wire) =>
            [
                .. Walk
                    .Rows.Select(r => r.Moments.SelectMany(m => m.Values).FirstOrDefault(v => v.Wire.Name == wire))
                    .OfType<WireValue>()
                    .Select(v => v.Bits.IsOne),
            ];

        /// <summary>What Booth's machine looks at in every cycle: the last bit of Q and the bit before, as a number.</summary>
        public IReadOnlyList<int> Digits =>
            [.. Walk.Rows.Skip(1).Select(r => (int)((r.Before[1] & 1) << 1 | r.Before[2]))];

        public IReadOnlyList<string> Rows => [.. Walk.Rows.Select(r => string.Join(' ', r.Registers))];
    }
}
