using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Drawing;
using Reckoner.Numbers;
using Reckoner.Running;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>
/// A line of a sum by hand that names cycles is what those cycles did, by the sums that the walk says it kept: read here from
/// its happenings, nothing of what the drawing thinks.
/// </summary>
public class HandCyclesTests
{
    private const int Seed = 19;

    /// <summary>Machines beside whose lines no cycles stand, whatever the operands: they do other things, or are wrong.</summary>
    private static readonly string[] OthersThanLines =
    [
        "divide-divisor-low",
        "divide-goldschmidt",
        "divide-moving-divisor-in-steps",
        "divide-newton-raphson",
        "divide-non-restoring",
        "divide-overshoot",
        "divide-repeated-subtraction",
        "divide-result-early",
        "divide-signed-corrected-by-sign",
        "divide-signed-non-restoring",
        "divide-srt-radix-2",
        "divide-srt-radix-4-one-word",
        "divide-srt-radix-4-row-hole",
        "root-non-restoring",
    ];

    public static TheoryData<string> Machine => [.. Machines.Catalogue.Where(m => HandSum.Of(Smallest(m)) is not null)];

    private static Datapath Smallest(string machine) => Walks.At(machine, Machines.Range(Machines.Named(machine)).Low);

    [Theory]
    [MemberData(nameof(Machine))]
    public void A_line_is_what_its_cycles_added_or_took(string machine)
    {
        var told = 0;
        foreach (var width in Machines.Widths(Machines.Named(machine), 0, 4, 7))
        {
            var datapath = Walks.At(machine, width);
            var walks = SampleOperands
                .Of(datapath, new Random(Seed))
                .Where(o => datapath.IsGiven(o))
                .Take(16)
                .Select(o => Walk.Of(datapath, o))
                .Where(w => PaperView.Suits(w) && w.Holds);
            foreach (var walk in walks)
            {
                var lines = PaperView.Lines(Figure.Of(walk, Vocabulary.English), HandSum.Of(datapath)!);
                var what = $"{machine} at {width}, {string.Join(", ", walk.Operands)}, seed {Seed}";
                Assert.True(IsTrue(walk, lines), what);
                told += lines.Lines.Count(l => l.When.Length > 0);
            }
        }
        Assert.Equal(OthersThanLines.Contains(machine), told == 0);
    }

    /// <summary>The weight of a row is in its place or in the moved word that is added; the same for all rows of a walk.</summary>
    private static bool IsTrue(Walk walk, HandLines sum)
    {
        var lines = sum.Lines.SkipLast(1).Where(l => l.Cycles is not null).ToList();
        var kept = Provenance.Of(walk).Select(r => r.Landings.Select(l => l.Value).ToHashSet()).ToList();
        var isPair = walk.Rows.SelectMany(r => r.Moments.SelectMany(m => m.Happenings)).Any(h => h is CarrySaved);
        var facts = lines
            .GroupBy(l => l.Cycles!.Value)
            .Select(g => (Cycles: g.Key, g.First().Place, Value: g.Aggregate(BigInteger.Zero, (v, l) => v + Value(l))))
            .ToList();
        bool IsSo(bool byPlace) => facts.TrueForAll(f => f.Value == Taken(f.Cycles) << (byPlace ? f.Place : 0));
        var between = Enumerable
            .Range(1, walk.Cycles)
            .Where(c => !facts.Exists(f => f.Cycles.From <= c && c <= f.Cycles.To));
        return (IsSo(byPlace: true) || IsSo(byPlace: false))
            && (facts.Count == 0 || between.All(c => Taken(new CycleSpan(c, c)).IsZero));

        // Where words are added without carries, the addition at the end makes one word of two: nothing comes to them.
        BigInteger Taken(CycleSpan cycles) =>
            walk
                .Rows.Where(r => r.Cycle >= cycles.From && r.Cycle <= cycles.To)
                .SelectMany(r =>
                    r.Moments.SelectMany(m => m.Happenings)
                        .Where(h => !isPair || h is CarrySaved)
                        .Select(h => Addend(h, kept[r.Cycle]))
                )
                .Aggregate(BigInteger.Zero, (a, b) => a + b);

        // A remainder brought down is no change; what stands below it with a minus is.
        BigInteger Value(HandLine line) =>
            HandSum.Of(walk.Datapath)!.Kind != HandKind.Multiplication && line.Sign.Length == 0
                ? 0
                : (line.Sign == "−" ? -1 : 1) * Number(line.Digits) << line.Place;
    }

    private static BigInteger Number(string digits) =>
        digits.Aggregate(BigInteger.Zero, (number, digit) => (2 * number) + (digit - '0'));

    private static BigInteger Addend(Happening happening, HashSet<Value> kept) =>
        happening switch
        {
            // Counting up or down by a constant is no row.
            Summed { Value.Inputs: [_, { Operation: Operation.Constant }] } => 0,
            Summed s when kept.Contains(s.Value) => (s.Subtracts ? -1 : 1) * Read(s.Value, s.Right),
            CarrySaved s when kept.Contains(s.Value) => Read(s.Value, s.Words[2]),
            _ => 0,
        };

    private static BigInteger Read(Value value, BigInteger bits) =>
        value.Reading == Reading.Signed ? Bits.AsSigned(bits, value.Width) : bits;

    /// <summary>The multiplier 24 is +32 and -8: nothing is done in the cycle between (published: Booth 1951, runs of ones).</summary>
    [Fact]
    public void Booth_subtracts_where_a_run_of_ones_begins_and_adds_where_it_ends()
    {
        var lines = Lines("multiply-booth", 8, 119, 24);
        Assert.Equal([(0, 0), (0, 1), (0, 2), (-1, 3), (0, 4), (1, 5), (0, 6), (0, 7)], Digits(lines));
        Assert.Equal(
            ["cycle 4: − 01110111 times −1", "cycle 5:  00000000 times 0", "cycle 6: + 01110111 times +1"],
            lines.Lines.Skip(3).Take(3).Select(l => $"{l.When}: {l.Sign} {l.Digits} {l.What}")
        );
        Assert.Equal("101100101000", lines.Lines[^1].Digits);
    }

    [Fact]
    public void Two_bits_a_cycle_have_rows_of_twice_the_multiplicand()
    {
        var lines = Lines("multiply-booth-radix-4", 8, 119, 24);
        Assert.Equal([(0, 0), (-2, 2), (2, 4), (0, 6)], Digits(lines));
        Assert.Equal(
            "−11101110 +11101110",
            $"{lines.Lines[1].Sign}{lines.Lines[1].Digits} {lines.Lines[2].Sign}{lines.Lines[2].Digits}"
        );
    }

    /// <summary>-7 times 5: every row has the sign of what was added, and so has the product.</summary>
    [Fact]
    public void Factors_below_zero_make_a_sum_with_signs()
    {
        var lines = Lines("multiply-signed-shift-add", 4, -7, 5);
        Assert.Equal("−0111 0101", $"{lines.FirstSign}{lines.First} {lines.SecondSign}{lines.Second}");
        Assert.Equal(["−0111", "0000", "−0111", "0000", "−100011"], lines.Lines.Select(l => l.Sign + l.Digits));
        Assert.Empty(lines.Recoded);
    }

    /// <summary>A multiplicand of 0 makes every row 0, and the digits are those of the multiplier all the same.</summary>
    [Fact]
    public void Digits_are_those_of_the_multiplier_even_where_nothing_is_multiplied()
    {
        var lines = Lines("multiply-booth", 4, 0, 6);
        Assert.Equal([(0, 0), (-1, 1), (0, 2), (1, 3)], Digits(lines));
        Assert.All(lines.Lines, l => Assert.DoesNotContain('1', l.Digits));
    }

    /// <summary>A machine of invented words whose first factor moves and whose second is taken two bits at a time.</summary>
    [Fact]
    public void A_machine_of_ones_own_is_told_by_what_it_adds()
    {
        var datapath = Machines.Bound(
            """
            machine wug
            width n = 4 in 4..4
            operand blick : n
            operand dax : n
            register heap : 2n + 2 loads 0
            register stone : 2n + 2 loads extend(blick)
            register rope : n loads dax
            repeat 2
              let lot = case rope[1..0]
                0b00: 0
                0b01: stone
                0b10: shl(stone, 0)
                0b11: stone + shl(stone, 0)
              end
              heap <- heap + lot
              stone <- shl(stone, 0b00)
              rope <- shr(rope, 0b00)
            end
            result toma = heap[2n-1..0]
            law toma = blick * dax
            """
        );
        var walk = Walks.Of(datapath, 11, 14);
        var lines = PaperView.Lines(Figure.Of(walk, Vocabulary.English), HandSum.Of(datapath)!);
        Assert.Equal([(2, 0), (3, 2)], Digits(lines));
        Assert.Equal(["10110", "100001", "10011010"], lines.Lines.Select(l => l.Digits));
    }

    private static IEnumerable<(int Digit, int Place)> Digits(HandLines lines) =>
        lines.Recoded.Select(d => (d.Digit, d.Place));

    private static HandLines Lines(string machine, int width, params BigInteger[] operands)
    {
        var walk = Walks.Of(Walks.At(machine, width), operands);
        return PaperView.Lines(Figure.Of(walk, Vocabulary.English), HandSum.Of(walk.Datapath)!);
    }
}
